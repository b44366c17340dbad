"""The spigot of a link: a leg into the bore, a tail for the hose, a slotted screw on top."""

from __future__ import annotations

import cadquery as cq

from model3d.geometry.outline import Obround, Outline
from model3d.geometry.placement import Placement
from model3d.parts.fittings import SpigotSpec
from model3d.solids.joining import cut, fused
from model3d.solids.legs import grooved_to_tip
from model3d.solids.outlines import across_at, flat_face, obround_outline
from model3d.solids.placing import located
from model3d.solids.skins import Station, sewn, skin, step
from model3d.solids.sound import SolidError


def spigot(spec: SpigotSpec) -> cq.Solid:
    """One spigot, mm: leg from its shoulder at -stub to its tip at +insertion along x, tail beyond the
    shoulder, screw up along z.

    Raises SolidError when the tail does not fit on the shoulder or the slot is deeper than the head.
    """
    passage = spec.leg.passage
    if not spec.tail_passage_mm < min(2.0 * spec.tail_radius_mm, passage.width_mm, passage.height_mm):
        raise SolidError(f"spigot: a tail passage of {spec.tail_passage_mm} mm does not fit tail and leg")
    if not spec.tail_radius_mm < spec.leg.outside.radius_mm:
        raise SolidError(f"spigot: a tail of radius {spec.tail_radius_mm} mm does not fit the leg's shoulder")
    return fused([_tube(spec), _screw(spec)], "spigot")


def _tube(spec: SpigotSpec) -> cq.Solid:
    """Leg, shoulder and tail."""
    tip, shoulder = spec.insertion_mm, -spec.stub_mm
    start, inside = shoulder - spec.tail_length_mm, shoulder + spec.shoulder_mm
    outside, passage = obround_outline(spec.leg.outside), obround_outline(spec.leg.passage)
    tail, narrow = _round(spec.tail_radius_mm), _round(spec.tail_passage_mm / 2.0)
    outer = [
        Station(x_mm=start, outline=tail),
        Station(x_mm=shoulder, outline=tail),
        Station(x_mm=shoulder, outline=outside),
        *grooved_to_tip(spec.leg, shoulder, tip),
    ]
    inner = [
        Station(x_mm=start, outline=narrow),
        Station(x_mm=inside, outline=narrow),
        Station(x_mm=inside, outline=passage),
        Station(x_mm=tip, outline=passage),
    ]
    rings = [step(tail, narrow, start), step(outside, passage, tip)]
    return sewn([*skin(outer), *skin(inner), *rings], "spigot")


def _round(radius_mm: float) -> Outline:
    """A circle about the centre line."""
    return obround_outline(Obround(width_mm=2.0 * radius_mm, height_mm=2.0 * radius_mm))


def _screw(spec: SpigotSpec) -> cq.Solid:
    """The screw: a neck out of the leg's wall, a head with a slot along x."""
    top = spec.leg.outside.height_mm / 2.0
    crown = top + spec.screw_height_mm
    under_head = crown - spec.screw_head_mm
    inside_wall = (spec.leg.passage.height_mm / 2.0 + top - spec.leg_drop_mm) / 2.0
    if not spec.leg.passage.height_mm / 2.0 < top - spec.leg_drop_mm:
        raise SolidError(f"spigot: a screw of radius {spec.screw_radius_mm} mm is too wide for the leg's top")
    if not 0.0 < spec.slot_depth_mm < spec.screw_head_mm:
        raise SolidError(f"spigot: a slot {spec.slot_depth_mm} mm deep in a head of {spec.screw_head_mm} mm")
    neck, head = _round(spec.screw_neck_radius_mm), _round(spec.screw_radius_mm)
    stations = [
        Station(x_mm=inside_wall, outline=neck),
        Station(x_mm=under_head, outline=neck),
        Station(x_mm=under_head, outline=head),
        Station(x_mm=crown, outline=head),
    ]
    ends = [flat_face(neck, [], across_at(inside_wall)), flat_face(head, [], across_at(crown))]
    turned = located(sewn([*skin(stations), *ends], "screw"), _upright_at(spec.screw_x_mm))
    return cut(turned, [_slot(spec, crown)], "screw")


def _upright_at(x_mm: float) -> Placement:
    """A frame whose x stands up along z."""
    return Placement(
        origin_mm=(x_mm, 0.0, 0.0), x_axis=(0.0, 0.0, 1.0), y_axis=(0.0, 1.0, 0.0), z_axis=(-1.0, 0.0, 0.0)
    )


def _slot(spec: SpigotSpec, crown_mm: float) -> cq.Solid:
    """What the slot takes away: along x right across the head, from its floor past the crown."""
    reach = 2.0 * spec.screw_radius_mm
    corner = cq.Vector(spec.screw_x_mm - reach, -spec.slot_width_mm / 2.0, crown_mm - spec.slot_depth_mm)
    return cq.Solid.makeBox(2.0 * reach, spec.slot_width_mm, 2.0 * spec.slot_depth_mm, corner)
