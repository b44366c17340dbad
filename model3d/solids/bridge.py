"""The bridge: the plate that ties the two fittings of a pair, and its nibs."""

from __future__ import annotations

import cadquery as cq

from model3d.geometry.placement import at
from model3d.parts.fittings import BridgeSpec
from model3d.solids.joining import fused
from model3d.solids.nibs import nibs
from model3d.solids.outlines import obround_outline, rounded_rectangle
from model3d.solids.placing import located
from model3d.solids.skins import punched_plate


def bridge(spec: BridgeSpec) -> cq.Solid:
    """One bridge, mm: plate over its x range, nibs into the piece on the +y side, for a coupler into both
    pieces.

    Raises SolidError when the openings break the plate's edge or a nib does not fit.
    """
    return fused([_plate(spec), *_nibs(spec)], "bridge")


def _plate(spec: BridgeSpec) -> cq.Solid:
    """The plate with an opening round each leg."""
    edge = rounded_rectangle(spec.half_width_mm, spec.half_height_mm, spec.corner_radius_mm)
    half_pitch = spec.pitch_mm / 2.0
    openings = [obround_outline(spec.opening, (0.0, height)) for height in (-half_pitch, half_pitch)]
    return punched_plate(edge, openings, spec.start_mm, spec.end_mm, "bridge")


def _nibs(spec: BridgeSpec) -> list[cq.Solid]:
    """The nibs from the plate's faces: into +x, and for a coupler into -x as well."""
    if not spec.both_ways:
        return nibs(spec.nib, spec.end_mm)
    face = spec.other_face_mm / 2.0
    ahead = [located(nib, at(face, 0.0, 0.0)) for nib in nibs(spec.nib, spec.end_mm - face)]
    behind = [located(nib, at(-face, 0.0, 0.0)) for nib in nibs(spec.nib, -spec.start_mm - face, -1)]
    return ahead + behind
