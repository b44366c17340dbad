"""The valve's cradle: volume by closed form, and how it holds the block."""

from __future__ import annotations

from dataclasses import replace

import pytest

from model3d.geometry.placement import at
from model3d.solids.build import solid as solid_of
from model3d.solids.cradle import cradle
from model3d.solids.joining import overlap_mm3
from model3d.solids.placing import located
from model3d.solids.sound import SolidError

from .probing import extent, shells
from .square_edged import cradle_spec, valve_end_spec

both_hands = pytest.mark.parametrize("hand", [1, -1])


@both_hands
def test_volume_is_outline_times_width_less_screw_holes(hand: int) -> None:
    """The cradle's volume is its outline's area times its width less two countersunk holes, within 1e-6."""
    spec = cradle_spec(hand)
    assert cradle(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-6)
    assert shells(cradle(spec)) == 1


@both_hands
def test_it_stands_on_the_wall_beyond_the_cut_face(hand: int) -> None:
    """The cradle lies 8 to 36 mm beyond the cut face on the side away from the piece, from the wall past the block's
    front.
    """
    low, high = extent(solid_of(cradle_spec(hand)))
    near, far = sorted((-8.0 * hand, -36.0 * hand))
    assert low == pytest.approx((near, 0.0, 40.0), abs=1e-3)
    assert high == pytest.approx((far, 30.0, 139.0), abs=1e-3)


@both_hands
@pytest.mark.parametrize("tails", [(22.0,), (13.0, 32.0)])
def test_block_and_cradle_touch_and_do_not_overlap(hand: int, tails: tuple[float, ...]) -> None:
    """The arm lies on the block's top and the lip on its front; nothing of the valve end overlaps the cradle."""
    valve, holder = solid_of(valve_end_spec(hand, tails)), solid_of(cradle_spec(hand))
    assert overlap_mm3(valve, holder) < 1e-6
    assert valve.distance(holder) == pytest.approx(0.0, abs=1e-6)


@both_hands
@pytest.mark.parametrize("pull", [(0.0, 0.5, 0.0), (0.0, 0.0, 0.5), (0.0, -2.5, 0.0)])
def test_the_cradle_holds_the_block(hand: int, pull: tuple[float, float, float]) -> None:
    """A block pulled out, lifted or pushed to the wall overlaps its cradle."""
    valve = located(solid_of(valve_end_spec(hand)), at(*pull))
    assert overlap_mm3(valve, solid_of(cradle_spec(hand))) > 1.0


@pytest.mark.parametrize(
    "change",
    [
        {"hand": 0},
        {"x_end_mm": 8.0},
        {"x_end_mm": 2.0},
        {"bottom_mm": 133.0},
        {"plate_mm": 30.0},
        {"plate_mm": 0.0},
        {"arm_mm": 0.0},
    ],
)
def test_a_cradle_without_body_is_refused(change: dict[str, float]) -> None:
    """Numbers that give no cradle raise the solids' own error."""
    with pytest.raises(SolidError):
        cradle(replace(cradle_spec(), **change))
