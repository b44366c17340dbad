"""From a family's data to the specs of its parts. Arithmetic only."""

from __future__ import annotations

from typing import Literal

from model3d.families.ends import BlockData
from model3d.families.family import Family
from model3d.geometry.outline import Obround
from model3d.parts.ends import CradleSpec, EndBlockSpec, ReturnEndSpec, TurnBackEndSpec, ValveEndSpec
from model3d.parts.fittings import (
    BridgeSpec,
    ClipSpec,
    CouplerSpec,
    ElbowSpec,
    GrooveSpec,
    HoseSpec,
    LegSpec,
    NibSpec,
    OringSpec,
    SpigotSpec,
)
from model3d.parts.fixings import BracketSpec, EndCapSpec, PackerSpec, TrimSpec, closing_of

TAIL_CLEARANCE_MM = 1.0  # under a tail while its piece is offered, lower by the lift


def bore_opening(family: Family) -> Obround:
    """The waterway's opening."""
    way = family.section.waterways[0]
    return Obround(width_mm=way.width_mm, height_mm=way.height_mm)


def leg_spec(family: Family) -> LegSpec:
    """The leg of every spigot; groove floors stand the gland depth inside the bore's wall."""
    leg, oring = family.leg, family.oring
    return LegSpec(
        outside=Obround(width_mm=leg.width_mm, height_mm=leg.height_mm),
        passage=Obround(width_mm=leg.passage_width_mm, height_mm=leg.passage_height_mm),
        grooves=GrooveSpec(
            floor=bore_opening(family).grown(-oring.gland_depth_mm),
            width_mm=oring.groove_width_mm,
            from_tip_mm=oring.from_tip_mm,
        ),
    )


def oring_spec(family: Family) -> OringSpec:
    """The O-ring as it lies on a groove's floor."""
    return OringSpec(
        inside=bore_opening(family).grown(-family.oring.gland_depth_mm), section_mm=family.oring.section_mm
    )


def nib_spec(family: Family) -> NibSpec:
    """The nib of every bridge."""
    return NibSpec(**family.nib.model_dump())


def clip_spec(family: Family) -> ClipSpec:
    """The joint clip; one shape, turned over to face front or back."""
    clip = family.clip
    return ClipSpec(
        pitch_mm=family.section.pitch_mm,
        thickness_mm=clip.thickness_mm,
        half_width_mm=clip.half_width_mm,
        half_height_mm=clip.half_height_mm,
        corner_radius_mm=clip.corner_radius_mm,
        eye=bore_opening(family).grown(clip.eye_clearance_mm),
        tab_inner_mm=clip.tab.inner_mm,
        tab_outer_mm=clip.tab.outer_mm,
        tab_half_height_mm=clip.tab.half_height_mm,
        tab_heights_mm=clip.tab.heights_mm,
        tab_length_mm=clip.tab.length_mm,
        nib=nib_spec(family),
    )


def bridge_spec(family: Family) -> BridgeSpec:
    """The bridge of an elbow or of one end of a link."""
    bridge = family.bridge
    return BridgeSpec(
        pitch_mm=family.section.pitch_mm,
        start_mm=bridge.start_mm,
        end_mm=bridge.end_mm,
        half_width_mm=bridge.half_width_mm,
        half_height_mm=bridge.half_height_mm,
        opening=leg_spec(family).outside.grown(bridge.leg_clearance_mm),
        nib=nib_spec(family),
    )


def coupler_bridge_spec(family: Family) -> BridgeSpec:
    """The thin bridge in a coupler's gap, nibs both ways."""
    bridge, coupler = family.bridge, family.coupler
    return BridgeSpec(
        pitch_mm=family.section.pitch_mm,
        start_mm=-coupler.bridge_thickness_mm / 2.0,
        end_mm=coupler.bridge_thickness_mm / 2.0,
        half_width_mm=bridge.half_width_mm,
        half_height_mm=bridge.half_height_mm,
        opening=leg_spec(family).outside.grown(bridge.leg_clearance_mm),
        nib=nib_spec(family),
        both_ways=True,
        other_face_mm=coupler.gap_mm,
    )


