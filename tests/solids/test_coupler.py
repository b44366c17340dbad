"""The coupler: volume, both tips alike."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.parts.fittings import CouplerSpec
from model3d.solids.coupler import coupler
from model3d.solids.sound import SolidError

from .probing import extent, metal_at, shells, way_is_free
from .square_fittings import COUPLER


@settings(max_examples=12)
@given(st.floats(16.0, 60.0), st.floats(0.0, 20.0))
def test_volume_is_a_tube_less_the_grooves_at_both_tips(insertion_mm: float, gap_mm: float) -> None:
    """A coupler's metal is a tube over both insertions and the gap, less the grooves at both tips."""
    spec = replace(COUPLER, insertion_mm=insertion_mm, gap_mm=gap_mm)
    assert coupler(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-9)


def test_the_datum_is_the_middle_of_the_gap() -> None:
    """A coupler reaches its insertion past each cut face, the gap between them, alike at both ends."""
    solid = coupler(COUPLER)
    least, greatest = extent(solid)
    assert (least[0], greatest[0]) == pytest.approx((-26.0, 26.0), abs=1e-3)
    assert solid.Center().toTuple() == pytest.approx((0.0, 0.0, 0.0), abs=1e-9)
    for x_mm in (-20.0, -12.0, 12.0, 20.0):
        assert not metal_at(solid, (x_mm, 4.21, 0.0))
        assert metal_at(solid, (x_mm, 4.19, 0.0))


def test_water_passes_through() -> None:
    """The passage is free from tip to tip, in one skin."""
    assert way_is_free(coupler(COUPLER), (-26.0, 0.0, 0.0), (26.0, 0.0, 0.0))
    assert shells(coupler(COUPLER)) == 1


@pytest.mark.parametrize("spec", [replace(COUPLER, insertion_mm=13.0, gap_mm=2.0), replace(COUPLER, insertion_mm=-3.0)])
def test_a_coupler_too_short_for_its_grooves_is_refused(spec: CouplerSpec) -> None:
    """A coupler needs room for the grooves at both tips."""
    with pytest.raises(SolidError, match="grooves"):
        coupler(spec)
