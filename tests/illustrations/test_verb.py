"""``dryfit draw``."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from model3d.cli.illustrating import app
from tests.cli.running import written


def dryfit(*arguments: str | Path) -> Result:
    """Run ``dryfit`` with these arguments in this process."""
    return CliRunner().invoke(app, [str(a) for a in arguments])


def test_a_drawing_is_written_and_told_of(tmp_path: Path) -> None:
    """A drawing is written in the form its file's name says; ``--json`` tells its size."""
    out = tmp_path / "drawings" / "clip.pdf"
    done = dryfit("draw", written(tmp_path), "--part", "A-1/clip-start", "--out", out, "--theme", "print", "--json")
    assert done.exit_code == 0
    assert json.loads(done.stdout)["size_mm"][0] == 180.0
    assert out.read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--part", "A-9"), "no part 'A-9'"),
        ((), "give one of --view"),
        (("--part", "A-1", "--step", "2"), "give one of --view"),
        (("--part", "A-1", "--theme", "nope"), "unknown theme 'nope'"),
        (("--part", "A-1", "--out", "x.gif"), "ends in .svg"),
    ],
)
def test_what_cannot_be_drawn_is_bad_input(tmp_path: Path, arguments: tuple[str, ...], said: str) -> None:
    """A subject, theme or form that is not there leaves with exit code 2 and one line that says so."""
    done = dryfit("draw", written(tmp_path), *arguments)
    assert done.exit_code == 2
    assert said in done.stderr


def test_a_theme_of_one_s_own_by_its_path(tmp_path: Path) -> None:
    """A theme file by its path is taken; a key that it may not have is told with file, line and key, exit code 2."""
    good, bad = tmp_path / "own.yaml", tmp_path / "bad.yaml"
    good.write_text('version: 1\nname: Ours\ncolours: {ink: "#3A0A3A"}\n', encoding="utf-8")
    bad.write_text("version: 1\nname: Ours\nlines:\n  thik: 0.5\n", encoding="utf-8")
    plan, out = written(tmp_path), tmp_path / "clip.svg"
    assert dryfit("draw", plan, "--part", "A-1/clip-start", "--out", out, "--theme", good).exit_code == 0
    assert "#3A0A3A" in out.read_text(encoding="utf-8")
    done = dryfit("draw", plan, "--part", "A-1/clip-start", "--out", out, "--theme", bad)
    assert done.exit_code == 2
    assert "bad.yaml:4" in done.stderr
    assert "thik" in done.stderr


def test_words_in_german(tmp_path: Path) -> None:
    """``--language`` is that of the title and of the parts list."""
    out = tmp_path / "clip.svg"
    done = dryfit("draw", written(tmp_path), "--pair", "o-ring", "--out", out, "--language", "de")
    assert done.exit_code == 0
    assert "Richtig" in out.read_text(encoding="utf-8")
