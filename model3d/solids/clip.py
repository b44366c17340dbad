"""The joint clip: a plate on the cut face with an eye round each bore, tabs and nib slots on one side."""

from __future__ import annotations

import cadquery as cq

from model3d.geometry.outline import Outline, rectangle
from model3d.parts.fittings import ClipSpec
from model3d.solids.joining import fused
from model3d.solids.outlines import across_at, flat_face, obround_outline, rounded_rectangle
from model3d.solids.skins import Station, punched_plate, sewn, skin
from model3d.solids.sound import SolidError


def clip(spec: ClipSpec) -> cq.Solid:
    """One clip, mm: plate over x from -thickness to 0, tabs into the piece (+x) on the +y side.

    Raises SolidError when eyes, slots and edge run into each other or a tab has no room for its bevel.
    """
    return fused([_plate(spec), *(_tab(spec, height) for height in spec.tab_heights_mm)], "clip")


def _plate(spec: ClipSpec) -> cq.Solid:
    """The plate with its eyes and slots."""
    edge = rounded_rectangle(spec.half_width_mm, spec.half_height_mm, spec.corner_radius_mm)
    half_pitch = spec.pitch_mm / 2.0
    holes = [obround_outline(spec.eye, (0.0, height)) for height in (-half_pitch, half_pitch)]
    holes += [_slot(spec, height) for height in spec.nib.heights_mm]
    return punched_plate(edge, holes, -spec.thickness_mm, 0.0, "clip")


def _slot(spec: ClipSpec, height_mm: float) -> Outline:
    """The nib's slot, wider than the nib by the clearance all round."""
    clear = spec.nib.slot_clearance_mm
    return rectangle(
        spec.nib.inner_mm - clear,
        height_mm - spec.slot_half_height_mm,
        spec.nib.outer_mm + clear,
        height_mm + spec.slot_half_height_mm,
    )


def _tab(spec: ClipSpec, height_mm: float) -> cq.Solid:
    """A tab from the plate into the guide, its end bevelled all round."""
    bevel, length = spec.tab_chamfer_mm, spec.tab_length_mm
    if not 0.0 < bevel < min(length, spec.tab_half_height_mm):
        size = f"{length} x {2.0 * spec.tab_half_height_mm} mm"
        raise SolidError(f"clip: a tab of {size} has no room for its bevel of {bevel:g} mm")

    def section(inset_mm: float) -> Outline:
        reach = spec.tab_half_height_mm - inset_mm
        return rectangle(
            spec.tab_inner_mm + inset_mm, height_mm - reach, spec.tab_outer_mm - inset_mm, height_mm + reach
        )

    full, tip = section(0.0), section(bevel)
    stations = [
        Station(x_mm=0.0, outline=full),
        Station(x_mm=length - bevel, outline=full),
        Station(x_mm=length, outline=tip),
    ]
    ends = [flat_face(full, [], across_at(0.0)), flat_face(tip, [], across_at(length))]
    return sewn([*skin(stations), *ends], "clip tab")
