"""Brackets: the plate on the wall, the ramp that carries the piece and the latch it snaps behind."""

from __future__ import annotations

import cadquery as cq

from model3d.geometry.outline import polygon
from model3d.geometry.placement import Placement
from model3d.parts.fixings import BracketSpec
from model3d.solids.joining import cut
from model3d.solids.outlines import across_at
from model3d.solids.simple_bodies import prism, turned
from model3d.solids.sound import SolidError


def bracket(spec: BracketSpec) -> cq.Solid:
    """A bracket: x along the wall from the middle of its width, y out from the wall, z up from the floor, mm.

    The outline carried over the width, less its countersunk screw holes. Raises SolidError when the width or
    a hole has no body, or a countersink is wider than the bracket.
    """
    head_mm = spec.hole_diameter_mm + 2.0 * spec.countersink_depth_mm
    if spec.hole_diameter_mm <= 0.0 or head_mm >= spec.width_mm:
        raise SolidError(f"a bracket {spec.width_mm:g} mm wide cannot take screw heads of {head_mm:g} mm")
    body = prism(spec.outline, across_at(-spec.width_mm / 2.0), spec.width_mm)
    deep = spec.countersink_depth_mm
    holes = [
        screw_hole(spec.hole_diameter_mm, deep, spec.plate_mm, height) for height in spec.hole_heights_mm
    ]
    return cut(body, holes, "bracket") if holes else body


def screw_hole(diameter_mm: float, countersink_mm: float, plate_mm: float, height_mm: float) -> cq.Solid:
    """What a screw takes from a plate on the wall (y from 0 to ``plate_mm``), at x = 0: a round bar and a 90
    degree cone ending on its front.
    """
    r = diameter_mm / 2.0
    axis = Placement(
        origin_mm=(0.0, 0.0, height_mm),
        x_axis=(0.0, 1.0, 0.0),
        y_axis=(0.0, 0.0, 1.0),
        z_axis=(1.0, 0.0, 0.0),
    )
    cone = ((plate_mm, r + countersink_mm), (plate_mm - countersink_mm, r))
    return turned(polygon((-1.0, 0.0), (plate_mm, 0.0), *cone, (-1.0, r)), axis)
