"""The turn-back end: a block with a rounded outer edge."""

from __future__ import annotations

from dataclasses import replace

import pytest

from model3d.solids.build import solid as solid_of
from model3d.solids.sound import SolidError
from model3d.solids.turn_back_end import turn_back_end

from .probing import extent, metal_at
from .square_edged import turn_back_end_spec


@pytest.mark.parametrize("hand", [1, -1])
def test_it_stands_from_its_gap_to_its_end(hand: int) -> None:
    """A turn-back end is a block 2.5 to 30 mm beyond the cut face, u 7 to 27, v 30 to 136, and has no tail."""
    low, high = extent(solid_of(turn_back_end_spec(hand)))
    near, far = sorted((24.0 * hand, -30.0 * hand))
    assert low == pytest.approx((near, 7.0, 30.0), abs=1e-3)
    assert high == pytest.approx((far, 27.0, 136.0), abs=1e-3)


@pytest.mark.parametrize("hand", [1, -1])
def test_its_outer_edge_is_rounded_by_two_thirds_of_its_thickness(hand: int) -> None:
    """The far upper and lower corners are round, with a radius of 2/3 of 27.5 mm; the near ones are not."""
    solid = solid_of(turn_back_end_spec(hand))
    r = 27.5 * 2.0 / 3.0
    corner = r * (1.0 - 0.5**0.5)
    for v, up in ((136.0, -1.0), (30.0, 1.0)):
        assert metal_at(solid, (-hand * (30.0 - corner - 0.1), 17.0, v + up * (corner + 0.1)))
        assert not metal_at(solid, (-hand * (30.0 - corner + 0.1), 17.0, v + up * (corner - 0.1)))
        assert metal_at(solid, (-hand * 4.0, 17.0, v + up * 1.5))


def test_a_block_too_thin_for_its_chamber_is_refused() -> None:
    """A block that leaves no room for a chamber behind its legs raises the solids' own error."""
    spec = turn_back_end_spec()
    with pytest.raises(SolidError, match="too thin"):
        turn_back_end(replace(spec, block=replace(spec.block, block_end_mm=19.0)))
