"""Casings: the boards round a door or a window."""

from __future__ import annotations

import cadquery as cq
from cadquery.func import extrude, face, polygon

from model3d.geometry.placement import Vec2
from model3d.parts.room import CasingSpec
from model3d.solids.sound import SolidError, one_solid


def room_casing(spec: CasingSpec) -> cq.Solid:
    """Boards joined at the corners round an opening: x along the wall, y from its surface out, z up, from the
    opening's lower corner, mm.

    A door's boards stand on the opening's foot; a window's go all round. Raises SolidError unless every size
    is above 0.
    """
    w, h, b = spec.width_mm, spec.height_mm, spec.board_mm
    if min(w, h, b, spec.depth_mm) <= 0.0:
        raise SolidError(f"a casing {b:g} wide, {spec.depth_mm:g} deep round {w:g} x {h:g} mm has no body")
    opening: tuple[Vec2, ...] = ((0.0, 0.0), (0.0, h), (w, h), (w, 0.0))
    head: tuple[Vec2, ...] = ((w + b, h + b), (-b, h + b))
    rings: tuple[tuple[Vec2, ...], ...]
    rings = (
        (((-b, -b), (w + b, -b), *head), opening)
        if spec.sill
        else (((-b, 0.0), *opening, (w + b, 0.0), *head),)
    )
    wires = [polygon(*((x, 0.0, z) for x, z in ring)) for ring in rings]
    return one_solid(extrude(face(*wires), (0.0, spec.depth_mm, 0.0)), "casing")
