"""The gallery's room from a noisy survey, with a wall that bows and a floor that falls."""

from __future__ import annotations

from pathlib import Path

import pytest

from model3d.build.project import Project, load
from model3d.layout.surfaces_text import surfaces_text
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
    """The piece on the bowed wall is packed straight; every piece has one drilling height from the level line;
    nothing is an error.
    """
    (held,) = loft.layout.on_walls
    assert held.straight
    assert 9.0 < held.stand_out_mm < 11.0
    assert {p.holes_down_mm for p in loft.layout.over_floor} == {(900.0, 950.0)}
    assert not [f for f in loft.layout.findings if f.severity == "error"]
    assert "A-2  " in surfaces_text(loft.layout)
