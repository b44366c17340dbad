"""Clips and nibs: tabs in their guides, eyes round the mouths, nibs in the middle chamber, both ways round."""

from __future__ import annotations

from collections.abc import Iterator

from model3d.families.family import Family
from model3d.families.refusals.refusal import Limits, Refusal, Sum, mm, refuse
from model3d.families.shapes import Ring, box, contains, faceted, room_inside_mm, shifted

SIDES = ((1, "front"), (-1, "back"))


def _middle(family: Family) -> tuple[float, float]:
    """Midway between the waterways, in section coordinates."""
    section = family.section
    return section.waterways[0].centre[0], section.middle_v_mm - section.floor_gap_mm


def _middle_chamber(family: Family) -> Ring | None:
    rings = (faceted(chamber.outline()) for chamber in family.section.chambers)
    return next((ring for ring in rings if contains(ring, _middle(family))), None)


def _beside(family: Family, side: int, inner_mm: float, outer_mm: float, height_mm: float, half_mm: float) -> Ring:
    """A rectangle on one side of the bores' line, at a height from midway, in section coordinates."""
    u, v = _middle(family)
    low, high = sorted((side * inner_mm, side * outer_mm))
    return box(u + low, v + height_mm - half_mm, u + high, v + height_mm + half_mm)


def tabs(family: Family, limits: Limits) -> Iterator[Refusal]:
    """Each tab lies in a guide, front and back, and the guide holds it up and down."""
    tab = family.clip.tab
    chamber = _middle_chamber(family)
    if chamber is None:
        yield from refuse(
            "middle-chamber",
            "section.chambers",
            "no hollow lies midway between the waterways, where the clip's tabs go",
        )
        return
    for side, name in SIDES:
        for i, height in enumerate(tab.heights_mm):
            ring = _beside(family, side, tab.inner_mm, tab.outer_mm, height, tab.half_height_mm)
            room = room_inside_mm(ring, chamber)
            where = (
                f"the tab {mm(tab.inner_mm)} to {mm(tab.outer_mm)} from the bores' line, {mm(height)} from the middle"
            )
            if room < 0.0:
                yield from refuse(
                    "tab-in-guide",
                    "clip.tab.outer_mm",
                    f"{where}, reaches {mm(-room)} mm into the metal at the {name}",
                )
            elif any(
                room_inside_mm(shifted(ring, 0.0, s), chamber) >= 0.0
                for s in (limits.guide_slop_mm, -limits.guide_slop_mm)
            ):
                text = f"{where}, could move {mm(limits.guide_slop_mm)} mm up or down: no guide at the {name} holds it"
                yield from refuse("tab-guided", f"clip.tab.heights_mm.{i}", text)


