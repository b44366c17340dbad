"""Family (a)'s corners by hand: how sharp a corner its hose passes, and how its trims clear the bend.

Rule of the reference families; plane geometry.
"""

from __future__ import annotations

import math

import pytest

from model3d.families.family import Family
from model3d.layout import lay_out

from .rooms_by_hand import plan_of, ring_of, run_over


def codes_at(family: Family, turn_deg: float) -> list[str]:
    """What the layout says of an external corner of this turn."""
    turn = math.radians(turn_deg)
    corner, far = (4000.0, 0.0), 3000.0
    out = (corner[0] + far * math.cos(-turn), far * math.sin(-turn))
    points = [(0.0, 0.0), corner, out, (out[0] + 6000.0, out[1]), (out[0] + 6000.0, 5000.0), (0.0, 5000.0)]
    ring = ring_of(points)
    assert ring.corners[1].turn_deg == pytest.approx(-turn_deg)
    plan = plan_of(ring, run_over(ring, 1, 2, end_at=2500.0))
    return [f.code for f in lay_out(plan, family).findings if f.parts == ("c2",)]


@pytest.mark.parametrize(("turn_deg", "refused"), [(90.0, False), (94.8, False), (95.2, True), (100.0, True)])
def test_how_sharp_a_corner_the_hose_passes(family_a: Family, turn_deg: float, refused: bool) -> None:
    """The hose passes an external corner's apex at 40 - 23 / cos(tau/2), at least its radius of 6: turns up to 2
    acos(23 / 34) = 94.9 degrees.
    """
    assert 2.0 * math.degrees(math.acos(23.0 / 34.0)) == pytest.approx(94.9, abs=0.1)
    assert ("corner-too-sharp" in codes_at(family_a, turn_deg)) == refused


def test_trims_over_an_elbow_corner(family_a: Family) -> None:
    """A trim proud of the faces, its inner face at u 28, clears the bend's inside by 6.5 - 3 sqrt(2) = 2.26; a flush
    one, its outer face at u 28 and its inner one at 26, would overlap it.
    """
    assert family_a.elbow is not None
    centre = family_a.section.bore_u_mm + family_a.elbow.bend_radius_mm
    inside = family_a.elbow.bend_radius_mm - family_a.elbow.body_width_mm / 2.0
    clear = {u: inside - (centre - u) * math.sqrt(2.0) for u in (28.0, 26.0)}
    assert family_a.trim.outline.start[0] == 28.0
    assert clear[28.0] == pytest.approx(6.5 - 3.0 * math.sqrt(2.0))
    assert clear[26.0] < 0.0 < family_a.trim.clearance_mm < clear[28.0]