def elbow_spec(family: Family, turn_deg: float) -> ElbowSpec:
    """An elbow in a corner of this turn; within its play the bend takes the corner's angle. Raises ValueError without
    elbows."""
    elbow = family.elbow
    if elbow is None:
        raise ValueError(f"family {family.id} has no elbow")
    return ElbowSpec(
        turn_deg=turn_deg,
        bend_radius_mm=elbow.bend_radius_mm,
        body=Obround(width_mm=elbow.body_width_mm, height_mm=elbow.body_height_mm),
        leg=leg_spec(family),
        long_leg_mm=elbow.long_leg_mm,
        short_leg_mm=elbow.short_leg_mm,
    )


def spigot_spec(family: Family) -> SpigotSpec:
    """One end of a link."""
    link = family.link
    return SpigotSpec(
        leg=leg_spec(family),
        insertion_mm=link.insertion_mm,
        stub_mm=link.stub_mm,
        tail_radius_mm=link.tail.radius_mm,
        tail_length_mm=link.tail.length_mm,
        tail_passage_mm=link.tail.passage_mm,
        screw_x_mm=link.screw.x_mm,
        screw_radius_mm=link.screw.radius_mm,
        screw_height_mm=link.screw.height_mm,
        slot_width_mm=link.screw.slot_width_mm,
        slot_depth_mm=link.screw.slot_depth_mm,
    )


def hose_spec(family: Family, turn_deg: float, straight_mm: float) -> HoseSpec:
    """One hose at rest for a turn seen along the run (positive to the left)."""
    link = family.link
    return HoseSpec(
        length_mm=link.hose_length_mm,
        straight_mm=straight_mm,
        arc_radius_mm=link.arc_radius_mm,
        turn_deg=turn_deg,
        outer_radius_mm=link.outer_radius_mm,
        inner_radius_mm=link.inner_radius_mm,
        grip_mm=link.tail.length_mm,
    )


def coupler_spec(family: Family) -> CouplerSpec:
    """One coupler."""
    return CouplerSpec(leg=leg_spec(family), insertion_mm=family.coupler.insertion_mm, gap_mm=family.coupler.gap_mm)


def _block_spec(
    family: Family, block: BlockData, length_mm: float, hand: int, fitting: Literal["valve", "return", "turn-back"]
) -> EndBlockSpec:
    section = family.section
    lower, upper = ((section.stand_off_mm + w.centre[0], section.floor_gap_mm + w.centre[1]) for w in section.waterways)
    return EndBlockSpec(
        hand=hand,
        bore_centres=(lower, upper),
        leg=leg_spec(family),
        insertion_mm=family.end_insertion_mm,
        face_gap_mm=block.face_gap_mm,
        block_end_mm=block.end_mm,
        block_back_mm=block.back_mm,
        block_front_mm=block.front_mm,
        block_bottom_mm=block.bottom_mm,
        block_top_mm=block.top_mm,
        nib=nib_spec(family),
        nib_side=1 if family.nib_faces[fitting] == "front" else -1,
        length_mm=length_mm,
        tail_bottom_mm=family.bracket.lift_mm + TAIL_CLEARANCE_MM,
    )


def valve_end_spec(family: Family, *, hand: int, twin: bool) -> ValveEndSpec:
    """The valve end for one hand; ``twin`` where flow and return share it."""
    valve = family.valve_end
    return ValveEndSpec(
        block=_block_spec(family, valve.block, valve.length_mm, hand, "valve"),
        neck_radius_mm=valve.neck.radius_mm,
        neck_length_mm=valve.neck.length_mm,
        head_radius_mm=valve.head.radius_mm,
        head_length_mm=valve.head.length_mm,
        head_u_mm=family.section.bore_u_mm,
        head_v_mm=valve.head.v_mm,
        tail_radius_mm=valve.tail.radius_mm,
        tail_offsets_mm=valve.tail.twin_offsets_mm if twin else (valve.tail.offset_mm,),
    )


