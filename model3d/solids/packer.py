"""Packers behind a bracket on a wall that bows."""

from __future__ import annotations

import cadquery as cq

from model3d.parts.fixings import PackerSpec
from model3d.solids.joining import cut
from model3d.solids.simple_bodies import block, rod
from model3d.solids.sound import SolidError


def packer(spec: PackerSpec) -> cq.Solid:
    """Packers: x along the wall from the middle of their width, y out from the wall with the bracket's back plane at 0,
    z up from the floor, mm.

    Raises SolidError when they have no body, or a hole is wider than they are.
    """
    if spec.hole_diameter_mm >= spec.width_mm:
        raise SolidError(f"packers {spec.width_mm:g} mm wide cannot take holes of {spec.hole_diameter_mm:g} mm")
    half, past = spec.width_mm / 2.0, 1.0
    body = block((-half, -spec.thickness_mm, spec.bottom_mm), (half, 0.0, spec.top_mm))
    length, radius = spec.thickness_mm + 2.0 * past, spec.hole_diameter_mm / 2.0
    holes = [
        rod((0.0, -spec.thickness_mm - past, height), (0.0, 1.0, 0.0), radius, length)
        for height in spec.hole_heights_mm
    ]
    return cut(body, holes, "packers") if holes else body
