"""Casings against shapely (GEOS)."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from model3d.parts.room import CasingSpec
from model3d.solids.room_casing import room_casing
from model3d.solids.sound import SolidError

from .probing import extent, metal_at, shells

DOOR = CasingSpec(width_mm=800.0, height_mm=2000.0, board_mm=70.0, depth_mm=18.0, sill=False)


@settings(max_examples=20)
@given(st.floats(200.0, 2500.0), st.floats(200.0, 2300.0), st.floats(10.0, 150.0), st.floats(5.0, 80.0), st.booleans())
def test_a_casing_is_its_outside_less_the_opening(w: float, h: float, b: float, depth: float, sill: bool) -> None:
    """A casing's volume is that of three boards round a door or four round a window, as shapely measures, within
    1e-6.
    """
    spec = CasingSpec(width_mm=w, height_mm=h, board_mm=b, depth_mm=depth, sill=sill)
    frame = box(-b, -b if sill else 0.0, w + b, h + b).difference(box(0.0, 0.0, w, h))
    assert room_casing(spec).Volume() == pytest.approx(frame.area * depth, rel=1e-6)
    assert spec.volume_mm3 == pytest.approx(frame.area * depth, rel=1e-9)


def test_a_doors_boards_stand_on_the_floor_and_a_windows_go_round() -> None:
    """A door's casing has no board at its foot; a window's has; both stand out from the wall along y."""
    door, window = room_casing(DOOR), room_casing(replace(DOOR, sill=True))
    assert extent(door)[0] == pytest.approx((-70.0, 0.0, 0.0), abs=1e-3)
    assert extent(window)[0] == pytest.approx((-70.0, 0.0, -70.0), abs=1e-3)
    assert extent(door)[1] == extent(window)[1] == pytest.approx((870.0, 18.0, 2070.0), abs=1e-3)
    assert metal_at(window, (400.0, 9.0, -35.0))
    assert not metal_at(door, (400.0, 9.0, 5.0))
    assert shells(door) == shells(window) == 1


@pytest.mark.parametrize("change", [{"width_mm": 0.0}, {"height_mm": -1.0}, {"board_mm": 0.0}, {"depth_mm": 0.0}])
def test_a_casing_without_body_is_refused(change: dict[str, float]) -> None:
    """A size of 0 or below raises the solids' own error."""
    with pytest.raises(SolidError):
        room_casing(replace(DOOR, **change))
