"""Brackets: volume by closed form, screw holes, and how a piece stands on them."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.solids.bracket import bracket
from model3d.solids.build import solid as solid_of
from model3d.solids.joining import overlap_mm3
from model3d.solids.placing import located
from model3d.solids.sound import SolidError

from .probing import extent, metal_at, shells
from .square_edged import BRACKET, piece_spec, piece_stands

NOTHING_MM3 = 1e-6


def overlap_with_piece(out_mm: float, up_mm: float) -> float:
    """Volume shared by the bracket and a piece over it, so much in front of its final place and above it."""
    return overlap_mm3(
        solid_of(BRACKET), located(solid_of(piece_spec()), piece_stands(-150.0, out_mm, up_mm))
    )


@settings(max_examples=15)
@given(st.floats(20.0, 120.0), st.floats(2.0, 8.0), st.lists(st.floats(15.0, 125.0), max_size=3, unique=True))
def test_volume_is_outline_times_width_less_countersunk_holes(
    width_mm: float, hole_mm: float, heights: list[float]
) -> None:
    """A bracket's volume is its outline's area times its width less the holes and their cones, within 1e-6."""
    apart = sorted(heights)
    if any(b - a < 20.0 for a, b in pairwise(apart)):
        apart = apart[:1]
    spec = replace(BRACKET, width_mm=width_mm, hole_diameter_mm=hole_mm, hole_heights_mm=tuple(apart))
    assert bracket(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-6)


def test_stands_on_wall_and_floor_about_the_middle_of_its_width() -> None:
    """A bracket's datum is the middle of its width, on the wall, on the floor."""
    low, high = extent(solid_of(BRACKET))
    assert low == pytest.approx((-20.0, 0.0, 1.0), abs=1e-3)
    assert high == pytest.approx((20.0, 20.0, 140.4), abs=1e-3)
    assert shells(solid_of(BRACKET)) == 1


def test_screw_heads_lie_within_the_plate() -> None:
    """A hole goes right through the plate and widens at 90 degrees toward its front, since the piece lies on it."""
    solid = solid_of(BRACKET)
    for height in BRACKET.hole_heights_mm:
        assert not any(metal_at(solid, (0.0, y, height)) for y in (0.1, 3.0, 5.9))
        assert not metal_at(solid, (4.8, 5.9, height))
        assert metal_at(solid, (5.1, 5.9, height))
        assert metal_at(solid, (2.6, 3.0, height))
        assert not metal_at(solid, (2.4, 3.0, height))


def test_a_pressed_piece_and_its_bracket_do_not_overlap() -> None:
    """A piece in its final place touches ramp, plate and latch, and overlaps none of them."""
    assert overlap_with_piece(0.0, 0.0) < NOTHING_MM3


def test_an_offered_piece_does_not_overlap_the_bracket() -> None:
    """A piece offered 8 mm in front and 5 mm low, and raised there, is free of the bracket."""
    assert overlap_with_piece(8.0, -5.0) < NOTHING_MM3
    assert overlap_with_piece(8.0, 0.0) < NOTHING_MM3


@pytest.mark.parametrize(("out_mm", "up_mm"), [(0.0, -1.0), (-0.5, 0.0), (1.0, 0.0), (4.0, 0.0), (0.0, 2.0)])
def test_bracket_and_latch_hold_the_piece(out_mm: float, up_mm: float) -> None:
    """A pressed piece can go neither down, back, out past the latch's give, nor up: each would overlap the bracket.
    """
    assert overlap_with_piece(out_mm, up_mm) > 1.0


@pytest.mark.parametrize(
    "change",
    [{"width_mm": 0.0}, {"width_mm": -3.0}, {"hole_diameter_mm": 0.0}, {"hole_diameter_mm": 36.0}],
)
def test_a_bracket_without_body_is_refused(change: dict[str, float]) -> None:
    """Numbers that give no bracket raise the solids' own error."""
    with pytest.raises(SolidError):
        bracket(replace(BRACKET, **change))
