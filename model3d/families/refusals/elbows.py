"""Elbows: room to push them home, the press, the far wall, the way past the next wall's brackets."""

from __future__ import annotations

from collections.abc import Iterator

from model3d.families.elbow_corner import elbow_corner, short_leg_slide_mm
from model3d.families.family import Family
from model3d.families.refusals.refusal import Limits, Refusal, Sum, mm, refuse
from model3d.families.rules import move_sum


def push_home(family: Family, limits: Limits) -> Iterator[Refusal]:
    """What the slide asks of the push-home, the stub must allow."""
    elbow = family.elbow
    if elbow is None:
        return
    slide = short_leg_slide_mm(family, limits.slide_margin_mm)
    needed = Sum(slide, -family.section.bore_u_mm, elbow.body_width_mm / 2.0)
    allowed = Sum(elbow.stub_mm, -elbow.margin_mm)
    if needed.value > allowed.value:
        text = f"the slide needs {needed} mm but the stub allows {allowed} mm"
        yield from refuse("push-home", "elbow.stub_mm", text)


def bridge_off_wall(family: Family, limits: Limits) -> Iterator[Refusal]:
    """Pushed home and offered, the bridge on the short legs stands off the far wall."""
    elbow = family.elbow
    if elbow is None:
        return
    slide = short_leg_slide_mm(family, limits.slide_margin_mm)
    room = Sum(family.section.bore_u_mm, elbow_corner(family).push_allowed_mm, -slide, -family.bridge.half_width_mm)
    if room.value < 0.0:
        text = f"pushed home, the bridge stands {room} mm from the far wall when the piece is offered"
        yield from refuse("bridge-off-wall", "bridge.half_width_mm", text)


def draw_out(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """Drawn out by hand to the press distance, the elbow must still be short of its shoulder."""
    if family.elbow is None:
        return
    corner = elbow_corner(family)
    if corner.press_draws_mm > corner.push_allowed_mm:
        text = (
            f"the press draws {mm(corner.press_draws_mm)} mm but the stub allows "
            f"{Sum(family.elbow.stub_mm, -family.elbow.margin_mm)} mm before it"
        )
        yield from refuse("draw-out", "elbow.stub_mm", text)


def body(family: Family, _limits: Limits) -> Iterator[Refusal]:
    """The body is no smaller than the leg, turns about its own centre line, and leaves the other waterway free."""
    elbow, leg = family.elbow, family.leg
    if elbow is None:
        return
    half = elbow.body_width_mm / 2.0
    if elbow.bend_radius_mm <= half:
        text = f"the bend's inside would have a radius of {Sum(elbow.bend_radius_mm, -half)}"
        yield from refuse("bend-radius", "elbow.bend_radius_mm", text)
    for key, wide, need in (
        ("elbow.body_width_mm", elbow.body_width_mm, leg.width_mm),
        ("elbow.body_height_mm", elbow.body_height_mm, leg.height_mm),
    ):
        if wide < need:
            yield from refuse("elbow-body", key, f"the body measures {mm(wide)}, its leg {mm(need)}")
    if elbow.body_height_mm >= family.section.pitch_mm:
        text = f"the bodies are {mm(elbow.body_height_mm)} high, the waterways {mm(family.section.pitch_mm)} apart"
        yield from refuse("pitch", "elbow.body_height_mm", text)


def past_brackets(family: Family, limits: Limits) -> Iterator[Refusal]:
    """One listed approach takes elbows in the far end past the plate of the next wall's first bracket, the near end
    past the short legs.

    The legs' tips stand e + r + short leg + p out; they pass the bracket's edge while the piece is still some way out,
    when a slanted approach keeps them farther from the far wall.
    """
    elbow, approaches = family.elbow, family.approaches.far_elbow_long
    if elbow is None or approaches is None:
        return
    names = {
        "d": short_leg_slide_mm(family, limits.slide_margin_mm),
        "p": family.bracket.press_mm,
        "l": family.bracket.lift_mm,
    }
    tries: list[str] = []
    for approach in approaches:
        if approach.by is None:
            continue
        along, out = (move_sum(text, names) for text in approach.by[:2])
        if out <= 0.0:
            continue
        why = _why_not(family, -along / out + 0.0, names["d"], limits)
        if why is None:
            return
        tries.append(f"{approach.approach}: {why}")
    yield from refuse(
        "far-elbow-approach", "approaches.far-elbow-long", "; ".join(tries) or "no approach comes from the room"
    )


def _why_not(family: Family, slant: float, slide_mm: float, limits: Limits) -> str | None:
    """Why an approach that comes in along the run by ``slant`` per mm out is not free; None when it is."""
    section, elbow, bracket = family.section, family.elbow, family.bracket
    if elbow is None:
        return None
    half_leg = family.leg.width_mm / 2.0
    passing = section.bore_u_mm - section.stand_off_mm + half_leg
    if slant * passing > limits.slide_margin_mm:
        text = f"the near end comes {mm(slant)} x {mm(passing)} = {mm(slant * passing)}"
        return f"{text} along while it passes the short legs, {mm(limits.slide_margin_mm)} is free"
    clip = family.clip
    along = slant * (clip.half_width_mm + half_leg) + clip.thickness_mm
    if along > limits.slide_margin_mm:
        shown = f"{mm(slant)} x {mm(clip.half_width_mm + half_leg)} + {mm(clip.thickness_mm)} = {mm(along)}"
        return f"the near end's clip comes {shown} along while it passes the legs, {mm(limits.slide_margin_mm)} is free"
    edge = (
        section.bore_u_mm
        + elbow.bend_radius_mm
        + elbow.stub_mm
        + bracket.spacing.after_elbow_mm[0]
        - bracket.width_mm / 2.0
    )
    bend_end = section.bore_u_mm + elbow.bend_radius_mm + bracket.press_mm
    for name, half, tip in (
        ("legs", half_leg, bend_end + elbow.short_leg_mm),
        ("bridge", family.bridge.half_width_mm, bend_end + elbow.stub_mm + family.bridge.end_mm),
        ("bends", elbow.body_width_mm / 2.0, bend_end),
    ):
        at_offer = section.bore_u_mm + elbow.stub_mm - elbow.margin_mm - slide_mm - half
        room = Sum(at_offer, slant * max(0.0, edge - tip), -bracket.plate_mm)
        if room.value <= 0.0:
            return f"the {name} pass the next wall's first bracket with {room} mm to spare"
    return None


CHECKS = (push_home, bridge_off_wall, draw_out, body, past_brackets)
