"""What every end fitting shares: its place, spigots, nibs, clip and water passages."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import cadquery as cq
import pytest

from model3d.geometry.placement import at
from model3d.parts.ends import EndBlockSpec
from model3d.parts.fittings import OringSpec
from model3d.solids.build import solid as solid_of
from model3d.solids.joining import overlap_mm3
from model3d.solids.oring import oring
from model3d.solids.placing import located
from model3d.solids.return_end import return_end
from model3d.solids.sound import SolidError
from model3d.solids.turn_back_end import turn_back_end
from model3d.solids.valve_end import valve_end

from .probing import extent, metal_at, shells, way_is_free
from .square_edged import (
    BORES,
    CLIP,
    INSERTION_MM,
    LEG,
    clip_stands,
    piece_spec,
    piece_stands,
    return_end_spec,
    turn_back_end_spec,
    valve_end_spec,
)

NOTHING_MM3 = 1e-6
Fitting = Callable[[int, int], cq.Solid]


def _valve(hand: int, side: int) -> cq.Solid:
    return solid_of(valve_end_spec(hand, nib_side=side))


def _return(hand: int, side: int) -> cq.Solid:
    return solid_of(return_end_spec(hand, side))


def _turn_back(hand: int, side: int) -> cq.Solid:
    return solid_of(turn_back_end_spec(hand, side))


FITTINGS: dict[str, Fitting] = {"valve": _valve, "return": _return, "turn-back": _turn_back}
every_fitting = pytest.mark.parametrize("kind", FITTINGS)
both_hands = pytest.mark.parametrize("hand", [1, -1])


@every_fitting
@both_hands
def test_spigots_reach_their_insertion_into_the_piece(kind: str, hand: int) -> None:
    """An end fitting's legs reach the insertion past the cut face, on the side of its hand, and it is one solid with
    one skin.
    """
    solid = FITTINGS[kind](hand, 1)
    low, high = extent(solid)
    assert (high[0] if hand > 0 else -low[0]) == pytest.approx(INSERTION_MM, abs=1e-3)
    assert shells(solid) == 1
    for u, v in BORES:
        wall = (LEG.outside.width_mm + LEG.passage.width_mm) / 4.0
        assert metal_at(solid, (hand * 23.9, u + wall, v))
        assert not metal_at(solid, (hand * 24.1, u + wall, v))


@every_fitting
@both_hands
def test_spigots_carry_an_oring_groove_at_each_place_from_the_tip(kind: str, hand: int) -> None:
    """Grooves stand 6 and 14 mm from each tip, 2.4 wide; an O-ring of 1.78 that lies in one meets no metal but the
    floor it sits on.
    """
    solid = FITTINGS[kind](hand, 1)
    ring = oring(OringSpec(inside=LEG.grooves.floor, section_mm=1.78))
    for u, v in BORES:
        for from_tip in (6.0, 14.0):
            middle = hand * (INSERTION_MM - from_tip)
            skin = u + LEG.outside.width_mm / 2.0 - 0.1
            assert not any(metal_at(solid, (middle + dx, skin, v)) for dx in (-1.19, 0.0, 1.19))
            assert all(metal_at(solid, (middle + dx, skin, v)) for dx in (-1.21, 1.21))
            assert overlap_mm3(solid, located(ring, at(middle, u, v))) < NOTHING_MM3
            assert overlap_mm3(solid, located(ring, at(middle + 1.0, u, v))) > 0.01


@every_fitting
@both_hands
@pytest.mark.parametrize("side", [1, -1])
def test_the_nibs_enter_a_clip_on_their_side_and_hit_one_turned_over(kind: str, hand: int, side: int) -> None:
    """Nibs on the front go into a clip that faces front and not into one that faces back; and the other way round."""
    solid = FITTINGS[kind](hand, side)
    assert overlap_mm3(solid, located(solid_of(CLIP), clip_stands(hand, side))) < NOTHING_MM3
    assert overlap_mm3(solid, located(solid_of(CLIP), clip_stands(hand, -side))) > 10.0


@every_fitting
@both_hands
def test_the_catch_holds_a_fitting_that_has_clicked_in(kind: str, hand: int) -> None:
    """Drawn out by half a millimetre, the catch of a fitting at home overlaps its clip's plate."""
    solid = located(FITTINGS[kind](hand, 1), at(-0.5 * hand, 0.0, 0.0))
    assert overlap_mm3(solid, located(solid_of(CLIP), clip_stands(hand, 1))) > 0.5


