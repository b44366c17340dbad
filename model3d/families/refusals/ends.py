"""End fittings: blocks within their lengths and round their legs, tails, head and cradle in place."""

from __future__ import annotations

from collections.abc import Iterator

from model3d.families.ends import BlockData
from model3d.families.family import Family
from model3d.families.refusals.refusal import Limits, Refusal, Sum, mm, refuse


def _blocks(family: Family) -> tuple[tuple[str, BlockData, float], ...]:
    ends = (("valve_end", family.valve_end), ("return_end", family.return_end), ("turn_back_end", family.turn_back_end))
    return tuple((key, end.block, end.length_mm) for key, end in ends)


def lengths(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """A fitting is no longer than the length given: the block, and on a valve end the neck and the head."""
    for key, block, length in _blocks(family):
        whole = Sum(block.end_mm)
        if key == "valve_end":
            whole = Sum(block.end_mm, family.valve_end.neck.length_mm, family.valve_end.head.length_mm)
        if whole.value > length:
            yield from refuse(
                "end-length", f"{key}.length_mm", f"the fitting stands {whole} out, its length is {mm(length)}"
            )
        if block.end_mm <= block.face_gap_mm:
            text = f"the block would be {Sum(block.end_mm, -block.face_gap_mm)} long"
            yield from refuse("block-length", f"{key}.block.end_mm", text)


def blocks(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """A block leaves the clip its place and stands round both legs."""
    section, leg = family.section, family.leg
    e = section.bore_u_mm
    low, high = (section.floor_gap_mm + way.centre[1] for way in section.waterways)
    for key, block, _ in _blocks(family):
        if block.face_gap_mm < family.clip.thickness_mm:
            text = (
                f"the block stands {mm(block.face_gap_mm)} off the cut face, the clip is "
                f"{mm(family.clip.thickness_mm)} thick"
            )
            yield from refuse("block-on-clip", f"{key}.block.face_gap_mm", text)
        for side, given, edge, holds in (
            ("back", block.back_mm, Sum(e, -leg.width_mm / 2.0), block.back_mm < e - leg.width_mm / 2.0),
            ("front", block.front_mm, Sum(e, leg.width_mm / 2.0), block.front_mm > e + leg.width_mm / 2.0),
            ("bottom", block.bottom_mm, Sum(low, -leg.height_mm / 2.0), block.bottom_mm < low - leg.height_mm / 2.0),
            ("top", block.top_mm, Sum(high, leg.height_mm / 2.0), block.top_mm > high + leg.height_mm / 2.0),
        ):
            if not holds:
                text = f"the block's {side} stands at {mm(given)}, its legs reach to {edge}"
                yield from refuse("block-round-legs", f"{key}.block.{side}_mm", text)


def tails(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """Tails leave from under their block, side by side where there are two."""
    valve, back = family.valve_end, family.return_end
    for key, block, radius, offset in (
        ("valve_end.tail.offset_mm", valve.block, valve.tail.radius_mm, valve.tail.offset_mm),
        ("valve_end.tail.twin_offsets_mm.0", valve.block, valve.tail.radius_mm, valve.tail.twin_offsets_mm[0]),
        ("valve_end.tail.twin_offsets_mm.1", valve.block, valve.tail.radius_mm, valve.tail.twin_offsets_mm[1]),
        ("return_end.tail.offset_mm", back.block, back.tail.radius_mm, back.tail.offset_mm),
    ):
        near, far = Sum(offset, -radius), Sum(offset, radius)
        if near.value < block.face_gap_mm or far.value > block.end_mm:
            text = f"the tail stands from {near} to {far}, its block from {mm(block.face_gap_mm)} to {mm(block.end_mm)}"
            yield from refuse("tail-under-block", key, text)
    first, second = valve.tail.twin_offsets_mm
    apart = Sum(second, -first, -2.0 * valve.tail.radius_mm)
    if apart.value <= 0.0:
        yield from refuse("tails-apart", "valve_end.tail.twin_offsets_mm", f"between the two tails there is {apart}")


def head(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """The valve's head turns clear of wall and floor, no thinner than its neck."""
    valve, e = family.valve_end, family.section.bore_u_mm
    if valve.head.radius_mm >= e:
        text = f"a head of radius {mm(valve.head.radius_mm)} stands {mm(e)} from the wall"
        yield from refuse("head-off-wall", "valve_end.head.radius_mm", text)
    if valve.head.radius_mm >= valve.head.v_mm:
        text = f"a head of radius {mm(valve.head.radius_mm)} stands {mm(valve.head.v_mm)} above the floor"
        yield from refuse("head-off-floor", "valve_end.head.v_mm", text)
    low, high = Sum(valve.head.v_mm, -valve.neck.radius_mm), Sum(valve.head.v_mm, valve.neck.radius_mm)
    if low.value < valve.block.bottom_mm or high.value > valve.block.top_mm:
        text = f"the neck stands {low} to {high} up, its block {mm(valve.block.bottom_mm)} to {mm(valve.block.top_mm)}"
        yield from refuse("neck-on-block", "valve_end.head.v_mm", text)


def cradle(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """The cradle stands behind the block, within its length, clear of the tails."""
    valve = family.valve_end
    cradle, block = valve.cradle, valve.block
    if cradle.plate_mm > block.back_mm:
        text = f"the plate is {mm(cradle.plate_mm)} thick, the block stands {mm(block.back_mm)} from the wall"
        yield from refuse("cradle-plate", "valve_end.cradle.plate_mm", text)
    if not block.face_gap_mm <= cradle.start_mm < cradle.end_mm <= block.end_mm:
        text = (
            f"the cradle goes from {mm(cradle.start_mm)} to {mm(cradle.end_mm)}, its block from "
            f"{mm(block.face_gap_mm)} to {mm(block.end_mm)}"
        )
        yield from refuse("cradle-length", "valve_end.cradle.start_mm", text)
    if not cradle.bottom_mm < block.top_mm - cradle.lip_mm:
        text = f"the plate begins {mm(cradle.bottom_mm)} up, the lip ends at {Sum(block.top_mm, -cradle.lip_mm)}"
        yield from refuse("cradle-height", "valve_end.cradle.bottom_mm", text)
    behind = Sum(family.section.bore_u_mm, -valve.tail.radius_mm)
    if behind.value < cradle.plate_mm:
        text = f"the tails stand {behind} from the wall, the plate is {mm(cradle.plate_mm)} thick"
        yield from refuse("cradle-on-tail", "valve_end.tail.radius_mm", text)


CHECKS = (lengths, blocks, tails, head, cradle)
