"""The valve end: its head, neck, tails and the room it takes."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from model3d.geometry.outline import rectangle
from model3d.solids.build import solid as solid_of
from model3d.solids.joining import overlap_mm3
from model3d.solids.outlines import across_at
from model3d.solids.simple_bodies import prism
from model3d.solids.sound import SolidError
from model3d.solids.valve_end import valve_end
from model3d.solids.valve_head import head

from .probing import extent, metal_at
from .square_edged import valve_end_spec

both_hands = pytest.mark.parametrize("hand", [1, -1])


@both_hands
@pytest.mark.parametrize("tails", [(22.0,), (13.0, 32.0)])
def test_a_valve_end_takes_the_room_its_numbers_say(hand: int, tails: tuple[float, ...]) -> None:
    """Block, neck and head stand one after the other beyond the cut face, the tails down to the floor, the block's
    top at 136.
    """
    low, high = extent(solid_of(valve_end_spec(hand, tails)))
    beyond = -low[0] if hand > 0 else high[0]
    assert beyond == pytest.approx(42.0 + 10.0 + 40.0, abs=1e-3)
    assert (low[1], high[1]) == pytest.approx((17.0 - 14.0, 17.0 + 14.0), abs=1e-3)
    assert (low[2], high[2]) == pytest.approx((0.0, 136.0), abs=1e-3)


@both_hands
def test_the_block_stands_between_its_gap_and_its_end(hand: int) -> None:
    """Between the cut face and the block there is the gap for the clip, filled by legs and nib alone."""
    solid = solid_of(valve_end_spec(hand))
    for beyond, inside in ((2.4, False), (2.6, True), (41.9, True), (42.1, False)):
        assert metal_at(solid, (-hand * beyond, 17.0, 90.5)) is inside


@both_hands
def test_the_head_is_round_and_fluted(hand: int) -> None:
    """The grip has sixteen ridges at the head's radius and hollows between them; the far end is domed."""
    spec = valve_end_spec(hand)
    solid = head(spec)
    x = -hand * (42.0 + 10.0 + 20.0)

    def at_angle(radius: float, angle_deg: float) -> bool:
        a = math.radians(angle_deg)
        return metal_at(solid, (x, 17.0 + radius * math.sin(a), 118.0 + radius * math.cos(a)))

    sixteenth = 360.0 / 16.0
    assert all(at_angle(13.9, i * sixteenth) for i in range(16))
    assert not any(at_angle(13.9, (i + 0.5) * sixteenth) for i in range(16))
    assert all(at_angle(12.5, (i + 0.5) * sixteenth) for i in range(16))
    tip = -hand * 91.9
    assert metal_at(solid, (tip, 17.0, 118.0))
    assert not metal_at(solid, (tip, 17.0 + 5.0, 118.0))


@both_hands
@pytest.mark.parametrize("tails", [(22.0,), (13.0, 32.0)])
def test_every_tail_stands_at_its_offset(hand: int, tails: tuple[float, ...]) -> None:
    """A tail is a pipe of its radius straight down from the block, with a wider nut under it."""
    solid = solid_of(valve_end_spec(hand, tails))
    for offset in tails:
        x = -hand * offset
        assert not metal_at(solid, (x, 17.0, 5.0))
        assert metal_at(solid, (x, 17.0 + 7.4, 5.0))
        assert not metal_at(solid, (x, 17.0 + 7.6, 5.0))
        assert metal_at(solid, (x, 17.0 + 7.9, 25.0))


@both_hands
def test_nothing_of_a_valve_end_reaches_the_wall_or_the_other_way(hand: int) -> None:
    """The valve end keeps off the wall (its cradle's place) and past the cut face has nothing but legs and nib."""
    solid = solid_of(valve_end_spec(hand))
    behind = prism(rectangle(-1.0, -1.0, 2.9, 200.0), across_at(-100.0), 200.0)
    assert overlap_mm3(solid, behind) < 1e-6
    beside = prism(rectangle(0.0, 128.0, 40.0, 200.0), across_at(0.0), 30.0 * hand)
    assert overlap_mm3(solid, beside) < 1e-6


@pytest.mark.parametrize(
    "change",
    [
        {"head_length_mm": 43.1},
        {"head_length_mm": 10.0},
        {"head_radius_mm": 0.0},
        {"neck_length_mm": 0.0},
        {"neck_radius_mm": 0.0},
        {"tail_radius_mm": 10.5},
        {"tail_offsets_mm": ()},
        {"tail_offsets_mm": (10.0, 20.0, 30.0)},
        {"tail_offsets_mm": (20.0, 30.0)},
        {"tail_offsets_mm": (38.0,)},
    ],
)
def test_a_valve_end_that_does_not_fit_its_length_or_block_is_refused(change: dict[str, object]) -> None:
    """Numbers that give no valve end raise the solids' own error."""
    with pytest.raises(SolidError):
        valve_end(replace(valve_end_spec(), **change))
