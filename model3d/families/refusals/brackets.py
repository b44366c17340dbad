"""Brackets: the ramp under the piece's path, the latch in its groove, the room the press needs."""

from __future__ import annotations

import math
from collections.abc import Iterator

from model3d.families.family import Family
from model3d.families.refusals.refusal import Limits, Refusal, Sum, mm, refuse
from model3d.families.shapes import Ring, box, cut_at, faceted, room_beside_mm, room_inside_mm, shifted, spans_at_u


def _bracket(family: Family) -> Ring:
    return faceted(family.bracket.outline.outline())


def _piece(family: Family) -> Ring:
    """The section in place, in u from the wall and v from the floor."""
    section = family.section
    return shifted(faceted(section.outline.outline()), section.stand_off_mm, section.floor_gap_mm)


def _foot(family: Family) -> Ring:
    """The bracket below the middle of the piece, in front of its plate."""
    section = family.section
    lower = cut_at(_bracket(family), 1, section.middle_v_mm, -1)
    return cut_at(lower, 0, section.stand_off_mm + 1e-6, 1)


def _latch(family: Family) -> Ring:
    """The bracket above the middle of the piece, in front of its plate."""
    section = family.section
    upper = cut_at(_bracket(family), 1, section.middle_v_mm, 1)
    return cut_at(upper, 0, section.stand_off_mm + 1e-6, 1)


def _highest(ring: Ring, from_u_mm: float) -> float | None:
    return max((v for _, v in cut_at(ring, 0, from_u_mm, 1)), default=None)


def distances(family: Family, limits: Limits) -> Iterator[Refusal]:
    """The floor gap holds the lift, the press distance the latch's reach past the back plane."""
    section, bracket = family.section, family.bracket
    lift = Sum(bracket.lift_mm, limits.lift_margin_mm)
    if section.floor_gap_mm < lift.value:
        text = f"the lift needs {lift} mm under the piece, the floor gap is {mm(section.floor_gap_mm)}"
        yield from refuse("floor-gap", "section.floor_gap_mm", text)
    press = Sum(bracket.latch_reach_mm, -section.stand_off_mm, limits.latch_margin_mm)
    if bracket.press_mm < press.value:
        text = f"to pass the latch a piece must stand {press} mm out, the press distance is {mm(bracket.press_mm)}"
        yield from refuse("press-distance", "bracket.press_mm", text)
    if bracket.plate_mm != section.stand_off_mm:
        text = (
            f"the plate is {mm(bracket.plate_mm)} thick, the back plane stands {mm(section.stand_off_mm)} from the wall"
        )
        yield from refuse("bracket-plate", "bracket.plate_mm", text)


