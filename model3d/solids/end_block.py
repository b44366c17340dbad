"""The block of an end fitting: its rounded body, its spigots and nibs, and the water passages inside.

Frame of the end fittings: x along the wall with 0 at the piece's cut face, y out from the wall, z up from the
floor. The piece lies on the side of ``hand`` (+x or -x); *beyond* is the distance from the cut face the other
way.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import cadquery as cq

from model3d.geometry.outline import Obround, Outline, Segment, polygon
from model3d.geometry.placement import Placement, turned_about_z
from model3d.parts.ends import EndBlockSpec
from model3d.solids.joining import cut, fused
from model3d.solids.legs import grooved_to_tip
from model3d.solids.nibs import nibs
from model3d.solids.outlines import across_at, flat_face, obround_outline
from model3d.solids.placing import located
from model3d.solids.simple_bodies import prism
from model3d.solids.skins import Station, sewn, skin
from model3d.solids.sound import SolidError, one_solid

_LEAST_RIM_MM = 0.3  # what a block's face needs beside a leg, for a rounded edge
_SUNK_MM = 2.0  # how far legs and nibs are let into the block, to join through a body and not in a face


def end_block(
    spec: EndBlockSpec, nose_mm: float, grown: Sequence[cq.Solid], bored: Sequence[cq.Solid]
) -> cq.Solid:
    """A block with its two spigots and nibs and whatever is ``grown`` on it, less whatever is ``bored``, mm.

    ``nose_mm`` is the radius of the block's far upper and lower corners. Call ``refuse_unfit`` first. Raises
    SolidError when the nose does not fit the block or the parts do not hang together.
    """
    body = fused([rounded_block(spec, nose_mm), *_legs(spec), *_nibs(spec), *grown], "end fitting")
    return cut(body, [*bored, *_vent_plug(spec)], "end fitting")


def beyond(spec: EndBlockSpec, distance_mm: float) -> float:
    """The x that stands this far beyond the cut face."""
    return -spec.hand * distance_mm


def refuse_unfit(spec: EndBlockSpec) -> None:
    """Raise SolidError with the numbers when a block cannot carry its legs."""
    if abs(spec.hand) != 1 or abs(spec.nib_side) != 1:
        raise SolidError(
            f"an end fitting's hand and nib side are +1 or -1, not {spec.hand} and {spec.nib_side}"
        )
    if not 0.0 < spec.face_gap_mm < spec.block_end_mm <= spec.length_mm:
        raise SolidError(
            f"an end block from {spec.face_gap_mm:g} to {spec.block_end_mm:g} mm "
            f"does not fit its length of {spec.length_mm:g} mm"
        )
    deepest = max(spec.leg.grooves.from_tip_mm, default=0.0) + spec.leg.grooves.width_mm / 2.0
    if deepest >= spec.insertion_mm:
        raise SolidError(
            f"a leg {spec.insertion_mm:g} mm into the piece is shorter than its last groove: {deepest:g} mm"
        )
    spare = spare_face_mm(spec)
    if spare < _LEAST_RIM_MM:
        raise SolidError(
            f"a leg leaves {spare:.4g} mm of its block's face beside it, {_LEAST_RIM_MM:g} mm are needed"
        )


def spare_face_mm(spec: EndBlockSpec) -> float:
    """The least face that stands beside a leg, to the block's nearest edge."""
    wide, high = spec.leg.outside.width_mm / 2.0, spec.leg.outside.height_mm / 2.0
    return min(
        min(
            u - wide - spec.block_back_mm,
            spec.block_front_mm - u - wide,
            v - high - spec.block_bottom_mm,
            spec.block_top_mm - v - high,
        )
        for u, v in spec.bore_centres
    )


def edge_round_mm(spec: EndBlockSpec) -> float:
    """The rounding of a block's edges: a ninth of its depth, at most 3 mm, and clear of the legs (ours)."""
    return min(3.0, (spec.block_front_mm - spec.block_back_mm) / 9.0, 0.9 * spare_face_mm(spec))


