"""The piece: a length of profile with its waterways reamed at both mouths."""

from __future__ import annotations

import cadquery as cq
from OCP.TopoDS import TopoDS_Shape

from model3d.geometry.outline import Outline
from model3d.parts.profile import Bore, PieceSpec, SectionSpec
from model3d.solids.outlines import across_at, flat_face, obround_outline
from model3d.solids.skins import Station, sewn, skin
from model3d.solids.sound import SolidError


def piece(spec: PieceSpec) -> cq.Solid:
    """The cut length, x from 0 to its length, y = u and z = v of the section, mm.

    Raises SolidError when it is too short for its two reamed mouths or its section's outlines cross.
    """
    section, length = spec.section, spec.length_mm
    reamed = section.lead_in_length_mm if section.bores else 0.0
    if not length > 2.0 * reamed:
        raise SolidError(f"piece: {length} mm is no longer than its two reamed mouths, 2 x {reamed} mm")
    faces: list[TopoDS_Shape] = []
    for outline in (section.outline, *section.chambers):
        faces += skin([Station(x_mm=0.0, outline=outline), Station(x_mm=length, outline=outline)])
    for bore in section.bores:
        faces += skin(_bore_stations(bore, section, length))
    mouths = [_mouth(bore, section) for bore in section.bores]
    for x_mm in (0.0, length):
        faces.append(flat_face(section.outline, [*section.chambers, *mouths], across_at(x_mm)))
    return sewn(faces, "piece")


def _mouth(bore: Bore, section: SectionSpec) -> Outline:
    """The reamed opening on the cut face."""
    return obround_outline(bore.opening.grown(section.lead_in_radial_mm), bore.centre)


def _bore_stations(bore: Bore, section: SectionSpec, length_mm: float) -> list[Station]:
    """Mouth, plain bore from where the reaming ends, mouth."""
    wide, plain = _mouth(bore, section), obround_outline(bore.opening, bore.centre)
    reamed = section.lead_in_length_mm
    return [
        Station(x_mm=0.0, outline=wide),
        Station(x_mm=reamed, outline=plain),
        Station(x_mm=length_mm - reamed, outline=plain),
        Station(x_mm=length_mm, outline=wide),
    ]
