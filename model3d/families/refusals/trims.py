"""Trims and end caps: proud of the faces, and clear of what they cover."""

from __future__ import annotations

import math
from collections.abc import Iterator

from model3d.families.family import Family
from model3d.families.refusals.refusal import Limits, Refusal, Sum, mm, refuse
from model3d.families.shapes import Ring, box, faceted, room_beside_mm, shifted, stadium
from model3d.geometry.outline import Obround


def _trim(family: Family) -> Ring:
    return faceted(family.trim.outline.outline())


def _heights(family: Family) -> tuple[float, ...]:
    """The waterways' heights above the floor."""
    return tuple(family.section.floor_gap_mm + way.centre[1] for way in family.section.waterways)


def on_the_face(family: Family, limits: Limits) -> Iterator[Refusal]:
    """The trim stands proud of the faces, lies on them, and leaves the brackets free."""
    section = family.section
    piece = shifted(faceted(section.outline.outline()), section.stand_off_mm, section.floor_gap_mm)
    room = room_beside_mm(_trim(family), piece, touch_mm=limits.arc_slack_mm)
    if room < 0.0:
        yield from refuse("trim-proud", "trim.outline", f"the trim reaches {mm(-room)} mm into the piece")
    elif room > limits.trim_gap_mm:
        text = f"the trim stands {mm(room)} mm off the piece, at most {mm(limits.trim_gap_mm)}"
        yield from refuse("trim-on-face", "trim.outline", text)
    over = room_beside_mm(_trim(family), faceted(family.bracket.outline.outline()))
    if over < 0.0:
        yield from refuse("trim-on-bracket", "trim.outline", f"the trim reaches {mm(-over)} mm into a bracket")


def extent(family: Family, limits: Limits) -> Iterator[Refusal]:
    """The trim stands off wall and floor, and is a cover: it reaches no farther than it must past face and top."""
    section = family.section
    u0, v0, u1, v1 = family.trim.outline.outline().extent_mm
    if u0 < 0.0 or v0 < 0.0:
        text = f"the trim begins {mm(u0)} from the wall and {mm(v0)} above the floor"
        yield from refuse("trim-off-wall", "trim.outline", text)
    for words, reach, most in (
        ("from the wall", u1, Sum(section.stand_off_mm, section.depth_mm, limits.cover_mm)),
        ("up", v1, Sum(section.floor_gap_mm, section.height_mm, limits.cover_mm)),
    ):
        if reach > most.value:
            text = f"the trim reaches {mm(reach)} {words}, at most {most}"
            yield from refuse("trim-extent", "trim.outline", text)


def over_the_bend(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """Over an elbow corner the trim clears the bend, at the widest turn the elbow's play allows.

    In the plane through the corner and the bend's axis a trim point u stands (e + r - u) / cos(turn/2) from that axis,
    the body r.
    """
    elbow = family.elbow
    if elbow is None:
        return
    centre = family.section.bore_u_mm + elbow.bend_radius_mm
    turn = 90.0 + elbow.play_deg
    half = math.cos(math.radians(turn) / 2.0)
    meridian = tuple(((centre - u) / half, v) for u, v in _trim(family))
    body = Obround(width_mm=elbow.body_width_mm, height_mm=elbow.body_height_mm)
    bodies = [stadium(body, (elbow.bend_radius_mm, v)) for v in _heights(family)]
    room = min(room_beside_mm(meridian, ring, enough_mm=2.0 * family.trim.clearance_mm) for ring in bodies)
    inside = Sum(elbow.bend_radius_mm, -elbow.body_width_mm / 2.0)
    ridge = max((d for d, _ in meridian if d <= inside.value), default=min(d for d, _ in meridian))
    room = min(room, inside.value - ridge) if ridge > inside.value else room
    if room < family.trim.clearance_mm:
        text = (
            f"at {mm(turn)} degrees the trim comes within {mm(room)} mm of the bend (the bend's inside has a radius of "
            f"{inside}, the trim stands {mm(ridge)} from its centre), "
            f"at least {mm(family.trim.clearance_mm)}"
        )
        yield from refuse("trim-over-bend", "trim.outline", text)


def over_fittings(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """The trim clears bends' ends, bridges, hoses and screws of the joint under it."""
    for key, name, ring in _covered(family):
        room = room_beside_mm(_trim(family), ring, enough_mm=2.0 * family.trim.clearance_mm)
        if room < family.trim.clearance_mm:
            text = f"the trim comes within {mm(room)} mm of {name}, at least {mm(family.trim.clearance_mm)}"
            yield from refuse("trim-over-fitting", key, text)


def _covered(family: Family) -> Iterator[tuple[str, str, Ring]]:
    e, middle, bridge, leg = family.section.bore_u_mm, family.section.middle_v_mm, family.bridge, family.leg
    yield (
        "bridge.half_width_mm",
        "the bridge",
        box(
            e - bridge.half_width_mm,
            middle - bridge.half_height_mm,
            e + bridge.half_width_mm,
            middle + bridge.half_height_mm,
        ),
    )
    screw = family.link.screw
    for v in _heights(family):
        if family.elbow is not None:
            body = Obround(width_mm=family.elbow.body_width_mm, height_mm=family.elbow.body_height_mm)
            yield "elbow.body_width_mm", "a bend's end", stadium(body, (e, v))
        hose = Obround(width_mm=2.0 * family.link.outer_radius_mm, height_mm=2.0 * family.link.outer_radius_mm)
        yield "link.outer_radius_mm", "a hose", stadium(hose, (e, v))
        if family.link.screw_access == "above":
            top = v + leg.height_mm / 2.0
            head = box(e - screw.radius_mm, top, e + screw.radius_mm, top + screw.height_mm)
        else:
            front = e + leg.width_mm / 2.0
            head = box(front, v - screw.radius_mm, front + screw.height_mm, v + screw.radius_mm)
        yield "link.screw.height_mm", "a screw", head


def caps(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """An end cap has the trim's outline and covers a return or turn-back block."""
    for key, block in (("return_end", family.return_end.block), ("turn_back_end", family.turn_back_end.block)):
        room = room_beside_mm(_trim(family), box(block.back_mm, block.bottom_mm, block.front_mm, block.top_mm))
        if room < 0.0:
            text = (
                f"the block, to {mm(block.front_mm)} out and {mm(block.top_mm)} up, reaches {mm(-room)} mm into its cap"
            )
            yield from refuse("block-in-cap", f"{key}.block.front_mm", text)
    least = min(
        family.return_end.length_mm - family.return_end.block.end_mm,
        family.turn_back_end.length_mm - family.turn_back_end.block.end_mm,
    )
    if family.end_cap.plate_mm > least:
        text = f"a cap's plate of {mm(family.end_cap.plate_mm)} has {mm(least)} past the block"
        yield from refuse("cap-plate", "end_cap.plate_mm", text)


CHECKS = (on_the_face, extent, over_the_bend, over_fittings, caps)
