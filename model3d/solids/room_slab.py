"""Flat bodies of the room: floor, sills, shelves, hearths."""

from __future__ import annotations

import cadquery as cq
from cadquery.func import extrude, face, polygon

from model3d.geometry.placement import Vec2
from model3d.parts.room import SlabSpec
from model3d.solids.sound import SolidError, one_solid


def room_slab(spec: SlabSpec) -> cq.Solid:
    """A slab in plan, x and y as its ring, from z = 0 up by its thickness, mm.

    Raises SolidError when a ring has under three points, the slab has no thickness, or a hole leaves the ring
    or cuts it in two.
    """
    if spec.thickness_mm <= 0.0:
        raise SolidError(f"a slab of thickness {spec.thickness_mm:g} mm has no body")
    return one_solid(plate(spec.ring, spec.holes, spec.thickness_mm), "slab")


def plate(ring: tuple[Vec2, ...], holes: tuple[tuple[Vec2, ...], ...], thickness_mm: float) -> cq.Shape:
    """The plan within a ring less its holes, raised from z = 0. Raises SolidError for a ring of under three
    points.
    """
    for points in (ring, *holes):
        if len(points) < 3:
            raise SolidError(f"a ring needs three points or more, not {len(points)}")
    around, *within = (polygon(*((x, y, 0.0) for x, y in points)) for points in (ring, *holes))
    return extrude(face(around, *within), (0.0, 0.0, thickness_mm))