def rounded_block(spec: EndBlockSpec, nose_mm: float) -> cq.Solid:
    """The block's body: its far upper and lower corners rounded by ``nose_mm`` (0: sharp), then all edges."""
    near, far = spec.face_gap_mm, spec.block_end_mm
    low, high, r = spec.block_bottom_mm, spec.block_top_mm, nose_mm
    if not 0.0 <= 2.0 * r <= high - low or r > far - near:
        raise SolidError(
            f"a nose of radius {r:g} mm does not fit a block of {far - near:g} x {high - low:g} mm"
        )
    k = r * (1.0 - 0.5**0.5)
    lower: tuple[Segment, ...] = (Segment(to=(far, low)),)
    upper: tuple[Segment, ...] = (Segment(to=(far, high)),)
    if r > 0.0:
        lower = (Segment(to=(far - r, low)), Segment(to=(far, low + r), through=(far - k, low + k)))
        upper = (Segment(to=(far, high - r)), Segment(to=(far - r, high), through=(far - k, high - k)))
    side = Placement(
        origin_mm=(0.0, spec.block_front_mm if spec.hand < 0 else spec.block_back_mm, 0.0),
        x_axis=(float(-spec.hand), 0.0, 0.0),
        y_axis=(0.0, 0.0, 1.0),
        z_axis=(0.0, float(spec.hand), 0.0),
    )
    body = prism(
        Outline(start=(near, low), segments=(*lower, *upper, Segment(to=(near, high)))),
        side,
        spec.block_front_mm - spec.block_back_mm,
    )
    return one_solid(body.fillet(edge_round_mm(spec), body.Edges()), "end block")


def into_piece(spec: EndBlockSpec, beyond_mm: float, height_of: int) -> Placement:
    """The frame on a bore's centre line, ``beyond_mm`` beyond the cut face, x into the piece."""
    u, v = spec.bore_centres[height_of]
    return turned_about_z(0.0 if spec.hand > 0 else 180.0, (beyond(spec, beyond_mm), u, v))


def _vent_plug(spec: EndBlockSpec) -> list[cq.Solid]:
    """What shows of the vent plug in the block's front, at the upper waterway: a fine ring and a hexagon."""
    u, v = spec.bore_centres[1]
    x = beyond(spec, (spec.face_gap_mm + spec.block_end_mm) / 2.0)
    thickness = spec.block_end_mm - spec.face_gap_mm
    r = min(5.5, 0.6 * (min(thickness / 2.0, spec.block_top_mm - v) - edge_round_mm(spec)))
    deep = min(2.0, (spec.block_front_mm - u - spec.leg.passage.width_mm / 2.0) / 2.0)
    front = Placement(
        origin_mm=(x, spec.block_front_mm - deep, v),
        x_axis=(0.0, 0.0, 1.0),
        y_axis=(1.0, 0.0, 0.0),
        z_axis=(0.0, 1.0, 0.0),
    )
    socket = [
        (0.55 * r * math.cos(math.radians(a)), 0.55 * r * math.sin(math.radians(a)))
        for a in range(0, 360, 60)
    ]
    outer, inner = (obround_outline(Obround(width_mm=2.0 * at, height_mm=2.0 * at)) for at in (r, 0.88 * r))
    ring = prism(outer, front.moved((0.0, 0.7 * deep, 0.0)), deep, (inner,))
    return [prism(polygon(*socket), front, 2.0 * deep), ring]


def _legs(spec: EndBlockSpec) -> list[cq.Solid]:
    """The two spigots, still without passage, from inside the block to their tips."""
    leg, root = spec.leg, spec.face_gap_mm + _SUNK_MM
    tip = root + spec.insertion_mm
    outside = obround_outline(leg.outside)
    around = skin([Station(x_mm=0.0, outline=outside), *grooved_to_tip(leg, 0.0, tip)])
    bar = sewn(
        [*around, flat_face(outside, (), across_at(0.0)), flat_face(outside, (), across_at(tip))], "leg"
    )
    return [located(bar, into_piece(spec, root, which)) for which in (0, 1)]


def _nibs(spec: EndBlockSpec) -> list[cq.Solid]:
    """The nibs that enter the clip, on the nibs' side of the bores, midway between them: turned over about x
    for the back.
    """
    (u0, v0), (u1, v1) = spec.bore_centres
    side = float(spec.nib_side)
    middle = Placement(
        origin_mm=(0.0, (u0 + u1) / 2.0, (v0 + v1) / 2.0), y_axis=(0.0, side, 0.0), z_axis=(0.0, 0.0, side)
    )
    return [located(nib, middle) for nib in nibs(spec.nib, -spec.face_gap_mm - _SUNK_MM, spec.hand)]
