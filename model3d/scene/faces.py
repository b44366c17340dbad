"""The faces of walls that bow, as they are drawn."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from model3d.geometry.placement import Vec2
from model3d.layout import Layout
from model3d.rooms import WallBow
from model3d.rooms.surfaces import between

Faces = Mapping[str, tuple[Vec2, ...]]
"""By wall, points (along, off) in order, both corners among them; the face goes straight from one to the next."""
BESIDE_MM = 100.0
"""What stands at a piece's ends, beyond its cut faces."""


def drawn_faces(layout: Layout, bows: Iterable[WallBow]) -> Faces:
    """The faces of walls as they were read. Behind a piece that follows its wall unpacked, since the wall bows less
    than the profile may itself, both are drawn straight: none of a wall where all do.
    """
    pieces = {p.mark: p for p in layout.pieces}
    faces = {}
    for bow in bows:
        held = [h for h in layout.on_walls if pieces[h.mark].wall.id == bow.wall_id]
        if held and not any(h.packed for h in held):
            continue
        points = bow.readings
        for piece in (pieces[h.mark] for h in held if not h.packed):
            points = _straight_between(points, piece.low_mm - BESIDE_MM, piece.high_mm + BESIDE_MM)
        faces[bow.wall_id] = points
    return faces


def off_mm(faces: Faces, wall_id: str, along_mm: float) -> float:
    """How far a wall's face stands off its line at a place; 0 on a wall without a face of its own."""
    return between(faces[wall_id], along_mm) if wall_id in faces else 0.0


def _straight_between(points: Sequence[Vec2], low_mm: float, high_mm: float) -> tuple[Vec2, ...]:
    """The points with those from one place to another on the wall's line."""
    first, last = points[0][0], points[-1][0]
    low, high = max(low_mm, first), min(high_mm, last)
    before = [p for p in points if p[0] < low]
    after = [p for p in points if p[0] > high]
    return (*before, (low, 0.0), (high, 0.0), *after)
