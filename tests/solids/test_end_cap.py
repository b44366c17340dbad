"""End caps: volume by closed form, and where cover and plate stand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from model3d.geometry.outline import Outline, Segment
from model3d.parts.fixings import closing_of
from model3d.solids.build import solid as solid_of
from model3d.solids.end_cap import end_cap
from model3d.solids.joining import overlap_mm3
from model3d.solids.placing import located
from model3d.solids.sound import SolidError

from .probing import extent, metal_at, shells
from .square_edged import TRIM_OUTLINE, end_cap_spec, piece_spec, piece_stands, return_end_spec


@pytest.mark.parametrize("hand", [1, -1])
@pytest.mark.parametrize("length_mm", [2.0, 4.0, 60.0])
def test_volume_is_cover_and_plate(hand: int, length_mm: float) -> None:
    """An end cap's volume is its cover over the whole length and what the plate adds, within 1e-6."""
    spec = end_cap_spec(hand, length_mm)
    cover, plate = 2.0 * 140.0 + 29.0 * 2.0, 29.0 * 142.0
    assert spec.volume_mm3 == pytest.approx(cover * (10.0 + length_mm) + plate * 2.0, rel=1e-12)
    assert end_cap(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-6)


@pytest.mark.parametrize("hand", [1, -1])
def test_cover_lies_on_the_piece_and_the_plate_closes_the_far_end(hand: int) -> None:
    """The cover reaches over the piece on the side of the hand; the plate is the last of it the other way."""
    solid = solid_of(end_cap_spec(hand, 60.0))
    low, high = extent(solid)
    near, far = sorted((12.0 * hand, -60.0 * hand))
    assert low == pytest.approx((near, 1.0, 8.0), abs=1e-3)
    assert high == pytest.approx((far, 30.0, 150.0), abs=1e-3)
    assert metal_at(solid, (-59.0 * hand, 15.0, 80.0))
    assert not metal_at(solid, (-57.9 * hand, 15.0, 80.0))
    assert shells(solid) == 1


@pytest.mark.parametrize("hand", [1, -1])
def test_a_cap_over_a_return_end_overlaps_neither_it_nor_the_piece(hand: int) -> None:
    """An end cap covers the return end and lies on the piece's face without overlap."""
    cap = solid_of(end_cap_spec(hand, 60.0))
    stands = piece_stands(0.0 if hand > 0 else -300.0)
    assert overlap_mm3(cap, located(solid_of(piece_spec()), stands)) < 1e-6
    assert overlap_mm3(cap, solid_of(return_end_spec(hand))) < 1e-6
    short = solid_of(end_cap_spec(hand, 45.0))
    assert overlap_mm3(short, solid_of(return_end_spec(hand))) > 1.0


@pytest.mark.parametrize(
    "change", [{"hand": 0}, {"plate_mm": 0.0}, {"length_mm": -11.0}, {"overlap_mm": -60.0}]
)
def test_a_cap_without_body_is_refused(change: dict[str, float]) -> None:
    """Numbers that give no end cap raise the solids' own error."""
    with pytest.raises(SolidError):
        end_cap(replace(end_cap_spec(), **change))


def test_the_closing_plate_follows_the_covers_outer_side() -> None:
    """The plate runs up the cover's outer side, moulded or not, down its back and along its foot, and holds the
    cover's outline.
    """
    assert closing_of(TRIM_OUTLINE).area_mm2 == pytest.approx(29.0 * 142.0, rel=1e-12)
    rounded = Outline(
        start=(28.0, 8.0),
        segments=(
            Segment(to=(30.0, 8.0)),
            Segment(to=(30.0, 140.0)),
            Segment(to=(20.0, 150.0), through=(20.0 + 50.0**0.5, 140.0 + 50.0**0.5)),
            Segment(to=(1.0, 150.0)),
            Segment(to=(1.0, 148.0)),
            Segment(to=(20.0, 148.0)),
            Segment(to=(28.0, 140.0), through=(20.0 + 32.0**0.5, 140.0 + 32.0**0.5)),
        ),
    )
    corner = 100.0 * (1.0 - math.pi / 4.0)
    assert closing_of(rounded).area_mm2 == pytest.approx(29.0 * 142.0 - corner, rel=1e-12)
    spec = replace(end_cap_spec(), outline=rounded, closing=closing_of(rounded))
    assert end_cap(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-6)
