"""The gallery's room from a noisy survey, with a wall that bows and a floor that falls."""

from __future__ import annotations

from pathlib import Path

import pytest

from model3d.build.checking import check_project
from model3d.build.project import Project, load
from model3d.layout.surfaces_text import surfaces_text
from model3d.nesting import nest
from model3d.survey import survey_findings

# The room that the readings were made of, each with a normal error of its standard error; mm, c1 at (0, 0), w1 along x.
TRUE = [4630.1, 2445.9, 1177.6, 3855.2, 3290.1]


@pytest.fixture(scope="module")
def loft(checkout: Path) -> Project:
    """The room as built from its plan."""
    return load(checkout / "gallery" / "surveyed" / "plan.yaml")


def test_its_readings_agree_and_give_the_walls(loft: Project) -> None:
    """The survey is accepted with a redundancy of 8; every wall comes out within three standard errors of the truth."""
    report = loft.plan.survey
    assert report is not None
    assert report.accepted
    assert report.redundancy == 8
    assert survey_findings(report) == ()
    for wall, true in zip(report.walls, TRUE, strict=True):
        assert abs(wall.length_mm - true) < 3.0 * wall.sigma_mm


def test_its_bowed_wall_is_packed_and_its_run_level(loft: Project) -> None:
    """The piece on the bowed wall is packed straight; every bracket has one drilling height from the level line; each
    packer is a part behind its bracket; nothing is an error.
    """
    (held,) = loft.layout.on_walls
    assert held.straight
    assert held.packed
    assert held.stand_out_mm == pytest.approx(13.0 - 3.0 * 81.25 / 600.0, abs=0.5)
    assert max(held.packers_mm) == 11.5
    assert {p.holes_down_mm for p in loft.layout.over_floor} == {(900.0, 950.0)}
    assert {s.below_line_mm for s in loft.layout.spots} == {(900.0, 950.0)}
    packers = [p for p in loft.scene.fitted if p.role == "packer"]
    assert len(packers) == sum(t > 0.0 for t in held.packers_mm) == 8
    assert not [f for f in loft.layout.findings if f.severity == "error"]
    assert "A-2  " in surfaces_text(loft.layout)


def test_its_findings_give_values_against_their_limits(loft: Project) -> None:
    """The bowed wall is 11 off the straight over 3.6 m, where DIN 18202 row 6 lets pass 9; one bracket finds no stud;
    the floor's fall shows under the last three pieces; two corners take links, past the elbow's play of 2.
    """
    found = [(f.code, f.parts[0], f.measured, f.limit) for f in loft.layout.findings]
    assert ("wall-bowed", "w1", pytest.approx(11.0), 9.0) in found
    assert [parts for code, parts, _, _ in found if code == "bracket-off-stud"] == ["A-3"]
    assert [(mark, round(gap or 0.0, 1), limit) for code, mark, gap, limit in found if code == "floor-gap"] == [
        ("A-3", 15.9, 13.0),
        ("A-4", 18.8, 13.0),
        ("A-5", 18.9, 13.0),
    ]
    links = [(mark, round(off or 0.0, 2), limit) for code, mark, off, limit in found if code == "link-for-elbow"]
    assert links == [("c3", 44.66, 2.0), ("c4", 43.24, 2.0)]
    assert len(found) == 7


def test_it_is_nested_with_its_optimum_proven(loft: Project) -> None:
    """Its cuts come out of bars of 5000, 5000 and 3000, and none could buy less."""
    section = nest(loft.layout, loft.family, loft.plan.cutting).sections[0]
    assert sorted(b.length_mm for b in section.bars) == [3000.0, 5000.0, 5000.0]
    assert section.proven


@pytest.mark.slow
def test_the_whole_check_finds_no_error_in_it(loft: Project) -> None:
    """With its bowed wall, packers and links, nothing clashes, every solid confirms the layout, and every move goes:
    the check says no more than the layout does.
    """
    assert check_project(loft) == loft.layout.findings
