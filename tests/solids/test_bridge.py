"""The bridge: volume, openings, nibs with bevelled tip and catch, one way and both."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.parts.fittings import BridgeSpec
from model3d.solids.bridge import bridge
from model3d.solids.sound import SolidError

from .probing import extent, metal_at, shells
from .square_edged import NIB
from .square_fittings import BRIDGE, COUPLER_BRIDGE


@settings(max_examples=12)
@given(st.floats(-20.0, -3.0), st.floats(7.5, 12.0), st.floats(10.0, 30.0), st.floats(0.2, 1.5))
def test_volume_is_plate_less_openings_with_nibs(
    start_mm: float, half_width_mm: float, reach_mm: float, catch_mm: float
) -> None:
    """A bridge's metal is its rounded plate less the openings, and its nibs with bevel and catch."""
    nib = replace(NIB, reach_mm=reach_mm, catch_mm=catch_mm)
    spec = replace(BRIDGE, start_mm=start_mm, half_width_mm=half_width_mm, nib=nib)
    assert bridge(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-9)


def test_a_couplers_bridge_has_nibs_both_ways() -> None:
    """A coupler's bridge has the same nibs into both pieces, each counted from its own cut face."""
    solid = bridge(COUPLER_BRIDGE)
    assert solid.Volume() == pytest.approx(COUPLER_BRIDGE.volume_mm3, rel=1e-9)
    least, greatest = extent(solid)
    assert (least[0], greatest[0]) == pytest.approx((-22.0, 22.0), abs=1e-3)
    assert solid.Center().x == pytest.approx(0.0, abs=1e-9)


def test_the_plate_stands_off_the_cut_face_and_the_nib_reaches_past_it() -> None:
    """The plate lies over its x range outside the piece; the nib reaches into the piece on +y."""
    least, greatest = extent(bridge(BRIDGE))
    assert least == pytest.approx((-10.0, -8.5, -48.0), abs=1e-3)
    assert greatest == pytest.approx((20.0, 8.5, 48.0), abs=1e-3)


def test_the_nib_is_bevelled_at_its_tip_and_has_a_catch() -> None:
    """A nib stands from inner to outer along y, its tip edges bevelled, its catch square where it holds and a
    ramp beyond."""
    solid = bridge(BRIDGE)
    assert metal_at(solid, (10.0, 2.61, 7.99))
    assert not metal_at(solid, (10.0, 2.59, 0.0))
    assert not metal_at(solid, (10.0, 5.61, 0.0))
    assert not metal_at(solid, (10.0, 4.0, 8.01))
    assert not metal_at(solid, (19.9, 2.8, 0.0))
    assert metal_at(solid, (19.9, 4.1, 0.0))
    assert metal_at(solid, (0.31, 6.19, 0.0))
    assert not metal_at(solid, (0.29, 5.7, 0.0))
    assert metal_at(solid, (1.05, 5.89, 0.0))
    assert not metal_at(solid, (1.05, 5.91, 0.0))


@pytest.mark.parametrize("height_mm", [-35.0, 35.0])
def test_an_opening_goes_round_each_leg(height_mm: float) -> None:
    """Each leg has an opening right through the plate."""
    solid = bridge(BRIDGE)
    for x_mm in (-9.9, -2.6):
        assert not metal_at(solid, (x_mm, 5.39, height_mm))
        assert metal_at(solid, (x_mm, 5.41, height_mm))


def test_a_bridge_is_one_skin_of_planes_and_cylinders() -> None:
    """A bridge is bounded by planes and cylinders, with no hollow inside."""
    for spec in (BRIDGE, COUPLER_BRIDGE):
        assert {face.geomType() for face in bridge(spec).Faces()} == {"PLANE", "CYLINDER"}
        assert shells(bridge(spec)) == 1


@pytest.mark.parametrize(
    ("spec", "message"),
    [
        (replace(BRIDGE, half_width_mm=5.0), "corner radius"),
        (replace(BRIDGE, end_mm=0.5), "does not fit between"),
        (replace(BRIDGE, nib=replace(NIB, reach_mm=2.0)), "does not fit between"),
        (replace(BRIDGE, nib=replace(NIB, heights_mm=(80.0,))), "one solid expected, 2 found"),
        (replace(BRIDGE, pitch_mm=15.0), "bridge"),
    ],
)
def test_a_bridge_that_cannot_be_is_refused(spec: BridgeSpec, message: str) -> None:
    """Openings through the edge or each other, a catch with no room, a nib off the plate: refused."""
    with pytest.raises(SolidError, match=message):
        bridge(spec)
