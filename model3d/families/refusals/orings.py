"""O-rings: squeeze, fill and lead-in (ISO 3601-2), grooves in the leg, the leg in its bore."""

from __future__ import annotations

import math
from collections.abc import Iterator

from model3d.families.family import Family
from model3d.families.iso3601 import lead_in_least_mm, ring_size
from model3d.families.refusals.refusal import Limits, Refusal, Sum, mm, refuse


def squeeze(family: Family, limits: Limits) -> Iterator[Refusal]:
    """Squeeze is (section - gland depth) / section: 15 to 30 % nominal, and sensible at the ends of the section's
    tolerance."""
    oring = family.oring
    for name, section, least, most in (
        ("squeeze", oring.section_mm, limits.squeeze_least, limits.squeeze_most),
        (
            "squeeze-at-tolerance",
            oring.section_mm - oring.section_tolerance_mm,
            limits.squeeze_least_at_tolerance,
            limits.squeeze_most_at_tolerance,
        ),
        (
            "squeeze-at-tolerance",
            oring.section_mm + oring.section_tolerance_mm,
            limits.squeeze_least_at_tolerance,
            limits.squeeze_most_at_tolerance,
        ),
    ):
        share = (section - oring.gland_depth_mm) / section if section > 0.0 else -1.0
        if not least <= share <= most:
            text = (
                f"the O-ring is squeezed by ({mm(section)} - {mm(oring.gland_depth_mm)}) / {mm(section)} "
                f"= {share:.1%}, not {least:.0%} to {most:.0%}"
            )
            yield from refuse(name, "oring.gland_depth_mm", text)


def fill(family: Family, limits: Limits) -> Iterator[Refusal]:
    """The O-ring fills at most 85 % of its gland, at the upper end of its tolerance a little more."""
    oring = family.oring
    for name, section, most in (
        ("gland-fill", oring.section_mm, limits.fill_most),
        ("gland-fill-at-tolerance", oring.section_mm + oring.section_tolerance_mm, limits.fill_most_at_tolerance),
    ):
        share = math.pi * section**2 / 4.0 / (oring.gland_depth_mm * oring.groove_width_mm)
        if share > most:
            text = (
                f"the O-ring takes pi/4 x {mm(section)}^2 / ({mm(oring.gland_depth_mm)} x "
                f"{mm(oring.groove_width_mm)}) = {share:.1%} of its gland, more than {most:.0%}"
            )
            yield from refuse(name, "oring.groove_width_mm", text)


def lead_in(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """The reamed mouth takes the free ring, and is as long as ISO 3601-2 asks at its angle."""
    oring, mouth = family.oring, family.section.lead_in
    size = ring_size(oring.section_mm)
    if size is None:
        text = f"ISO 3601-2 gives no lead-in here for a section of {mm(oring.section_mm)}; at most 3.53"
        yield from refuse("oring-section", "oring.section_mm", text)
        return
    stands_out = Sum(oring.section_mm, oring.section_tolerance_mm, -oring.gland_depth_mm)
    if mouth.radial_mm < stands_out.value:
        text = f"the free O-ring stands {stands_out} outside the bore but the mouth is only {mm(mouth.radial_mm)} wider"
        yield from refuse("lead-in-width", "section.lead_in.radial_mm", text)
    angle = math.degrees(math.atan2(mouth.radial_mm, mouth.length_mm))
    shown = f"atan({mm(mouth.radial_mm)} / {mm(mouth.length_mm)}) = {angle:.1f} degrees"
    least = lead_in_least_mm(size, angle)
    if least is None:
        yield from refuse("lead-in-angle", "section.lead_in.length_mm", f"the mouth opens at {shown}, at most 20")
    elif mouth.length_mm < least:
        text = (
            f"the mouth opens at {shown}, where ISO 3601-2 asks {mm(least)} of length for a section of "
            f"{mm(size.section_mm)}; it has {mm(mouth.length_mm)}"
        )
        yield from refuse("lead-in-length", "section.lead_in.length_mm", text)


def grooves(family: Family, limits: Limits) -> Iterator[Refusal]:
    """Grooves stand inside the leg's wall, clear of its tip and of one another."""
    oring, leg, way = family.oring, family.leg, family.section.waterways[0]
    wall = min(
        (way.width_mm - 2.0 * oring.gland_depth_mm - leg.passage_width_mm) / 2.0,
        (way.height_mm - 2.0 * oring.gland_depth_mm - leg.passage_height_mm) / 2.0,
    )
    if wall < limits.leg_wall_mm:
        narrow = min(
            (way.width_mm, leg.passage_width_mm), (way.height_mm, leg.passage_height_mm), key=lambda p: p[0] - p[1]
        )
        text = (
            f"under its groove the leg has ({mm(narrow[0])} - 2 x {mm(oring.gland_depth_mm)} - {mm(narrow[1])}) / 2 "
            f"= {mm(wall)} of wall, at least {mm(limits.leg_wall_mm)}"
        )
        yield from refuse("groove-in-wall", "leg.passage_width_mm", text)
    half = oring.groove_width_mm / 2.0
    before = 0.0
    for i, middle in enumerate(oring.from_tip_mm):
        land = Sum(middle, -half, -before)
        if land.value < limits.groove_land_mm:
            text = f"groove {i + 1} has {land} of leg before it, at least {mm(limits.groove_land_mm)}"
            yield from refuse("groove-spacing", f"oring.from_tip_mm.{i}", text)
        before = middle + half


def leg_in_bore(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """The leg is smaller than the bore, has the bore's shape, and its grooves are cut into it."""
    leg, way, oring = family.leg, family.section.waterways[0], family.oring
    gaps = (Sum(way.width_mm, -leg.width_mm), Sum(way.height_mm, -leg.height_mm))
    for gap, key in zip(gaps, ("leg.width_mm", "leg.height_mm"), strict=True):
        if gap.value <= 0.0:
            yield from refuse("leg-in-bore", key, f"the leg has {gap} of play in its bore")
    if abs(gaps[0].value - gaps[1].value) > 1e-6:
        text = (
            f"the leg's play is {gaps[0]} across and {gaps[1]} up: a spigot has the bore's shape, with the "
            "same gap all round"
        )
        yield from refuse("leg-shape", "leg.height_mm", text)
    if abs((leg.height_mm - leg.passage_height_mm) - (leg.width_mm - leg.passage_width_mm)) > 1e-6:
        text = (
            f"the passage leaves {Sum(leg.width_mm, -leg.passage_width_mm)} across and "
            f"{Sum(leg.height_mm, -leg.passage_height_mm)} up: a leg has one thickness all round"
        )
        yield from refuse("passage-shape", "leg.passage_height_mm", text)
    deep = Sum(oring.gland_depth_mm, -(way.width_mm - leg.width_mm) / 2.0)
    if deep.value <= 0.0:
        text = f"a groove would be cut {deep} into the leg"
        yield from refuse("groove-depth", "oring.gland_depth_mm", text)


CHECKS = (squeeze, fill, lead_in, grooves, leg_in_bore)
