"""The map of a step: the room's floor from above, and the pieces on its walls."""

from __future__ import annotations

from model3d.geometry.placement import Vec2
from model3d.layout import Piece
from model3d.parts.room import SlabSpec
from model3d.pictures.stage import PlanMap
from model3d.pictures.staging.occasion import Occasion


def room_map(at: Occasion) -> PlanMap | None:
    """None where the scene has no floor."""
    floor = next((p for p in at.scene.room if p.role == "floor" and isinstance(p.spec, SlabSpec)), None)
    if floor is None or not isinstance(floor.spec, SlabSpec):
        return None
    up = {p.piece for p in at.up_already if p.role in ("piece", "dry-piece")}
    now = {p.mark for p in at.pieces}
    rings = (floor.spec.ring, *floor.spec.holes)
    x, y, _ = floor.placement.origin_mm
    return PlanMap(
        rings=tuple(tuple((px + x, py + y) for px, py in ring) for ring in rings),
        before=tuple(_line(p) for p in at.every_piece if p.mark in up and p.mark not in now),
        now=tuple(_line(p) for p in at.pieces),
    )


def _line(piece: Piece) -> tuple[Vec2, Vec2]:
    return piece.wall.point_mm(piece.near_mm), piece.wall.point_mm(piece.far_mm)