def cradle_spec(family: Family, *, hand: int) -> CradleSpec:
    """The valve's wall cradle for one hand."""
    cradle, block = family.valve_end.cradle, family.valve_end.block
    return CradleSpec(
        hand=hand,
        x_start_mm=cradle.start_mm,
        x_end_mm=cradle.end_mm,
        plate_mm=cradle.plate_mm,
        bottom_mm=cradle.bottom_mm,
        block_top_mm=block.top_mm,
        block_front_mm=block.front_mm,
        arm_mm=cradle.arm_mm,
        lip_mm=cradle.lip_mm,
    )


def return_end_spec(family: Family, *, hand: int) -> ReturnEndSpec:
    """The return end for one hand."""
    data = family.return_end
    return ReturnEndSpec(
        block=_block_spec(family, data.block, data.length_mm, hand, "return"),
        tail_radius_mm=data.tail.radius_mm,
        tail_offset_mm=data.tail.offset_mm,
    )


def turn_back_end_spec(family: Family, *, hand: int) -> TurnBackEndSpec:
    """The turn-back end for one hand."""
    data = family.turn_back_end
    return TurnBackEndSpec(block=_block_spec(family, data.block, data.length_mm, hand, "turn-back"))


def bracket_spec(family: Family) -> BracketSpec:
    """The bracket."""
    bracket = family.bracket
    return BracketSpec(
        outline=bracket.outline.outline(),
        width_mm=bracket.width_mm,
        plate_mm=bracket.plate_mm,
        hole_diameter_mm=bracket.holes.diameter_mm,
        hole_heights_mm=bracket.holes.heights_mm,
    )


def packer_spec(family: Family, thickness_mm: float) -> PackerSpec:
    """Packers of a thickness behind the bracket, as high as its back."""
    bracket = family.bracket
    back = [v for (u, v), _ in bracket.outline.outline().edges if abs(u) < 1e-9]
    return PackerSpec(
        thickness_mm=thickness_mm,
        width_mm=bracket.width_mm,
        bottom_mm=min(back),
        top_mm=max(back),
        hole_diameter_mm=bracket.holes.diameter_mm,
        hole_heights_mm=bracket.holes.heights_mm,
    )


def cradle_packer_spec(family: Family, thickness_mm: float) -> PackerSpec:
    """Packers of a thickness behind the plate of the valve's cradle."""
    cradle = cradle_spec(family, hand=1)
    return PackerSpec(
        thickness_mm=thickness_mm,
        width_mm=cradle.x_end_mm - cradle.x_start_mm,
        bottom_mm=cradle.bottom_mm,
        top_mm=cradle.block_top_mm,
        hole_diameter_mm=cradle.hole_diameter_mm,
        hole_heights_mm=cradle.hole_heights_mm,
    )


def trim_spec(family: Family, *, turn_deg: float, leg_mm: float, slant_mm: float = 0.0) -> TrimSpec:
    """A trim over a joint of this turn in the walls' own sense."""
    return TrimSpec(outline=family.trim.outline.outline(), turn_deg=turn_deg, leg_mm=leg_mm, slant_mm=slant_mm)


def end_cap_spec(family: Family, *, hand: int, length_mm: float) -> EndCapSpec:
    """An end cap that covers ``length_mm`` beyond the cut face, closing plate included."""
    outline = family.trim.outline.outline()
    return EndCapSpec(
        hand=hand,
        outline=outline,
        closing=closing_of(outline),
        length_mm=length_mm,
        overlap_mm=family.trim.overlap_mm,
        plate_mm=family.end_cap.plate_mm,
    )
