"""What a survey leaves open in the layout."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from model3d.families.family import Family
from model3d.layout import lay_out
from model3d.rooms import CheckedPlan
from model3d.survey import AngleReading, LengthReading, Reading, survey

from .rooms_by_hand import plan_of, ring_of, run_over


def surveyed(skew_mm: float, angle_sigma_deg: float) -> CheckedPlan:
    """A room of 4 m by 3 m whose third corner stands out by ``skew_mm``, surveyed with walls, a diagonal and angles."""
    points = [(0.0, 0.0), (4000.0, 0.0), (4000.0 + skew_mm, 3000.0), (0.0, 3000.0)]
    read: list[Reading] = [
        LengthReading(name=f"{i}{j}", first=i, second=j, value_mm=math.dist(points[i], points[j]), sigma_mm=2.0)
        for i, j in ((0, 1), (1, 2), (2, 3), (0, 3), (0, 2))
    ]
    read += [
        AngleReading(
            name=f"a{i}",
            corner=i,
            toward=(i + 1) % 4,
            back=i - 1,
            value_deg=180.0 - ring_of(points).corners[i].turn_deg,
            sigma_deg=angle_sigma_deg,
        )
        for i in range(1, 4)
    ]
    ring = ring_of(points)
    return replace(plan_of(ring, run_over(ring, 4, 3)), survey=survey(points, read))


@pytest.mark.parametrize(
    ("skew_mm", "angle_sigma_deg", "unsure"), [(102.0, 0.3, True), (50.0, 0.3, False), (150.0, 0.3, False)]
)
def test_a_corner_about_as_skew_as_the_elbow_bears(
    family_a: Family, skew_mm: float, angle_sigma_deg: float, unsure: bool
) -> None:
    """A corner whose turn may lie on either side of the elbow's play of 2 degrees (105 mm in 3 m) is said, no other."""
    found = [f for f in lay_out(surveyed(skew_mm, angle_sigma_deg), family_a).findings if f.code == "elbow-unsure"]
    assert bool(found) == unsure
    if unsure:
        assert {f.parts for f in found} == {("c2",)}
        assert found[0].measured == pytest.approx(math.degrees(math.atan(skew_mm / 3000)), abs=0.01)


def test_readings_that_nothing_checks_are_in_the_layout(family_a: Family) -> None:
    """The survey's own findings stand among the layout's."""
    plan = surveyed(0.0, 40.0)
    codes = {f.code for f in lay_out(plan, family_a).findings}
    assert "survey-hardly-checked" in codes
    assert not any(
        c.startswith("survey") for c in {f.code for f in lay_out(replace(plan, survey=None), family_a).findings}
    )