def turned_over(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """A clip or a bridge turned over is the same upside down: its heights lie evenly about the middle."""
    for key, heights in (
        ("clip.tab.heights_mm", family.clip.tab.heights_mm),
        ("nib.heights_mm", family.nib.heights_mm),
    ):
        if sorted(heights) != sorted(-h + 0.0 for h in heights):
            text = (
                f"heights {', '.join(mm(h) for h in heights)} turned over are "
                f"{', '.join(mm(-h + 0.0) for h in heights)}"
            )
            yield from refuse("turned-over", key, text)


def eyes(family: Family, limits: Limits) -> Iterator[Refusal]:
    """The eye stands outside the reamed mouth, and the plate round the eye has metal left."""
    clip, section = family.clip, family.section
    way = section.waterways[0]
    if clip.eye_clearance_mm <= section.lead_in.radial_mm:
        text = (
            f"the eye stands {mm(clip.eye_clearance_mm)} outside the bore, its reamed mouth "
            f"{mm(section.lead_in.radial_mm)}"
        )
        yield from refuse("eye-outside-mouth", "clip.eye_clearance_mm", text)
    for key, web in (
        ("clip.half_width_mm", Sum(clip.half_width_mm, -way.width_mm / 2.0, -clip.eye_clearance_mm)),
        (
            "clip.half_height_mm",
            Sum(clip.half_height_mm, -section.pitch_mm / 2.0, -way.height_mm / 2.0, -clip.eye_clearance_mm),
        ),
    ):
        if web.value < limits.web_mm:
            yield from refuse("clip-web", key, f"beside its eye the plate has {web}, at least {mm(limits.web_mm)}")


def plate(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """The clip's plate stays within the section, and carries its tabs."""
    clip = family.clip
    u, v = _middle(family)
    ring = box(u - clip.half_width_mm, v - clip.half_height_mm, u + clip.half_width_mm, v + clip.half_height_mm)
    room = room_inside_mm(ring, faceted(family.section.outline.outline()))
    if room < 0.0:
        text = (
            f"the plate, 2 x {mm(clip.half_width_mm)} by 2 x {mm(clip.half_height_mm)}, stands {mm(-room)} out "
            "of the section"
        )
        yield from refuse("clip-in-section", "clip.half_width_mm", text)
    thick = Sum(clip.tab.outer_mm, -clip.tab.inner_mm)
    if thick.value <= 0.0:
        yield from refuse("tab-thickness", "clip.tab.outer_mm", f"the tab would be {thick} thick")
    elif clip.tab.length_mm <= thick.value / 3.0:
        text = f"the tab is {mm(clip.tab.length_mm)} long, its bevel ({thick}) / 3"
        yield from refuse("tab-length", "clip.tab.length_mm", text)
    if clip.corner_radius_mm > clip.half_width_mm:
        text = f"corners of radius {mm(clip.corner_radius_mm)} do not fit a plate 2 x {mm(clip.half_width_mm)} wide"
        yield from refuse("clip-corner", "clip.corner_radius_mm", text)
    held = Sum(clip.half_width_mm, -clip.tab.inner_mm)
    if held.value <= 0.0:
        yield from refuse("tab-on-plate", "clip.tab.inner_mm", f"the tab stands on {held} of its plate")


def nibs(family: Family, limits: Limits) -> Iterator[Refusal]:
    """A nib with its catch stays in the middle chamber on either side, clear of tabs and eyes."""
    nib, clip, section = family.nib, family.clip, family.section
    chamber = _middle_chamber(family)
    slot = nib.half_height_mm + nib.slot_clearance_mm
    eye = section.pitch_mm / 2.0 - section.waterways[0].height_mm / 2.0 - clip.eye_clearance_mm
    for i, height in enumerate(nib.heights_mm):
        for side, name in SIDES:
            ring = _beside(family, side, nib.inner_mm, nib.outer_mm + nib.catch_mm, height, nib.half_height_mm)
            room = 0.0 if chamber is None else room_inside_mm(ring, chamber)
            if room < 0.0:
                text = (
                    f"the nib {mm(nib.inner_mm)} to {Sum(nib.outer_mm, nib.catch_mm)} toward the {name}, "
                    f"{mm(height)} from the middle, reaches {mm(-room)} mm into the metal"
                )
                yield from refuse("nib-in-chamber", f"nib.heights_mm.{i}", text)
        web = Sum(eye, -abs(height), -slot)
        if web.value < limits.web_mm and nib.inner_mm - nib.slot_clearance_mm < section.waterways[0].width_mm / 2.0:
            text = f"between a nib's slot and an eye the clip has {web}, at least {mm(limits.web_mm)}"
            yield from refuse("slot-web", f"nib.heights_mm.{i}", text)
        for tab_height in clip.tab.heights_mm:
            apart = Sum(clip.tab.inner_mm, -nib.outer_mm, -nib.catch_mm)
            if apart.value < 0.0 and abs(tab_height - height) < slot + clip.tab.half_height_mm:
                text = f"between the nib's catch and the tab there is {apart}"
                yield from refuse("nib-on-tab", "nib.outer_mm", text)


def catch(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """The catch clicks behind the plate: wider than the slot's clearance, inside the plate, and before the nib's
    bevelled tip."""
    nib = family.nib
    thick = Sum(nib.outer_mm, -nib.inner_mm)
    if thick.value <= 0.0:
        yield from refuse("nib-thickness", "nib.outer_mm", f"the nib would be {thick} thick")
        return
    if nib.catch_mm <= nib.slot_clearance_mm:
        text = f"the catch stands {mm(nib.catch_mm)} out, the slot leaves {mm(nib.slot_clearance_mm)}: nothing clicks"
        yield from refuse("catch", "nib.catch_mm", text)
    tip = Sum(nib.reach_mm, -thick.value / 3.0)
    if not 0.0 < nib.catch_start_mm < nib.catch_end_mm < tip.value:
        text = (
            f"the catch goes from {mm(nib.catch_start_mm)} to {mm(nib.catch_end_mm)} past the cut face; it must begin "
            f"past the plate and end before the bevel at {tip}"
        )
        yield from refuse("catch-place", "nib.catch_start_mm", text)


def bridge(family: Family, limits: Limits) -> Iterator[Refusal]:
    """The bridge has metal round its legs and under its nibs."""
    plate, leg = family.bridge, family.leg
    for key, web in (
        ("bridge.half_width_mm", Sum(plate.half_width_mm, -leg.width_mm / 2.0, -plate.leg_clearance_mm)),
        (
            "bridge.half_height_mm",
            Sum(plate.half_height_mm, -family.section.pitch_mm / 2.0, -leg.height_mm / 2.0, -plate.leg_clearance_mm),
        ),
    ):
        if web.value < limits.web_mm:
            yield from refuse("bridge-web", key, f"beside a leg the bridge has {web}, at least {mm(limits.web_mm)}")
    if plate.half_width_mm < family.nib.outer_mm:
        text = f"the nib reaches {mm(family.nib.outer_mm)} from the bores' line, the bridge {mm(plate.half_width_mm)}"
        yield from refuse("nib-on-bridge", "bridge.half_width_mm", text)


CHECKS = (tabs, turned_over, eyes, plate, nibs, catch, bridge)
