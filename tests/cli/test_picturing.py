"""The verb that takes pictures: what it writes, what it says, and what it refuses."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from PIL import Image
from typer.testing import CliRunner, Result

from model3d.cli.picturing import app
from tests.cli.running import PLAN, written

TINY = ("--size", "96x64", "--quality", "draft")


def picture(*arguments: str | Path) -> Result:
    """Run ``dryfit picture`` in this process."""
    return CliRunner().invoke(app, ["picture", *(str(a) for a in arguments)])


def test_a_picture_is_written_and_said(tmp_path: Path) -> None:
    """The file is there at the size asked, in a folder made for it; --json says what share of the run is seen."""
    out = tmp_path / "pictures" / "w1.png"
    ran = picture(written(tmp_path), "--view", "w1", "--out", out, *TINY, "--json")
    assert ran.exit_code == 0, ran.output
    with Image.open(out) as made:
        assert made.size == (96, 64)
    said = json.loads(ran.stdout)
    assert said["view"] == "w1"
    assert said["size_px"] == [96, 64]
    assert 0.5 < said["run_seen"] <= 1.0


def test_the_names_of_the_views_are_listed(tmp_path: Path) -> None:
    """Above, a corner, every wall and every corner."""
    plan = written(tmp_path)
    walls, corners = ([f"{kind}{n}" for n in (1, 2, 3, 4)] for kind in "wc")
    assert picture(plan, "--list").stdout.split() == ["above", "corner", *walls, *corners]
    listed = json.loads(picture(plan, "--list", "--json").stdout)["views"]
    assert {"view": "w1", "of_the_plan": False} in listed


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--view", "w9", "--out", "x.png"), "there is no view 'w9'"),
        (("--view", "w1"), "give --out"),
        (("--out", "x.gif"), ".png or .webp"),
        (("--out", "x.png", "--size", "0x10"), "is no size"),
        (("--out", "x.png", "--size", "wide"), "is no size"),
        (("--out", "x.png", "--before", "--beside", "before"), "do not go together"),
        (("--out", "x.png", "--beside", "d-round"), "d-round"),
    ],
)
def test_what_cannot_be_taken_is_refused_with_two(tmp_path: Path, arguments: tuple[str, ...], said: str) -> None:
    """A view, size, file or family that there is not: exit code 2, one line, nothing written."""
    ran = picture(written(tmp_path), *arguments)
    assert ran.exit_code == 2
    assert said in ran.stderr
    assert not list(tmp_path.glob("*.png"))


def test_a_layout_that_is_refused_has_no_picture(tmp_path: Path) -> None:
    """Errors found: their list, and exit code 1."""
    corners = "[[0, 0], [4200, 0], [4200, 3400], [4150, 3400], [4150, 3600], [0, 3600]]"
    text = PLAN.replace("[[0, 0], [4200, 0], [4200, 3400], [0, 3400]]", corners)
    plan = written(tmp_path, text.replace("{wall: w1, at: 2900}", "{wall: w5, at: 2900}"))
    ran = picture(plan, "--out", tmp_path / "x.png")
    assert ran.exit_code == 1
    assert "[no-room-for-piece]" in ran.stdout
    assert not (tmp_path / "x.png").exists()
