"""Packers: volume by closed form, where they lie, their holes in line with the bracket's."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.families import specs
from model3d.families.reading import find_family, read_family
from model3d.parts.fixings import PackerSpec
from model3d.solids.build import solid as solid_of
from model3d.solids.joining import overlap_mm3
from model3d.solids.packer import packer
from model3d.solids.sound import SolidError

from .probing import extent, metal_at, shells

PACKER = PackerSpec(
    thickness_mm=3.5,
    width_mm=40.0,
    bottom_mm=1.0,
    top_mm=136.6,
    hole_diameter_mm=5.0,
    hole_heights_mm=(50.0, 100.0),
)


@settings(max_examples=15)
@given(st.floats(0.5, 20.0), st.floats(20.0, 80.0), st.floats(2.0, 8.0))
def test_volume_is_the_plate_less_its_holes(thickness_mm: float, width_mm: float, hole_mm: float) -> None:
    """Packers have the volume of their plate less their holes, within 1e-6."""
    spec = replace(PACKER, thickness_mm=thickness_mm, width_mm=width_mm, hole_diameter_mm=hole_mm)
    assert packer(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-6)


def test_they_lie_behind_the_back_plane() -> None:
    """Packers of 3.5 lie from -3.5 to 0, about the bracket's middle, one body, open where the screws go."""
    made = solid_of(PACKER)
    low, high = extent(made)
    assert low == pytest.approx((-20.0, -3.5, 1.0), abs=1e-3)
    assert high == pytest.approx((20.0, 0.0, 136.6), abs=1e-3)
    assert shells(made) == 1
    assert not any(metal_at(made, (0.0, -1.75, h)) for h in (50.0, 100.0))
    assert metal_at(made, (0.0, -1.75, 75.0))


@pytest.mark.parametrize("name", ["a-square", "b-moulded", "c-low"])
def test_they_touch_the_bracket_and_do_not_enter_it(name: str) -> None:
    """In every family packers lie flat on the whole back of the bracket, and of the cradle, and share no volume."""
    family = read_family(find_family(name))
    pairs = (
        (specs.packer_spec(family, 4.0), specs.bracket_spec(family), 0.0),
        (specs.cradle_packer_spec(family, 4.0), specs.cradle_spec(family, hand=1), None),
    )
    for spec, held, middle in pairs:
        (_, _, bottom), (_, front, top) = extent(solid_of(spec))
        (low_x, back, low), (high_x, _, _) = extent(solid_of(held))
        assert (front, bottom) == pytest.approx((back, low), abs=1e-3)
        assert spec.width_mm == pytest.approx(high_x - low_x, abs=1e-3)
        assert top > bottom
        if middle is not None:
            assert overlap_mm3(solid_of(spec), solid_of(held)) < 1e-6


def test_packers_without_a_body_are_refused() -> None:
    """No thickness, or holes wider than the packers, is refused."""
    for bad in (replace(PACKER, thickness_mm=0.0), replace(PACKER, hole_diameter_mm=41.0)):
        with pytest.raises(SolidError):
            packer(bad)
