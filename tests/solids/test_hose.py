"""The hose as a solid: volume, ends, wall."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from OCP.BRepClass3d import BRepClass3d_SolidClassifier
from OCP.gp import gp_Pnt
from OCP.TopAbs import TopAbs_IN, TopAbs_OUT

from model3d.parts.fittings import HoseSpec
from model3d.parts.hose_curve import hose_curve
from model3d.solids.hose import hose
from model3d.solids.measure import volume_mm3
from model3d.solids.sound import SolidError

from .probing import metal_at, shells
from .square_fittings import hose_spec


@settings(max_examples=15)
@given(st.floats(-95.0, 95.0), st.floats(70.0, 130.0), st.floats(0.0, 5.0))
def test_volume_is_the_walls_ring_times_the_hoses_length(turn_deg: float, plan_mm: float, slack_mm: float) -> None:
    """A hose's volume is its ring's area times its length however it turns and sags (Pappus)."""
    spec = hose_spec(turn_deg, plan_mm, slack_mm)
    assert volume_mm3(hose(spec)) == pytest.approx(spec.volume_mm3, rel=1e-4)


@pytest.mark.parametrize("turn_deg", [-90.0, -45.0, 0.0, 45.0, 87.5, 90.0])
def test_the_wall_stands_round_the_curve_all_along(turn_deg: float) -> None:
    """Square to the centre line, the wall stands from the inner to the outer radius, within .02 mm, all
    along."""
    spec = hose_spec(turn_deg)
    solid, curve = hose(spec), hose_curve(spec)
    metal = BRepClass3d_SolidClassifier(solid.wrapped)
    for k in range(1, 8):
        s_mm = curve.plan_length_mm * k / 8.0
        here, ahead = curve.point(s_mm), curve.tangent(s_mm)
        level = (ahead[0] ** 2 + ahead[1] ** 2) ** 0.5
        left = (-ahead[1] / level, ahead[0] / level, 0.0)
        for radius, state in ((4.18, TopAbs_OUT), (4.22, TopAbs_IN), (5.98, TopAbs_IN), (6.02, TopAbs_OUT)):
            for side in (-1.0, 1.0):
                metal.Perform(gp_Pnt(*(h + side * radius * n for h, n in zip(here, left, strict=True))), 1e-7)
                assert metal.State() == state


def test_it_is_open_at_both_ends_and_through() -> None:
    """A hose is one skin with no closed hollow: open along its centre line from end to end."""
    spec = hose_spec(90.0)
    solid, curve = hose(spec), hose_curve(spec)
    assert shells(solid) == 1
    assert not any(metal_at(solid, curve.point(curve.plan_length_mm * k / 12.0)) for k in range(13))


def test_its_ends_are_plane_rings_square_to_its_spigots() -> None:
    """The two plane faces of a hose stand at its spigots' shoulders, square to their axes."""
    spec = hose_spec(45.0)
    rings = [face for face in hose(spec).Faces() if face.geomType() == "PLANE"]
    centres = sorted(face.Center().toTuple() for face in rings)
    assert centres[0] == pytest.approx((0.0, 0.0, 0.0), abs=1e-6)
    assert centres[1] == pytest.approx(hose_curve(spec).end.origin_mm, abs=1e-6)


@pytest.mark.parametrize(
    ("spec", "message"),
    [
        (replace(hose_spec(90.0), length_mm=79.0), "do not reach"),
        (replace(hose_spec(90.0), straight_mm=-1.0), "below 0"),
        (replace(hose_spec(90.0), inner_radius_mm=6.0), "no wall"),
        (replace(hose_spec(0.0, 80.0, 4.0), length_mm=170.0), "tighter"),
        (replace(hose_spec(90.0), arc_radius_mm=5.5, straight_mm=10.0, length_mm=30.0), "tighter"),
    ],
)
def test_a_hose_that_cannot_be_is_refused(spec: HoseSpec, message: str) -> None:
    """A hose too short, with a straight below 0, without a wall, or bent tighter than it is thick:
    refused."""
    with pytest.raises(SolidError, match=message):
        hose(spec)
