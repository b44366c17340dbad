"""Slabs against shapely (GEOS)."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from model3d.geometry.placement import Vec2
from model3d.parts.room import SlabSpec
from model3d.solids.room_slab import room_slab
from model3d.solids.sound import SolidError

from .probing import extent, metal_at, shells

L_ROOM = ((0.0, 0.0), (5200.0, 0.0), (5200.0, 2400.0), (3100.0, 2400.0), (3100.0, 4000.0), (0.0, 4000.0))
COLUMN = ((900.0, 900.0), (1300.0, 900.0), (1300.0, 1250.0), (900.0, 1250.0))


def star(radii: list[float]) -> tuple[Vec2, ...]:
    """A ring that goes once round, each point at its own distance."""
    step = 2.0 * math.pi / len(radii)
    return tuple((r * math.cos(i * step), r * math.sin(i * step)) for i, r in enumerate(radii))


@settings(max_examples=20)
@given(st.lists(st.floats(500.0, 4000.0), min_size=3, max_size=20), st.floats(1.0, 200.0))
def test_any_ring_has_shapelys_area(radii: list[float], thickness: float) -> None:
    """A slab's volume is its ring's area, as shapely finds it, times its thickness, within 1e-6."""
    spec = SlabSpec(ring=star(radii), holes=(), thickness_mm=thickness)
    expected = Polygon(spec.ring).area * thickness
    assert room_slab(spec).Volume() == pytest.approx(expected, rel=1e-6)
    assert spec.volume_mm3 == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("hole", [COLUMN, COLUMN[::-1]])
def test_a_hole_goes_right_through(hole: tuple[Vec2, ...]) -> None:
    """A free-standing column leaves a hole in the floor, whichever way round its ring is given."""
    spec = SlabSpec(ring=L_ROOM, holes=(hole,), thickness_mm=20.0)
    solid = room_slab(spec)
    expected = Polygon(L_ROOM, [COLUMN]).area * 20.0
    assert solid.Volume() == pytest.approx(expected, rel=1e-6)
    assert spec.volume_mm3 == pytest.approx(expected, rel=1e-9)
    assert not metal_at(solid, (1000.0, 1000.0, 10.0))
    assert metal_at(solid, (800.0, 1000.0, 10.0))
    assert shells(solid) == 1
    assert extent(solid)[1][2] == pytest.approx(20.0, abs=1e-3)


@pytest.mark.parametrize(
    "spec",
    [
        SlabSpec(ring=L_ROOM[:2], holes=(), thickness_mm=20.0),
        SlabSpec(ring=L_ROOM, holes=(), thickness_mm=0.0),
        SlabSpec(ring=L_ROOM, holes=(), thickness_mm=-5.0),
        SlabSpec(ring=L_ROOM, holes=(COLUMN[:2],), thickness_mm=20.0),
        SlabSpec(ring=((0.0, 0.0), (100.0, 0.0), (0.0, 100.0), (100.0, 100.0)), holes=(), thickness_mm=20.0),
        SlabSpec(ring=L_ROOM, holes=(tuple((x + 4000.0, y) for x, y in COLUMN),), thickness_mm=20.0),
    ],
    ids=["two points", "flat", "below", "hole of two points", "crosses itself", "hole leaves the ring"],
)
def test_a_ring_that_bounds_no_slab_is_refused(spec: SlabSpec) -> None:
    """Too few points, no thickness, a ring that crosses itself or a hole that leaves it raise the solids' own error.
    """
    with pytest.raises(SolidError):
        room_slab(spec)
