"""Boxes and round bars: place and volume."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.geometry.outline import polygon, rectangle
from model3d.geometry.placement import Placement
from model3d.parts.room import BoxSpec, CylinderSpec
from model3d.solids.outlines import across_at
from model3d.solids.simple_bodies import block, box_body, cylinder_body, prism, rod, turned
from model3d.solids.sound import SolidError

from .probing import extent

SIZE = st.floats(0.5, 5000.0)


@settings(max_examples=20)
@given(SIZE, SIZE, SIZE)
def test_a_box_stands_with_a_corner_at_the_datum(x: float, y: float, z: float) -> None:
    """A box reaches from the datum along +x, +y and +z and its volume is the product of its sides, within 1e-6."""
    spec = BoxSpec(size_mm=(x, y, z))
    solid = box_body(spec)
    assert solid.Volume() == pytest.approx(x * y * z, rel=1e-6)
    assert spec.volume_mm3 == pytest.approx(solid.Volume(), rel=1e-6)
    low, high = extent(solid)
    assert low == pytest.approx((0.0, 0.0, 0.0), abs=1e-3)
    assert high == pytest.approx((x, y, z), abs=1e-3)


@settings(max_examples=20)
@given(st.floats(0.5, 500.0), SIZE)
def test_a_round_bar_stands_on_the_datum(radius: float, length: float) -> None:
    """A bar stands along +z on the datum, the centre of its lower end; its volume is pi r^2 h, within 1e-6."""
    spec = CylinderSpec(radius_mm=radius, length_mm=length)
    solid = cylinder_body(spec)
    assert solid.Volume() == pytest.approx(math.pi * radius**2 * length, rel=1e-6)
    assert spec.volume_mm3 == pytest.approx(solid.Volume(), rel=1e-6)
    assert extent(solid)[0][2] == pytest.approx(0.0, abs=1e-3)
    assert extent(solid)[1][2] == pytest.approx(length, abs=1e-3)


def test_a_turned_body_keeps_to_pappus() -> None:
    """A turned body's volume is its outline's area times the way its centroid goes round (Pappus)."""
    axis = Placement(origin_mm=(5.0, 6.0, 7.0), x_axis=(0.0, 0.0, 1.0), y_axis=(1.0, 0.0, 0.0), z_axis=(0.0, 1.0, 0.0))
    solid = turned(polygon((0.0, 3.0), (6.0, 3.0), (3.0, 9.0)), axis)
    assert solid.Volume() == pytest.approx(18.0 * 2.0 * math.pi * 5.0, rel=1e-6)
    assert extent(solid)[0] == pytest.approx((5.0 - 9.0, 6.0 - 9.0, 7.0), abs=1e-3)


def test_an_outline_may_be_carried_either_way() -> None:
    """An outline carried back along its plane's normal gives the same volume on the other side."""
    ahead, behind = (prism(rectangle(0.0, 0.0, 3.0, 4.0), across_at(10.0), along) for along in (5.0, -5.0))
    assert ahead.Volume() == pytest.approx(60.0, rel=1e-9)
    assert behind.Volume() == pytest.approx(60.0, rel=1e-9)
    assert extent(behind)[0][0] == pytest.approx(5.0, abs=1e-3)


@pytest.mark.parametrize("bad", [0.0, -1.0, math.inf, math.nan])
def test_a_body_without_size_is_refused(bad: float) -> None:
    """A side, radius or length of 0, below 0 or without end raises the solids' own error."""
    with pytest.raises(SolidError):
        block((0.0, 0.0, 0.0), (1.0, 0.0 if bad < 0 else bad, 1.0))
    with pytest.raises(SolidError):
        rod((0.0, 0.0, 0.0), (0.0, 0.0, 1.0), bad, 10.0)
    with pytest.raises(SolidError):
        cylinder_body(CylinderSpec(radius_mm=3.0, length_mm=bad))
    with pytest.raises(SolidError):
        prism(rectangle(0.0, 0.0, 1.0, 1.0), across_at(0.0), 0.0 if bad < 0 else bad)


@pytest.mark.parametrize("size", [(-1.0, 2.0, 3.0), (1.0, 0.0, 3.0)])
def test_a_box_with_a_side_not_above_zero_is_refused(size: tuple[float, float, float]) -> None:
    """A box's sides are above 0: one below would put it on the other side of its datum."""
    with pytest.raises(SolidError):
        box_body(BoxSpec(size_mm=size))
