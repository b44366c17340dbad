"""The chain of moves that puts a piece on the wall, from the family's data."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.families.family import Family
from model3d.families.rules import ApproachData, LegData, move_sum
from model3d.geometry.placement import Vec3, add, scale
from model3d.layout import Piece
from model3d.layout.allowances import slide_mm
from model3d.steps.values import Approach, MoveLeg


def move_names(family: Family, piece: Piece) -> dict[str, float]:
    """d, p and l for a piece: depth of engagement at its near end + 2, press distance, lift."""
    return {
        "d": slide_mm(family, piece.start.joint),
        "p": family.bracket.press_mm,
        "l": family.bracket.lift_mm,
    }


def chain(family: Family, group: Sequence[Piece]) -> tuple[Approach, tuple[MoveLeg, ...]]:
    """The preferred approach and the legs from the offer on, for the pieces that go up as one, by what the near end
    of the first and the far end of the last meet.

    The first leg of a family's chain is the offer: here it runs from the approach's start to the offered place.
    """
    names = move_names(family, group[0])
    approach = approaches(family, group)[0]
    legs = []
    here = approach.from_mm
    for leg in _chain_data(family, group[0]):
        there = _vector(leg.to, names)
        legs.append(MoveLeg(name=leg.leg, from_mm=here, to_mm=there, click=leg.click))
        here = there
    return approach, tuple(legs)


def approaches(family: Family, group: Sequence[Piece]) -> tuple[Approach, ...]:
    """Every approach that the family lists for the pieces that go up as one, the preferred first."""
    listed = family.approaches.any
    if group[-1].end.joint == "elbow-long" and family.approaches.far_elbow_long:
        listed = family.approaches.far_elbow_long
    names, offer = move_names(family, group[0]), _chain_data(family, group[0])[0].to
    return tuple(_approach(data, offer, names) for data in listed)


def room_vector(piece: Piece, run_mm: Vec3) -> Vec3:
    """A shift in the run frame (t, u, v) at a piece, in the room frame."""
    t, n = piece.wall.direction, piece.wall.normal
    along = (t[0] * piece.sense, t[1] * piece.sense, 0.0)
    return add(add(scale(along, run_mm[0]), scale((n[0], n[1], 0.0), run_mm[1])), (0.0, 0.0, run_mm[2]))


def swing_about_mm(family: Family, first: Piece, offered_mm: Vec3) -> Vec3:
    """The foot of the upright line, room frame, about which a piece swings into its offered place (run frame): the
    front edge of its near end, so that nothing of it turns toward what stands before it; with the
    valve end, that one's outer end.
    """
    built_on = first.start.allowance_mm if first.start.joint == "valve" else 0.0
    x, y = first.wall.point_mm(first.near_mm - first.sense * built_on, family.section.front_u_mm)
    return add((x, y, 0.0), room_vector(first, (offered_mm[0], offered_mm[1], 0.0)))


def _chain_data(family: Family, piece: Piece) -> tuple[LegData, ...]:
    if piece.start.joint == "elbow-short" and family.moves.elbow_short is not None:
        return family.moves.elbow_short
    return family.moves.link if piece.start.joint == "link" else family.moves.first


def _approach(data: ApproachData, offer: Sequence[str], names: dict[str, float]) -> Approach:
    there = _vector(offer, names)
    by = _vector(data.by, names) if data.by is not None else (0.0, 0.0, 0.0)
    return Approach(name=data.approach, from_mm=add(there, by), turn_deg=data.turn_deg or 0.0)


def _vector(sums: Sequence[str], names: dict[str, float]) -> Vec3:
    t, u, v = (move_sum(s, names) for s in sums)
    return (t, u, v)
