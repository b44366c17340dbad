"""Walls: mitred at both ends, with openings right through and pockets for back boxes."""

from __future__ import annotations

import cadquery as cq
from cadquery.func import cut

from model3d.parts.room import WallHole, WallSpec
from model3d.solids.room_slab import plate
from model3d.solids.simple_bodies import block
from model3d.solids.sound import SolidError, one_solid


def room_wall(spec: WallSpec) -> cq.Solid:
    """A wall: x along its surface from its first corner, y into the room with the surface at y = 0, or where
    it bows to, z up from the floor, mm.

    Raises SolidError for a wall without length, height or thickness, openings that overlap one another, or
    openings that leave more than one body (one as high as the wall).
    """
    if min(spec.length_mm, spec.height_mm, spec.thickness_mm) <= 0.0:
        raise SolidError(
            f"a wall of {spec.length_mm:g} x {spec.height_mm:g} x {spec.thickness_mm:g} mm has no body"
        )
    _refuse_overlaps(tuple(hole for hole, _ in spec.cut_outs))
    wall = plate(spec.plan, (), spec.height_mm)
    for hole, depth_mm in spec.cut_outs:
        wall = cut(wall, _tool(hole, depth_mm, spec))
    return one_solid(wall, "wall")


def _tool(hole: WallHole, depth_mm: float, spec: WallSpec) -> cq.Solid:
    """What an opening takes away, reaching past the surface, and past the back, floor or top where it goes
    right through.
    """
    past = 1.0
    front = spec.proudest_mm + past
    back = -depth_mm - (past if depth_mm >= spec.thickness_mm else 0.0)
    bottom = hole.bottom_mm if hole.bottom_mm > 0.0 else -past
    return block((hole.start_mm, front, bottom), (hole.end_mm, back, hole.top_mm))


def _refuse_overlaps(holes: tuple[WallHole, ...]) -> None:
    """Raise SolidError for the first two openings that overlap in the wall's elevation."""
    for i, a in enumerate(holes):
        for b in holes[i + 1 :]:
            along = min(a.end_mm, b.end_mm) - max(a.start_mm, b.start_mm)
            up = min(a.top_mm, b.top_mm) - max(a.bottom_mm, b.bottom_mm)
            if along > 0.0 and up > 0.0:
                raise SolidError(
                    f"two openings of a wall overlap by {along:g} mm along it and {up:g} mm up: "
                    f"{a.start_mm:g} to {a.end_mm:g} and {b.start_mm:g} to {b.end_mm:g}"
                )
