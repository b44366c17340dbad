"""The return end: tail and drain key within its length."""

from __future__ import annotations

from dataclasses import replace

import pytest

from model3d.solids.build import solid as solid_of
from model3d.solids.return_end import return_end
from model3d.solids.sound import SolidError

from .probing import extent, metal_at
from .square_edged import return_end_spec


@pytest.mark.parametrize("hand", [1, -1])
def test_a_return_end_stays_within_its_length(hand: int) -> None:
    """The block ends at 32 mm and the drain key past it, at the lower waterway's height, inside the 60 mm of the
    fitting.
    """
    solid = solid_of(return_end_spec(hand))
    low, high = extent(solid)
    beyond = -low[0] if hand > 0 else high[0]
    assert 32.0 < beyond <= 60.0
    assert metal_at(solid, (-hand * (beyond - 0.5), 17.0, 48.0))
    assert not metal_at(solid, (-hand * 32.1, 17.0, 118.0))
    assert metal_at(solid, (-hand * 31.9, 17.0, 118.0))


@pytest.mark.parametrize("hand", [1, -1])
def test_its_tail_stands_on_the_floor_at_its_offset(hand: int) -> None:
    """The tail is a pipe of its radius, 17 mm beyond the cut face, from floor to block."""
    solid = solid_of(return_end_spec(hand))
    assert extent(solid)[0][2] == pytest.approx(0.0, abs=1e-3)
    assert metal_at(solid, (-hand * 17.0, 24.4, 5.0))
    assert not metal_at(solid, (-hand * 17.0, 24.6, 5.0))


def test_without_room_past_the_block_there_is_no_key() -> None:
    """Where the fitting's length leaves under 4 mm past the block, nothing stands there."""
    spec = return_end_spec()
    bare = return_end(replace(spec, block=replace(spec.block, length_mm=34.0)))
    assert extent(bare)[0][0] == pytest.approx(-32.0, abs=1e-3)


@pytest.mark.parametrize(
    "change", [{"tail_offset_mm": 30.0}, {"tail_radius_mm": 11.0}, {"tail_offset_mm": 5.0}]
)
def test_a_tail_that_leaves_its_block_is_refused(change: dict[str, float]) -> None:
    """A tail that does not fit under the block raises the solids' own error."""
    with pytest.raises(SolidError):
        return_end(replace(return_end_spec(), **change))
