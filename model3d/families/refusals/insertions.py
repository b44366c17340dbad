"""How deep legs stand, what enters first, and what stands in the stub between two ends."""

from __future__ import annotations

import math
from collections.abc import Iterator

from model3d.families.family import Family
from model3d.families.refusals.refusal import Limits, Refusal, Sum, mm, refuse


def _insertions(family: Family) -> Iterator[tuple[str, str, Sum]]:
    """Every leg that enters a bore: its name, its key and its working insertion. The long leg is the first."""
    if family.elbow is not None:
        elbow = family.elbow
        yield "the long leg", "elbow.long_leg_mm", Sum(elbow.long_leg_mm, -elbow.stub_mm)
        yield "the short leg", "elbow.short_leg_mm", Sum(elbow.short_leg_mm, -elbow.stub_mm)
    yield "a link's spigot", "link.insertion_mm", Sum(family.link.insertion_mm)
    yield "a coupler", "coupler.insertion_mm", Sum(family.coupler.insertion_mm)
    yield "an end fitting's spigot", "end_insertion_mm", Sum(family.end_insertion_mm)


def window(family: Family, limits: Limits) -> Iterator[Refusal]:
    """In the working position the O-ring nearest the bend stands past the bore's lead-in and a margin."""
    margin = family.elbow.margin_mm if family.elbow is not None else limits.insertion_margin_mm
    least = Sum(max(family.oring.from_tip_mm), family.section.lead_in.length_mm, margin)
    for name, key, insertion in _insertions(family):
        if insertion.value < least.value:
            text = f"{name} stands {insertion} in, its O-ring nearest the cut face needs {least}"
            yield from refuse("insertion-window", key, text)


def nib_first(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """The nib enters the clip before the first O-ring meets the bore; the long leg has no clip."""
    nib, oring = family.nib, family.oring
    for name, key, insertion in _insertions(family):
        if key == "elbow.long_leg_mm":
            continue
        ring = Sum(insertion.value, -min(oring.from_tip_mm), oring.section_mm / 2.0)
        if nib.reach_mm < ring.value:
            text = (
                f"the nib reaches {mm(nib.reach_mm)} in, the first O-ring of {name} {ring}: "
                "the O-rings would meet the bore before the nib guides them"
            )
            yield from refuse("nib-first", "nib.reach_mm", text)


def within_insertion(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """Nibs and tabs reach no deeper than the shallowest leg, so that those at both ends of a piece never meet."""
    name, key, least = min(_insertions(family), key=lambda found: found[2].value)
    for code, what, reach_key, reach in (
        ("nib-reach", "nib", "nib.reach_mm", family.nib.reach_mm),
        ("tab-reach", "tab", "clip.tab.length_mm", family.clip.tab.length_mm),
    ):
        if reach > least.value:
            text = f"the {what} reaches {mm(reach)} in, {name} ({key}) {least}"
            yield from refuse(code, reach_key, text)


def shortest_piece(family: Family, limits: Limits) -> Iterator[Refusal]:
    """The shortest piece the fittings allow comes out of the shortest stock length, and takes a trim's overlap at
    each end."""
    least = Sum(family.link.insertion_mm, family.link.insertion_mm, limits.slide_margin_mm)
    if family.elbow is not None:
        elbow = family.elbow
        least = Sum(elbow.long_leg_mm - elbow.margin_mm, elbow.short_leg_mm - elbow.stub_mm, limits.slide_margin_mm)
    if least.value > min(family.stock_lengths_mm):
        text = (
            f"the fittings at its ends need a piece of {least}, the shortest stock length is "
            f"{mm(min(family.stock_lengths_mm))}"
        )
        yield from refuse("shortest-piece", "stock_lengths_mm", text)
    if 2.0 * family.trim.overlap_mm > least.value:
        text = f"two trims cover 2 x {mm(family.trim.overlap_mm)} of a piece, the shortest is {least} long"
        yield from refuse("trim-overlap", "trim.overlap_mm", text)


def bridge_in_stub(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """The bridge's plate stands in the stub, clear of the clip's plate on the cut face."""
    bridge = family.bridge
    if not bridge.start_mm < bridge.end_mm:
        text = f"the bridge would be {Sum(bridge.end_mm, -bridge.start_mm)} thick"
        yield from refuse("bridge-thickness", "bridge.start_mm", text)
    if -bridge.end_mm < family.clip.thickness_mm:
        text = (
            f"the bridge stands {mm(-bridge.end_mm)} off the cut face, the clip is {mm(family.clip.thickness_mm)} thick"
        )
        yield from refuse("bridge-on-clip", "bridge.end_mm", text)
    stubs = [("link", family.link.stub_mm)] + ([("elbow", family.elbow.stub_mm)] if family.elbow is not None else [])
    for name, stub in stubs:
        if -bridge.start_mm > stub:
            text = f"the bridge reaches {mm(-bridge.start_mm)} off the cut face, the {name}'s stub is {mm(stub)} long"
            yield from refuse("bridge-in-stub", "bridge.start_mm", text)


def screw_in_stub(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """A link's screw head stands between its bridge and the end of its stub, on the wall of the leg."""
    link, leg, screw = family.link, family.leg, family.link.screw
    behind = Sum(screw.x_mm, screw.radius_mm)
    if behind.value > family.bridge.start_mm:
        text = (
            f"the screw head reaches to {behind} from the cut face, the bridge begins at {mm(family.bridge.start_mm)}"
        )
        yield from refuse("screw-on-bridge", "link.screw.x_mm", text)
    before = Sum(screw.x_mm, -screw.radius_mm)
    if before.value < -link.stub_mm:
        text = f"the screw head reaches to {before} from the cut face, the stub ends at {mm(-link.stub_mm)}"
        yield from refuse("screw-past-stub", "link.screw.x_mm", text)
    if not screw.slot_depth_mm < screw.height_mm / 2.0:
        text = (
            f"the slot is {mm(screw.slot_depth_mm)} deep in a head of {mm(screw.height_mm)} / 2 = "
            f"{mm(screw.height_mm / 2)}"
        )
        yield from refuse("screw-slot", "link.screw.slot_depth_mm", text)
    if not screw.slot_width_mm < screw.radius_mm:
        text = f"the slot is {mm(screw.slot_width_mm)} wide in a head of radius {mm(screw.radius_mm)}"
        yield from refuse("screw-slot", "link.screw.slot_width_mm", text)
    if not 2.0 * screw.radius_mm < min(leg.width_mm, leg.height_mm):
        text = f"the screw head is 2 x {mm(screw.radius_mm)} wide, the leg {mm(min(leg.width_mm, leg.height_mm))}"
        yield from refuse("screw-on-leg", "link.screw.radius_mm", text)
    if link.screw_access == "front" and not math.isclose(leg.width_mm, leg.height_mm):
        text = (
            f"a screw toward the front turns the spigot a quarter about its axis, so its leg must be round, "
            f"not {mm(leg.width_mm)} x {mm(leg.height_mm)}"
        )
        yield from refuse("screw-access", "link.screw_access", text)


def coupler_gap(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """The gap of a coupler holds both clips' plates and the bridge between them."""
    clip, coupler = family.clip, family.coupler
    need = Sum(clip.thickness_mm, clip.thickness_mm, coupler.bridge_thickness_mm)
    if coupler.gap_mm < need.value:
        text = f"two clips and the bridge take {need}, the gap is {mm(coupler.gap_mm)}"
        yield from refuse("coupler-gap", "coupler.gap_mm", text)


CHECKS = (window, nib_first, within_insertion, shortest_piece, bridge_in_stub, screw_in_stub, coupler_gap)
