"""The fittings of the square-edged family (a) in their own frames, and how they stand at a piece's ends."""

from __future__ import annotations

import math

from model3d.geometry.outline import Obround
from model3d.geometry.placement import Placement, at
from model3d.parts.fittings import BridgeSpec, CouplerSpec, HoseSpec, OringSpec, SpigotSpec

from .square_edged import LEG, NIB

PITCH_MM = 70.0
STUB_MM = 20.0
LENGTH_MM = 160.0
GAP_MM = 4.0

ORING = OringSpec(inside=LEG.grooves.floor, section_mm=1.78)

BRIDGE = BridgeSpec(
    pitch_mm=PITCH_MM,
    start_mm=-10.0,
    end_mm=-2.5,
    half_width_mm=8.5,
    half_height_mm=48.0,
    opening=Obround(width_mm=10.8, height_mm=19.8),
    nib=NIB,
)

COUPLER_BRIDGE = BridgeSpec(
    pitch_mm=PITCH_MM,
    start_mm=-0.4,
    end_mm=0.4,
    half_width_mm=8.5,
    half_height_mm=48.0,
    opening=Obround(width_mm=10.8, height_mm=19.8),
    nib=NIB,
    both_ways=True,
    other_face_mm=GAP_MM,
)

SPIGOT = SpigotSpec(
    leg=LEG,
    insertion_mm=24.0,
    stub_mm=STUB_MM,
    tail_radius_mm=4.2,
    tail_length_mm=8.0,
    tail_passage_mm=6.0,
    screw_x_mm=-15.0,
    screw_radius_mm=3.0,
    screw_height_mm=4.0,
    slot_width_mm=0.8,
    slot_depth_mm=1.0,
)

COUPLER = CouplerSpec(leg=LEG, insertion_mm=24.0, gap_mm=GAP_MM)


def hose_spec(turn_deg: float, plan_mm: float = 80.0, slack_mm: float = 4.0) -> HoseSpec:
    """A hose with R 40 whose plan line is ``plan_mm`` long."""
    return HoseSpec(
        length_mm=plan_mm + slack_mm,
        straight_mm=(plan_mm - 40.0 * math.radians(abs(turn_deg))) / 2.0,
        arc_radius_mm=40.0,
        turn_deg=turn_deg,
        outer_radius_mm=6.0,
        inner_radius_mm=4.2,
    )


OVER = Placement(y_axis=(0.0, -1.0, 0.0), z_axis=(0.0, 0.0, -1.0))
"""Turned over about x: what faced front faces back."""

NEAR_FRONT = at(0.0, 11.0, 75.0)
NEAR_BACK = NEAR_FRONT @ OVER
FAR_FRONT = Placement(origin_mm=(LENGTH_MM, 11.0, 75.0), x_axis=(-1.0, 0.0, 0.0), z_axis=(0.0, 0.0, -1.0))
FAR_BACK = FAR_FRONT @ OVER
"""Where a fitting's frame stands at the ends of a piece ``LENGTH_MM`` long, in the piece's frame, by the side
it faces."""

WAYS_MM = (-PITCH_MM / 2.0, PITCH_MM / 2.0)
"""The waterways' heights from the middle between them."""


def elbow_in_near_end(way_mm: float) -> Placement:
    """An elbow whose short leg stands in the piece's near end: the long leg leads out into the room, square
    to the piece."""
    return Placement(
        origin_mm=(-STUB_MM - 14.0, 11.0 + 14.0, 75.0 + way_mm), x_axis=(0.0, -1.0, 0.0), y_axis=(1.0, 0.0, 0.0)
    )
