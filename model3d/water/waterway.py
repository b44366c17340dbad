"""What the water of one waterway passes, in order: bores, legs, bends, hoses, by their free sections."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from model3d.families.family import Family
from model3d.families.specs import bore_opening, leg_spec
from model3d.figures import plain
from model3d.geometry.outline import Obround
from model3d.layout import Joint, Piece, RunLayout


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """One length of one section. ``part`` is the mark of the piece or joint, or ``valve end``, ``return
    end``, ``turn-back end``; ``what`` names it. A bend has the turn of its middle line and its radius.
    ``from_chamber`` and ``to_chamber`` say that it opens into the wide chamber of an end fitting. ``length_sum`` is how
    its length comes about.
    """

    part: str
    what: str
    shape: Obround
    length_mm: float
    turn_deg: float = 0.0
    bend_radius_mm: float = 0.0
    from_chamber: bool = False
    to_chamber: bool = False
    length_sum: str = ""

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
    yield _end_spigot("valve end", passage, into, family.valve_end.block.face_gap_mm, from_chamber=True)
    for piece, joint in zip(run.pieces, (*run.joints, None), strict=True):
        yield _bore(family, piece)
        if joint is not None:
            yield from _JOINTS[joint.kind](family, joint, passage)
    end = "turn-back end" if run.turns_back else "return end"
    block = family.turn_back_end.block if run.turns_back else family.return_end.block
    yield _end_spigot(end, passage, into, block.face_gap_mm, from_chamber=False)


def _end_spigot(part: str, passage: Obround, into_mm: float, gap_mm: float, *, from_chamber: bool) -> Stretch:
    return Stretch(
        part=part,
        what="spigot",
        shape=passage,
        length_mm=into_mm + gap_mm,
        from_chamber=from_chamber,
        to_chamber=not from_chamber,
        length_sum=f"{into_mm:g} + {gap_mm:g}",
    )


def _bore(family: Family, piece: Piece) -> Stretch:
    near, far = piece.start.insertion_mm, piece.end.insertion_mm
    free = max(piece.cut_length_mm - near - far, 0.0)
    return Stretch(
        part=piece.mark,
        what="bore",
        shape=bore_opening(family),
        length_mm=free,
        length_sum=f"{plain(piece.cut_length_mm)} - {plain(near)} - {plain(far)}" if free else "0",
    )


def _elbow(family: Family, joint: Joint, passage: Obround) -> Iterator[Stretch]:
    elbow = family.elbow
    if elbow is None:
        raise ValueError(f"family {family.id} has no elbow for joint {joint.mark}")
    yield _straight(joint, "long leg", passage, elbow.long_leg_mm)
    yield _bend(joint, "bend", passage, elbow.bend_radius_mm)
    yield _straight(joint, "short leg", passage, elbow.short_leg_mm)


def _link(family: Family, joint: Joint, passage: Obround) -> Iterator[Stretch]:
    link = family.link
    tail, hose = round_bore(link.tail.passage_mm), round_bore(2.0 * link.inner_radius_mm)
    bend = _bend(joint, "hose, bent", hose, link.arc_radius_mm)
    straight = max(link.hose_length_mm - 2.0 * link.tail.length_mm - bend.length_mm, 0.0)
    spigot, spigot_sum = link.insertion_mm + link.stub_mm, f"{link.insertion_mm:g} + {link.stub_mm:g}"
    hose_sum = f"{link.hose_length_mm:g} - 2 x {link.tail.length_mm:g} - {plain(bend.length_mm)}"
    yield _straight(joint, "spigot", passage, spigot, spigot_sum)
    yield _straight(joint, "tail", tail, link.tail.length_mm)
    yield _straight(joint, "hose", hose, straight, hose_sum if straight else "0")
    if bend.turn_deg:
        yield bend
    yield _straight(joint, "tail out", tail, link.tail.length_mm)
    yield _straight(joint, "spigot out", passage, spigot, spigot_sum)


def _coupler(family: Family, joint: Joint, passage: Obround) -> Iterator[Stretch]:
    into, gap = family.coupler.insertion_mm, family.coupler.gap_mm
    yield _straight(joint, "coupler", passage, 2.0 * into + gap, f"2 x {into:g} + {gap:g}")


def _straight(joint: Joint, what: str, shape: Obround, length_mm: float, length_sum: str = "") -> Stretch:
    return Stretch(
        part=joint.mark, what=what, shape=shape, length_mm=length_mm, length_sum=length_sum or f"{length_mm:g}"
    )


def _bend(joint: Joint, what: str, shape: Obround, radius_mm: float) -> Stretch:
    turn = abs(joint.turn_deg)
    return Stretch(
        part=joint.mark,
        what=what,
        shape=shape,
        length_mm=radius_mm * math.radians(turn),
        turn_deg=turn,
        bend_radius_mm=radius_mm,
        length_sum=f"{radius_mm:g} x {plain(turn, 4)} x pi / 180",
    )


_JOINTS = {"elbow": _elbow, "link": _link, "coupler": _coupler}
