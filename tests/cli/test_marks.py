"""What a fitter reads on the wall: marks from the nearest corner, drilling heights, packers, fixing, cautions."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from model3d.cli.explaining import app

from .running import dryfit

PLAN = """\
version: 1
family: a-square
room: {corners: [[0, 0], [3600, 0], [3600, 3000], [0, 3000]]}
obstacles:
  - {id: low-socket, kind: socket-outlet, wall: w4, at: 1500, up: 100}
fixing:
  - {wall: w1, kind: studs, spacing: 400, first: 200}
  - {wall: w2, kind: masonry}
bows:
  - {wall: w1, readings: [[1800, 9]]}
floor_level:
  - {wall: w1, readings: [[0, 1000], [3600, 1000]]}
water: {flow: 55, return: 45}
install: 18
frost: 5
runs:
  - {id: A, start: w4, end: w2}
"""


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    """A room with a bowed wall of studs whose floor was read, a masonry wall, and a wall with a low socket-outlet."""
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN, encoding="utf-8", newline="\n")
    return path


def figures(path: Path, *arguments: str) -> Result:
    """``dryfit figures`` of a plan."""
    return CliRunner().invoke(app, ["figures", str(path), *arguments])


def test_marks_are_printed_as_they_are_measured(plan: Path) -> None:
    """Each bracket is listed from the nearest corner and its side as you face the wall, with its drilling heights, its
    packers, what it is fixed to, and where cables may run.
    """
    said = dryfit("layout", str(plan))
    rows = {line.split()[0]: line for line in said.output.splitlines() if line.startswith("  A-") and "/" in line}
    assert "w4    215.0 from c4, right" in rows["A-1/1"]
    assert "w4    180.0 from c1, left" in rows["A-1/6"]
    assert "level with low-socket, at 100" in rows["A-1/4"]
    assert all("900.0 and 950.0 below the line" in row for row in rows.values())
    assert "w1    600.0 from c1, right" in rows["A-2/2"]
    assert all("stud" in row for mark, row in rows.items() if mark.startswith("A-2/"))
    assert all("masonry" in row for mark, row in rows.items() if mark.startswith("A-3/"))
    assert "  5.5 " in rows["A-2/2"]
    assert "Packers behind the brackets, mm" in said.output
    assert "cables may run where it is drilled" in " ".join(said.output.split())


def test_figures_of_brackets(plan: Path) -> None:
    """Asked for by themselves the marks come with every caution, those beside corners too, and with what is wrong
    with walls, floor and fixing; the JSON has all their values.
    """
    said = figures(plan, "brackets")
    assert "w4    215.0 from c4, right" in said.output
    assert "floor-not-read" in said.output
    data = json.loads(figures(plan, "brackets", "--json").stdout)
    assert len(data["spots"]) == said.output.count("below the line")
    assert [p["mark"] for p in data["on_walls"]] == [p["mark"] for p in data["over_floor"]] == ["A-2"]
    corner = plan.with_name("corner.yaml")
    corner.write_text(
        PLAN.replace("start: w4", "start: {wall: w4, at: 0}").replace("family: a-square", "family: c-low"),
        encoding="utf-8",
        newline="\n",
    )
    found = json.loads(figures(corner, "brackets", "--json").stdout)
    cautions = [c for s in found["spots"] for c in s["cautions"]]
    near = [s for s in found["spots"] if s["from_corner_mm"] < 150.0]
    assert sum("within 150 of corner" in c for c in cautions) == len(near)
    assert all(f["code"] in {"bracket-in-cable-zone", "floor-not-read"} for f in found["findings"])


def test_marks_are_in_the_json(plan: Path) -> None:
    """The same stands in the JSON: corner, side, distance, heights, packers, fixing, cautions of every bracket."""
    pieces = json.loads(dryfit("layout", str(plan), "--json").stdout)["pieces"]
    first, second, third = (p["brackets"] for p in pieces)
    assert {b["fixing"] for b in first + second + third} == {"not said", "stud", "masonry"}
    for bracket, length in [(b, n) for p, n in ((first, 3000.0), (second, 3600.0), (third, 3000.0)) for b in p]:
        assert bracket["from_corner_mm"] == pytest.approx(
            min(bracket["along_wall_mm"], length - bracket["along_wall_mm"]), abs=1e-6
        )
        assert bracket["heights_mm"] == [50.0, 100.0]
        assert bracket["below_line_mm"] == [900.0, 950.0]
    assert max(b["packers_mm"] for b in second) > 5.0
    assert all("level with low-socket, at 100" in b["cautions"] for b in first)
