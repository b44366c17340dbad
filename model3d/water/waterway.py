"""What the water of one waterway passes, in order: bores, legs, bends, hoses, by their free sections."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from model3d.families.family import Family
from model3d.families.specs import bore_opening, leg_spec
from model3d.geometry.outline import Obround
from model3d.layout import Joint, Piece, RunLayout


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """One length of one section. ``part`` is the mark of the piece or joint, or ``valve end``, ``return
    end``, ``turn-back end``; ``what`` names it. A bend has the turn of its middle line and its radius.
    ``from_chamber`` and ``to_chamber`` say that it opens into the wide chamber of an end fitting.
    """

    part: str
    what: str
    shape: Obround
    length_mm: float
    turn_deg: float = 0.0
    bend_radius_mm: float = 0.0
    from_chamber: bool = False
    to_chamber: bool = False

    @property
    def volume_mm3(self) -> float:
        """Water in it."""
        return self.shape.area_mm2 * self.length_mm


def hydraulic_diameter_mm(shape: Obround) -> float:
    """Four times the area over the perimeter."""
    return 4.0 * shape.area_mm2 / shape.perimeter_mm


def round_bore(diameter_mm: float) -> Obround:
    """A round opening."""
    return Obround(width_mm=diameter_mm, height_mm=diameter_mm)


def waterway(family: Family, run: RunLayout) -> tuple[Stretch, ...]:
    """Every stretch of one waterway of a run, from the valve end to the return or turn-back end.

    Both waterways are alike. A leg in a bore leaves its passage free, the bore beyond it its own section.
    """
    return tuple(_along(family, run))


def _along(family: Family, run: RunLayout) -> Iterator[Stretch]:
    passage = leg_spec(family).passage
    into = family.end_insertion_mm
    spigot = into + family.valve_end.block.face_gap_mm
    yield Stretch(part="valve end", what="spigot", shape=passage, length_mm=spigot, from_chamber=True)
    for piece, joint in zip(run.pieces, (*run.joints, None), strict=True):
        yield _bore(family, piece)
        if joint is not None:
            yield from _JOINTS[joint.kind](family, joint, passage)
    end = "turn-back end" if run.turns_back else "return end"
    block = family.turn_back_end.block if run.turns_back else family.return_end.block
    yield Stretch(part=end, what="spigot", shape=passage, length_mm=into + block.face_gap_mm, to_chamber=True)


def _bore(family: Family, piece: Piece) -> Stretch:
    free = piece.cut_length_mm - piece.start.insertion_mm - piece.end.insertion_mm
    return Stretch(part=piece.mark, what="bore", shape=bore_opening(family), length_mm=max(free, 0.0))


def _elbow(family: Family, joint: Joint, passage: Obround) -> Iterator[Stretch]:
    elbow = family.elbow
    if elbow is None:
        raise ValueError(f"family {family.id} has no elbow for joint {joint.mark}")
    radius = elbow.bend_radius_mm
    yield Stretch(part=joint.mark, what="long leg", shape=passage, length_mm=elbow.long_leg_mm)
    yield _bend(joint, "bend", passage, radius)
    yield Stretch(part=joint.mark, what="short leg", shape=passage, length_mm=elbow.short_leg_mm)


def _link(family: Family, joint: Joint, passage: Obround) -> Iterator[Stretch]:
    link = family.link
    tail, hose = round_bore(link.tail.passage_mm), round_bore(2.0 * link.inner_radius_mm)
    bend = _bend(joint, "hose, bent", hose, link.arc_radius_mm)
    straight = max(link.hose_length_mm - 2.0 * link.tail.length_mm - bend.length_mm, 0.0)
    for what, shape, length in (
        ("spigot", passage, link.insertion_mm + link.stub_mm),
        ("tail", tail, link.tail.length_mm),
        ("hose", hose, straight),
    ):
        yield Stretch(part=joint.mark, what=what, shape=shape, length_mm=length)
    if bend.turn_deg:
        yield bend
    yield Stretch(part=joint.mark, what="tail out", shape=tail, length_mm=link.tail.length_mm)
    yield Stretch(part=joint.mark, what="spigot out", shape=passage, length_mm=link.insertion_mm + link.stub_mm)


def _coupler(family: Family, joint: Joint, passage: Obround) -> Iterator[Stretch]:
    length = 2.0 * family.coupler.insertion_mm + family.coupler.gap_mm
    yield Stretch(part=joint.mark, what="coupler", shape=passage, length_mm=length)


def _bend(joint: Joint, what: str, shape: Obround, radius_mm: float) -> Stretch:
    turn = abs(joint.turn_deg)
    length = radius_mm * math.radians(turn)
    return Stretch(part=joint.mark, what=what, shape=shape, length_mm=length, turn_deg=turn, bend_radius_mm=radius_mm)


_JOINTS = {"elbow": _elbow, "link": _link, "coupler": _coupler}
