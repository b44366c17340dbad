"""Allowances against a construction that calls nothing of the layout: wall lines offset by shapely, the corner
rounded by a disc.

The path of the waterways is the wall line offset by e; rounding its corner by radius r is an opening or closing with
a disc (a morphological opening leaves the arc of radius r tangent to both lines). Where the arc meets the straight
line is measured, the fittings' straight lengths are added. Reference library: shapely (GEOS).
"""

from __future__ import annotations

import math

import pytest
from shapely.geometry import Polygon

from model3d.families.family import Family
from model3d.layout import lay_out

from .rooms_by_hand import plan_of, ring_of, run_over

E_MM, R_ELBOW, R_LINK, STUB = 17.0, 14.0, 40.0, 20.0
HOSE, SLACK = 84.0, 4.0
LEG = 4000.0


def corner_room(turn_deg: float) -> Polygon:
    """A big room with one corner at the origin between a wall that arrives along +x and one turned by ``turn_deg``."""
    away = (LEG * math.cos(math.radians(turn_deg)), LEG * math.sin(math.radians(turn_deg)))
    far = 4 * LEG
    points = [(-LEG, 0.0), (0.0, 0.0), away]
    if turn_deg > 0:
        return Polygon([*points, (away[0] - far, away[1] + (0 if turn_deg > 80 else far)), (-far, far), (-far, 0.0)])
    return Polygon([*points, (far, away[1]), (far, far), (-LEG, far)])


def tangent_mm(turn_deg: float, radius_mm: float) -> float:
    """Distance from the corner, along the first wall, to where the rounded offset path leaves the straight line."""
    path_side = corner_room(turn_deg).buffer(-E_MM, join_style="mitre", mitre_limit=50)
    if turn_deg > 0:  # the arc cuts the corner of the free side off: an opening
        rounded = path_side.buffer(-radius_mm, join_style="mitre", mitre_limit=50).buffer(radius_mm, quad_segs=4000)
    else:  # round the outside of the corner the free side is filled up: a closing
        rounded = path_side.buffer(radius_mm, join_style="mitre", mitre_limit=50).buffer(-radius_mm, quad_segs=4000)
    on_line = [x for x, y in rounded.exterior.coords if abs(y - E_MM) < 1e-7 and -LEG / 2 < x < LEG / 2]
    return -max(on_line)


def arc_length_mm(turn_deg: float, radius_mm: float) -> float:
    """Length of the rounded part, from a finely divided arc."""
    steps = 20000
    step = math.radians(abs(turn_deg)) / steps
    return steps * 2 * radius_mm * math.sin(step / 2)


@pytest.mark.parametrize(
    ("turn_deg", "elbow"), [(90.0, True), (87.5, False), (45.0, False), (-90.0, False), (-45.0, False)]
)
def test_against_offset_and_fillet(family_a: Family, turn_deg: float, elbow: bool) -> None:
    """The allowance is the constructed tangent point's distance, plus the hose left over on each side, plus the stub.
    """
    radius = R_ELBOW if elbow else R_LINK
    want = tangent_mm(turn_deg, radius) + STUB
    if not elbow:
        want += (HOSE - SLACK - arc_length_mm(turn_deg, R_LINK)) / 2
    away = (2500 * math.cos(math.radians(turn_deg)), 2500 * math.sin(math.radians(turn_deg)))
    third = (away[0] - 2000.0, 2500.0 + away[1]) if turn_deg > 0 else (5000.0, 4000.0)
    ring = ring_of([(-3000.0, 0.0), (0.0, 0.0), away, third, (-3000.0, 4000.0)])
    piece = lay_out(plan_of(ring, run_over(ring, 1, 2, end_at=2000.0)), family_a).pieces[0]
    assert piece.end.joint == ("elbow-long" if elbow else "link")
    assert piece.end.allowance_mm == pytest.approx(want, abs=0.001)
    assert -piece.far_mm + 3000.0 == pytest.approx(want, abs=0.001)
