"""The fittings of a family as written."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from model3d.families.fields import Coordinate, FamilyPart, NotNegative, Number, Positive


class OringData(FamilyPart):
    """O-rings of every leg: section, its tolerance, gland depth (bore wall to groove floor), groove width, centres from
    the tip."""

    section_mm: Positive
    section_tolerance_mm: NotNegative
    gland_depth_mm: Positive
    groove_width_mm: Positive
    from_tip_mm: Annotated[tuple[Positive, ...], Field(min_length=1)]
    inside_diameter_mm: Annotated[
        Positive | None, Field(description="Of the free ring; left out, the ISO 3601-1 size that suits the groove.")
    ] = None
    gland_tolerance_mm: Annotated[NotNegative, Field(description="How far the gland depth may be off.")] = 0.0


class LegData(FamilyPart):
    """The tube of every spigot and elbow leg."""

    width_mm: Positive
    height_mm: Positive
    passage_width_mm: Positive
    passage_height_mm: Positive


class TabData(FamilyPart):
    """A clip's tabs, on its facing side of the bores' centre line."""

    inner_mm: Positive
    outer_mm: Positive
    half_height_mm: Positive
    heights_mm: Annotated[tuple[Coordinate, ...], Field(min_length=1)]
    length_mm: Positive


class ClipData(FamilyPart):
    """Joint clip."""

    thickness_mm: Positive
    half_width_mm: Positive
    half_height_mm: Positive
    corner_radius_mm: NotNegative
    eye_clearance_mm: NotNegative
    tab: TabData


class NibData(FamilyPart):
    """The nib of every bridge."""

    heights_mm: Annotated[tuple[Coordinate, ...], Field(min_length=1)]
    inner_mm: Coordinate
    outer_mm: Positive
    half_height_mm: Positive
    reach_mm: Positive
    catch_mm: Positive
    catch_start_mm: Positive
    catch_end_mm: Positive
    slot_clearance_mm: Positive


class BridgeData(FamilyPart):
    """The bridge of elbows and links: where its plate stands outside the cut face (negative), and its size."""

    start_mm: Coordinate
    end_mm: Coordinate
    half_width_mm: Positive
    half_height_mm: Positive
    leg_clearance_mm: NotNegative


class ElbowData(FamilyPart):
    """Elbow: centre-line radius, body, stub (bend end to cut face, working), legs from the bend end, angular play,
    margin."""

    bend_radius_mm: Positive
    body_width_mm: Positive
    body_height_mm: Positive
    stub_mm: Positive
    long_leg_mm: Positive
    short_leg_mm: Positive
    play_deg: Annotated[Number, Field(le=45)]
    margin_mm: NotNegative


class TailData(FamilyPart):
    """The round tail a hose pushes over."""

    radius_mm: Positive
    length_mm: Positive
    passage_mm: Positive


class ScrewData(FamilyPart):
    """The slotted screw head on a link's spigot; x is negative (outside the cut face)."""

    x_mm: Coordinate
    radius_mm: Positive
    height_mm: Positive
    slot_width_mm: Positive
    slot_depth_mm: Positive


class LinkData(FamilyPart):
    """Link: hose and spigots."""

    hose_length_mm: Positive
    slack_mm: Positive
    arc_radius_mm: Positive
    outer_radius_mm: Positive
    inner_radius_mm: Positive
    least_bend_radius_mm: Positive
    stub_mm: Positive
    insertion_mm: Positive
    tail: TailData
    screw: ScrewData
    screw_access: Literal["above", "front"]
    screw_room_mm: NotNegative


class CouplerData(FamilyPart):
    """Coupler: insertion each side, gap between the cut faces, thickness of the bridge that stands in it."""

    insertion_mm: Positive
    gap_mm: Positive
    bridge_thickness_mm: Positive