@every_fitting
@both_hands
@pytest.mark.parametrize("side", [1, -1])
def test_a_fitting_at_home_does_not_overlap_its_piece(kind: str, hand: int, side: int) -> None:
    """Legs stand in the bores and nibs in the hollow between them without touching the metal; moved 1 mm aside, they
    overlap it.
    """
    solid = FITTINGS[kind](hand, side)
    home = located(solid_of(piece_spec()), piece_stands(0.0 if hand > 0 else -300.0))
    assert overlap_mm3(solid, home) < NOTHING_MM3
    assert overlap_mm3(located(solid, at(0.0, 1.0, 0.0)), home) > 1.0


@both_hands
def test_water_runs_from_both_waterways_to_the_one_tail(hand: int) -> None:
    """In an ordinary run both waterways open into one chamber, and that into the tail pipe, down to the floor."""
    for solid, end, tail in (
        (solid_of(valve_end_spec(hand)), 31.4, 22.0),
        (solid_of(return_end_spec(hand)), 21.4, 17.0),
    ):
        duct, down = -hand * (end - 3.5), -hand * tail
        assert way_is_free(
            solid,
            (25.0 * hand, 17.0, 118.0),
            (duct, 17.0, 118.0),
            (duct, 17.0, 48.0),
            (down, 17.0, 48.0),
            (down, 17.0, -1.0),
        )
        assert way_is_free(solid, (25.0 * hand, 17.0, 48.0), (duct, 17.0, 48.0))
        assert metal_at(solid, (-hand * (end + 0.1), 17.0, 118.0))


@both_hands
def test_a_turn_back_end_leads_from_the_upper_waterway_to_the_lower(hand: int) -> None:
    """A turn-back end has one chamber between its two legs and no other opening."""
    solid = solid_of(turn_back_end_spec(hand))
    duct = -hand * (19.4 - 3.5)
    assert way_is_free(
        solid, (25.0 * hand, 17.0, 118.0), (duct, 17.0, 118.0), (duct, 17.0, 48.0), (25.0 * hand, 17.0, 48.0)
    )
    low, _ = extent(solid)
    assert low[2] == pytest.approx(30.0, abs=1e-3)


@both_hands
def test_a_valve_end_with_two_tails_keeps_flow_and_return_apart(hand: int) -> None:
    """Where the run turns back, each waterway has a tail of its own and metal stands between them."""
    solid = solid_of(valve_end_spec(hand, (13.0, 32.0)))
    near, far = -13.0 * hand, -32.0 * hand
    assert way_is_free(solid, (25.0 * hand, 17.0, 48.0), (near, 17.0, 48.0), (near, 17.0, -1.0))
    assert way_is_free(solid, (25.0 * hand, 17.0, 118.0), (far, 17.0, 118.0), (far, 17.0, -1.0))
    assert not way_is_free(solid, (near, 17.0, 48.0), (far, 17.0, 48.0))
    assert not way_is_free(solid, (near, 17.0, 48.0), (near, 17.0, 118.0))


@pytest.mark.parametrize(
    "change",
    [
        {"hand": 0},
        {"hand": 2},
        {"nib_side": 0},
        {"face_gap_mm": 0.0},
        {"face_gap_mm": 35.0},
        {"block_end_mm": 3.0},
        {"block_end_mm": 65.0},
        {"block_front_mm": 22.4},
        {"block_back_mm": 12.0},
        {"block_bottom_mm": 38.1},
        {"block_top_mm": 127.0},
        {"insertion_mm": 14.0},
    ],
)
@pytest.mark.parametrize("kind", FITTINGS)
def test_a_block_that_cannot_carry_its_legs_is_refused(kind: str, change: dict[str, float]) -> None:
    """Numbers that give no end fitting raise the solids' own error, with the number that fails."""

    def broken(block: EndBlockSpec) -> EndBlockSpec:
        return replace(block, **change)

    makers = {
        "valve": lambda: valve_end(replace(valve_end_spec(), block=broken(valve_end_spec().block))),
        "return": lambda: return_end(replace(return_end_spec(), block=broken(return_end_spec().block))),
        "turn-back": lambda: turn_back_end(
            replace(turn_back_end_spec(), block=broken(turn_back_end_spec().block))
        ),
    }
    with pytest.raises(SolidError):
        makers[kind]()
