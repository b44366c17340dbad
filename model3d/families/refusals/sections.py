"""The section: outlines that close, measure what they say, and leave walls between the hollows."""

from __future__ import annotations

import math
from collections.abc import Iterator

from model3d.families.family import Family
from model3d.families.refusals.refusal import Limits, Refusal, Sum, mm, refuse
from model3d.families.section import OutlineData
from model3d.families.shapes import (
    Ring,
    area_mm2,
    crosses_itself,
    faceted,
    room_beside_mm,
    room_inside_mm,
    stadium,
)


def outline_data(family: Family) -> Iterator[tuple[str, OutlineData]]:
    """Every outline of a family with its key."""
    yield "section.outline", family.section.outline
    for i, chamber in enumerate(family.section.chambers):
        yield f"section.chambers.{i}", chamber
    yield "bracket.outline", family.bracket.outline
    yield "trim.outline", family.trim.outline


def outlines(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """Every outline is drawn anticlockwise, does not cross itself, and its arcs are arcs."""
    for key, data in outline_data(family):
        flat = _first_flat_arc(data)
        if flat is not None:
            yield from refuse(
                "arc", f"{key}.edges.{flat}.through", "the arc's three points stand in a line: leave out 'through'"
            )
            continue
        ring = faceted(data.outline())
        area = area_mm2(ring)
        if area <= 0.0:
            yield from refuse("anticlockwise", key, f"the outline encloses {mm(area)} mm2: draw it anticlockwise")
        elif crosses_itself(ring):
            yield from refuse("self-crossing", key, "the outline crosses or touches itself")


def _first_flat_arc(data: OutlineData) -> int | None:
    here = data.start
    for i, edge in enumerate(data.edges):
        if edge.through is not None:
            (ax, ay), (bx, by), (cx, cy) = here, edge.through, edge.to
            if abs((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) < 1e-9 * max(1.0, math.dist(here, edge.to)):
                return i
        here = edge.to
    return None


def measures(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """The outline stands on u = 0 and v = 0 and measures the depth and height given."""
    section = family.section
    u0, v0, u1, v1 = section.outline.outline().extent_mm
    for key, low, high, given in (("depth_mm", u0, u1, section.depth_mm), ("height_mm", v0, v1, section.height_mm)):
        if abs(low) > 1e-6 or abs(high - given) > 1e-6:
            text = f"the outline goes from {mm(low)} to {mm(high)}, not from 0.0 to {mm(given)}"
            yield from refuse("section-measure", f"section.{key}", text)


def waterways(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """Two like waterways stand one above the other, the lower first."""
    lower, upper = family.section.waterways
    if (lower.width_mm, lower.height_mm) != (upper.width_mm, upper.height_mm):
        text = (
            f"{mm(lower.width_mm)} x {mm(lower.height_mm)} below, {mm(upper.width_mm)} x {mm(upper.height_mm)} above: "
            "one leg must fit both"
        )
        yield from refuse("waterways-alike", "section.waterways.1", text)
    if lower.centre[0] != upper.centre[0]:
        text = (
            f"the upper stands {Sum(upper.centre[0], -lower.centre[0])} farther from the back than the lower: "
            "clips turn over about one line"
        )
        yield from refuse("waterways-in-line", "section.waterways.1.centre", text)
    if family.section.pitch_mm <= lower.height_mm:
        text = f"the waterways stand {Sum(upper.centre[1], -lower.centre[1])} apart and are {mm(lower.height_mm)} high"
        yield from refuse("waterways-apart", "section.waterways.1.centre", text)


def walls(family: Family, limits: Limits) -> Iterator[Refusal]:
    """Hollows, waterways and reamed mouths stand inside the outline with metal between them."""
    section = family.section
    outside = faceted(section.outline.outline())
    hollows: list[tuple[str, str, Ring]] = [
        (f"section.chambers.{i}", f"chamber {i + 1}", faceted(chamber.outline()))
        for i, chamber in enumerate(section.chambers)
    ]
    bores = [
        (f"section.waterways.{i}", f"waterway {i + 1}", stadium(way.bore().opening, way.centre))
        for i, way in enumerate(section.waterways)
    ]
    mouths = [
        (key, f"the mouth of {name}", stadium(way.bore().opening.grown(section.lead_in.radial_mm), way.centre))
        for (key, name, _), way in zip(bores, section.waterways, strict=True)
    ]
    for key, name, ring in (*hollows, *bores, *mouths):
        room = room_inside_mm(ring, outside, enough_mm=2.0 * limits.wall_mm)
        if room < limits.wall_mm:
            text = f"{name} leaves {mm(room)} mm to the outside, at least {mm(limits.wall_mm)}"
            yield from refuse("outer-wall", key, text)
    yield from _between(hollows, hollows, limits.wall_mm)
    yield from _between(hollows, bores, limits.wall_mm)
    yield from _between(hollows, mouths, limits.mouth_wall_mm)
    yield from _between(mouths, mouths, limits.mouth_wall_mm)


def _between(
    some: list[tuple[str, str, Ring]], others: list[tuple[str, str, Ring]], least_mm: float
) -> Iterator[Refusal]:
    for i, (key, name, ring) in enumerate(some):
        for other_key, other_name, other in others[i + 1 :] if some is others else others:
            room = room_beside_mm(ring, other, enough_mm=2.0 * least_mm)
            if room < least_mm:
                text = f"{name} and {other_name} have {mm(room)} mm between them, at least {mm(least_mm)}"
                yield from refuse("inner-wall", key if other_key.startswith("section.waterways") else other_key, text)


CHECKS = (measures, waterways, walls)
