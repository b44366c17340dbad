"""A door's sweep: sense, reach and Pappus' volume."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.parts.room import SectorSpec
from model3d.solids.room_sector import room_sector
from model3d.solids.sound import SolidError

from .probing import metal_at

DOOR = SectorSpec(radius_mm=800.0, start_deg=0.0, sweep_deg=90.0, height_mm=2000.0)


@settings(max_examples=20)
@given(st.floats(100.0, 1500.0), st.floats(-360.0, 360.0), st.floats(1.0, 350.0), st.booleans(), st.floats(5.0, 2500.0))
def test_volume_is_pappus(radius: float, start: float, sweep: float, back: bool, height: float) -> None:
    """A swept leaf's volume is its own area, r h, times the way of its middle, r / 2 times the angle (Pappus), within
    1e-6.
    """
    spec = SectorSpec(radius_mm=radius, start_deg=start, sweep_deg=-sweep if back else sweep, height_mm=height)
    expected = radius * height * (radius / 2.0 * math.radians(sweep))
    assert room_sector(spec).Volume() == pytest.approx(expected, rel=1e-6)
    assert spec.volume_mm3 == pytest.approx(expected, rel=1e-9)


@settings(max_examples=15)
@given(st.floats(-180.0, 180.0), st.floats(20.0, 180.0), st.booleans())
def test_the_leaf_sweeps_from_its_start_in_the_sense_of_its_sweep(start: float, sweep: float, back: bool) -> None:
    """Directions between start and start + sweep are in the sector, those past either end are not; nothing past the
    radius.
    """
    turn = -sweep if back else sweep
    solid = room_sector(replace(DOOR, start_deg=start, sweep_deg=turn))

    def at_angle(angle_deg: float, r: float) -> bool:
        a = math.radians(angle_deg)
        return metal_at(solid, (r * math.cos(a), r * math.sin(a), 1000.0))

    for part in (0.02, 0.5, 0.98):
        assert at_angle(start + part * turn, 790.0)
        assert not at_angle(start + part * turn, 810.0)
    for past in (-5.0 / sweep, 1.0 + 5.0 / sweep):
        assert not at_angle(start + past * turn, 790.0)


@pytest.mark.parametrize(
    "change", [{"radius_mm": 0.0}, {"height_mm": 0.0}, {"sweep_deg": 0.0}, {"sweep_deg": 360.0}, {"sweep_deg": -400.0}]
)
def test_a_sweep_without_body_is_refused(change: dict[str, float]) -> None:
    """No radius, no height, no sweep or a whole turn raise the solids' own error."""
    with pytest.raises(SolidError):
        room_sector(replace(DOOR, **change))