def latch_reach(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """The latch reaches as far from the wall as the family says."""
    reach = max((u for u, _ in _latch(family)), default=0.0)
    if abs(reach - family.bracket.latch_reach_mm) > 0.01:
        text = f"the outline's latch reaches {mm(reach)} from the wall, not {mm(family.bracket.latch_reach_mm)}"
        yield from refuse("latch-reach", "bracket.latch_reach_mm", text)


def ramp(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """The foot stays under the piece on its way: f - l where it is offered, f where it is pressed, and there it
    carries."""
    section, bracket = family.section, family.bracket
    foot, out = _foot(family), section.stand_off_mm + bracket.press_mm
    offered = Sum(section.floor_gap_mm, -bracket.lift_mm)
    before = _highest(foot, out)
    if before is not None and before > offered.value + 1e-6:
        text = f"in front of {mm(out)} the bracket stands {mm(before)} high, the offered piece's underside {offered}"
        yield from refuse("ramp-under-path", "bracket.outline", text)
    under = _highest(foot, section.stand_off_mm)
    if under is None or under < section.floor_gap_mm - 1e-6:
        text = (
            f"the bracket stands {mm(under or 0.0)} high under the piece, whose underside is "
            f"{mm(section.floor_gap_mm)} up"
        )
        yield from refuse("bracket-carries", "bracket.outline", text)
    elif under > section.floor_gap_mm + 1e-6:
        text = f"under the piece the bracket stands {mm(under)} high, the piece's underside {mm(section.floor_gap_mm)}"
        yield from refuse("ramp-under-path", "bracket.outline", text)
    if before is None or before < offered.value - 1e-6:
        text = (
            f"where the piece is offered the ramp stands {mm(before or 0.0)} high, the piece's underside "
            f"{offered}: nothing guides it"
        )
        yield from refuse("ramp-meets-piece", "bracket.outline", text)


def latch_in_groove(family: Family, limits: Limits) -> Iterator[Refusal]:
    """Placed, the bracket touches the piece at most; drawn off the wall, the latch holds it; to pass, the latch has
    room to bend."""
    piece, bracket = _piece(family), _bracket(family)
    room = room_beside_mm(piece, bracket)
    if room < 0.0:
        yield from refuse("latch-in-groove", "bracket.outline", f"placed, piece and bracket overlap by {mm(-room)} mm")
        return
    if room_beside_mm(shifted(piece, limits.latch_slop_mm, 0.0), bracket) >= 0.0:
        text = f"drawn {mm(limits.latch_slop_mm)} mm off the wall the piece meets no latch"
        yield from refuse("latch-holds", "bracket.outline", text)
        return
    yield from _latch_bends(family, piece)


def _latch_bends(family: Family, piece: Ring) -> Iterator[Refusal]:
    """To pass the lip the latch bends by what its hook stands beyond the mouth, into the room the groove leaves it."""
    heights = [v for _, v in _latch(family)]
    if not heights:
        yield from refuse("latch-holds", "bracket.outline", "the bracket has no latch above the middle of the piece")
        return
    low, high = min(heights), max(heights)
    middle = (low + high) / 2.0
    covered = spans_at_u(piece, family.section.stand_off_mm + 1e-3)
    below = max((top for _, top in covered if top < middle), default=-math.inf)
    above = min((bottom for bottom, _ in covered if bottom > middle), default=math.inf)
    if high > above:
        bend, left = Sum(high, -above), Sum(low, -below)
    else:
        bend, left = Sum(below, -low), Sum(above, -high)
    if left.value < bend.value:
        text = f"passing the lip the latch bends by {bend} mm, the groove leaves {left} mm"
        yield from refuse("latch-bends", "bracket.outline", text)


def extent(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """The bracket stands on the wall and off the floor, and its foot does not reach past the piece's front."""
    u0, v0, u1, _ = family.bracket.outline.outline().extent_mm
    if u0 != 0.0 or v0 < 0.0:
        text = f"the bracket begins {mm(u0)} from the wall and {mm(v0)} above the floor: 0.0, and 0.0 or more"
        yield from refuse("bracket-off-wall", "bracket.outline", text)
    if u1 > family.section.front_u_mm:
        text = f"the bracket reaches {mm(u1)} from the wall, the piece's front {mm(family.section.front_u_mm)}"
        yield from refuse("bracket-foot", "bracket.outline", text)


def holes(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """Screw holes stand in the solid plate between ramp and latch, and within the bracket's width."""
    bracket, section = family.bracket, family.section
    low = _highest(_foot(family), section.stand_off_mm) or 0.0
    high = min((v for _, v in _latch(family)), default=0.0)
    for i, height in enumerate(bracket.holes.heights_mm):
        key, half = f"bracket.holes.heights_mm.{i}", bracket.holes.diameter_mm / 2.0
        if not low + 2.0 * half <= height <= high - 2.0 * half:
            text = f"a hole at {mm(height)} does not stand in the plate between ramp and latch, {mm(low)} to {mm(high)}"
            yield from refuse("bracket-hole", key, text)
        elif room_inside_mm(box(0.0, height - half, bracket.plate_mm, height + half), _bracket(family)) < 0.0:
            text = f"round a hole at {mm(height)} the bracket is no plate {mm(bracket.plate_mm)} thick"
            yield from refuse("bracket-hole", key, text)
    if 2.0 * bracket.holes.diameter_mm >= bracket.width_mm:
        text = f"a screw head of 2 x {mm(bracket.holes.diameter_mm)} does not fit a bracket {mm(bracket.width_mm)} wide"
        yield from refuse("bracket-width", "bracket.width_mm", text)


def spacing(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """Distances are in order, a bracket stands on its piece, two fit where two are asked."""
    bracket, given = family.bracket, family.bracket.spacing
    ends = [("end", given.end_least_mm, given.end_most_mm)]
    if given.elbow_least_mm is not None and given.elbow_most_mm is not None:
        ends.append(("elbow", given.elbow_least_mm, given.elbow_most_mm))
    for name, least, most in ends:
        if least > most:
            text = f"at least {mm(least)} but at most {mm(most)}"
            yield from refuse("bracket-spacing", f"bracket.spacing.{name}_least_mm", text)
        if least < bracket.width_mm / 2.0:
            text = f"{mm(least)} from the end, a bracket {mm(bracket.width_mm)} wide would stand past the piece"
            yield from refuse("bracket-spacing", f"bracket.spacing.{name}_least_mm", text)
    if given.most_mm < bracket.width_mm:
        text = f"brackets {mm(bracket.width_mm)} wide would stand at most {mm(given.most_mm)} apart"
        yield from refuse("bracket-spacing", "bracket.spacing.most_mm", text)
    two = Sum(given.end_least_mm, given.end_least_mm, bracket.width_mm)
    if given.single_below_mm < two.value:
        text = f"two brackets need {two} mm, a piece of {mm(given.single_below_mm)} is asked to take them"
        yield from refuse("bracket-spacing", "bracket.spacing.single_below_mm", text)


CHECKS = (distances, latch_reach, ramp, latch_in_groove, extent, holes, spacing)
