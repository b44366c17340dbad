"""Which walls are cut down to a stub so that one can look into a room from above, and what hides what in plan.

Plan: wall i runs from corner i to corner i+1 of the room's outline, anticlockwise, with the room on its left.
Pure numbers; nothing is drawn here.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from model3d.geometry.placement import Vec2, Vec3

FACING_SLACK = 0.03
"""A wall seen from the side within this cosine hides a strip no wider than its thickness: it stays whole."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Something upright that may stand in the way, such as a piece of furniture: plan outline, bottom and top mm."""

    outline: tuple[Vec2, ...]
    top_mm: float
    bottom_mm: float = 0.0


def wall_direction(outline: Sequence[Vec2], wall: int) -> Vec2:
    """Unit direction of a wall in plan. Raises ValueError for a wall of no length."""
    (ax, ay), (bx, by) = outline[wall], outline[(wall + 1) % len(outline)]
    size = math.hypot(bx - ax, by - ay)
    if size < 1e-9:
        raise ValueError(f"wall {wall} has no length")
    return ((bx - ax) / size, (by - ay) / size)


def inward_normal(outline: Sequence[Vec2], wall: int) -> Vec2:
    """Unit normal of a wall toward the room."""
    x, y = wall_direction(outline, wall)
    return (-y, x)


def cut_walls(outline: Sequence[Vec2], toward_eye_deg: float) -> tuple[int, ...]:
    """Walls whose room side faces away from an eye that stands far out in the plan direction ``toward_eye_deg``.

    They stand between the eye and the room and are to be cut; all others show their room side and stay whole.
    """
    c, s = math.cos(math.radians(toward_eye_deg)), math.sin(math.radians(toward_eye_deg))
    away = []
    for wall in range(len(outline)):
        x, y = inward_normal(outline, wall)
        if x * c + y * s < -FACING_SLACK:
            away.append(wall)
    return tuple(away)


def walls_to_cut(
    outline: Sequence[Vec2],
    eye: Vec3,
    wall_height_mm: float,
    wall_thickness_mm: float,
    wanted: Sequence[Vec3],
    *,
    spare: float = 0.02,
) -> tuple[int, ...]:
    """Of the walls that face away from the eye, those that hide more than the share ``spare`` of the wanted points
    that no whole wall hides anyway; the others may stay whole."""
    middle = (sum(x for x, _ in outline) / len(outline), sum(y for _, y in outline) / len(outline))
    away = cut_walls(outline, math.degrees(math.atan2(eye[1] - middle[1], eye[0] - middle[0])))
    whole = [-2.0 if wall in away else wall_height_mm for wall in range(len(outline))]
    seen = [point for point in wanted if is_seen(point, eye, outline, whole)]
    cut = []
    for wall in away:
        a, b = outline[wall], outline[(wall + 1) % len(outline)]
        x, y = (wall_thickness_mm * c for c in inward_normal(outline, wall))
        outer = ((a[0] - x, a[1] - y), (b[0] - x, b[1] - y))
        hidden = sum(
            hidden_by(p, eye, a, b, -1.0, wall_height_mm) or hidden_by(p, eye, *outer, -1.0, wall_height_mm)
            for p in seen
        )
        if hidden > spare * len(seen):
            cut.append(wall)
    return tuple(cut)


def stub_height(skirting_top_mm: float, wall_height_mm: float) -> float:
    """Height of a cut wall: a little over the skirting, so that the skirting's top edge still shows over it; never
    more than the wall."""
    return min(skirting_top_mm + 10.0, wall_height_mm)


def crossing(a: Vec2, b: Vec2, c: Vec2, d: Vec2) -> float | None:
    """How far along a to b (0 to 1) the segment crosses c to d; None where it does not."""
    rx, ry, qx, qy = b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]
    across = rx * qy - ry * qx
    if abs(across) < 1e-12:
        return None
    t = ((c[0] - a[0]) * qy - (c[1] - a[1]) * qx) / across
    u = ((c[0] - a[0]) * ry - (c[1] - a[1]) * rx) / across
    return t if 1e-9 < t < 1 - 1e-9 and -1e-9 <= u <= 1 + 1e-9 else None


def hidden_by(point: Vec3, eye: Vec3, a: Vec2, b: Vec2, bottom_mm: float, top_mm: float) -> bool:
    """Whether the upright sheet over a to b, from bottom to top, stands between a point and the eye."""
    t = crossing(point[:2], eye[:2], a, b)
    if t is None:
        return False
    height = point[2] + t * (eye[2] - point[2])
    return bottom_mm <= height <= top_mm


def is_seen(
    point: Vec3,
    eye: Vec3,
    outline: Sequence[Vec2],
    heights_mm: Sequence[float],
    blocks: Sequence[Block] = (),
) -> bool:
    """Whether a point in the room is seen from the eye past walls of the given heights and past the blocks."""
    n = len(outline)
    for wall in range(n):
        if hidden_by(point, eye, outline[wall], outline[(wall + 1) % n], -1.0, heights_mm[wall]):
            return False
    for block in blocks:
        m = len(block.outline)
        for side in range(m):
            a, b = block.outline[side], block.outline[(side + 1) % m]
            if hidden_by(point, eye, a, b, block.bottom_mm, block.top_mm):
                return False
        if _over(point, eye, block):
            return False
    return True


def _over(point: Vec3, eye: Vec3, block: Block) -> bool:
    """Whether the sight passes through the block's top."""
    rise = eye[2] - point[2]
    if rise <= 0 or not point[2] < block.top_mm < eye[2]:
        return False
    t = (block.top_mm - point[2]) / rise
    return inside((point[0] + t * (eye[0] - point[0]), point[1] + t * (eye[1] - point[1])), block.outline)


def inside(point: Vec2, outline: Sequence[Vec2]) -> bool:
    """Whether a plan point lies within an outline (even-odd rule)."""
    x, y = point
    odd = False
    for k, (ax, ay) in enumerate(outline):
        bx, by = outline[(k + 1) % len(outline)]
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            odd = not odd
    return odd


def distance_to_walls(point: Vec2, outline: Sequence[Vec2]) -> float:
    """Least plan distance, mm, from a point to an outline's edges."""
    least = math.inf
    for k, (ax, ay) in enumerate(outline):
        bx, by = outline[(k + 1) % len(outline)]
        ex, ey = bx - ax, by - ay
        t = ((point[0] - ax) * ex + (point[1] - ay) * ey) / max(ex * ex + ey * ey, 1e-12)
        t = min(1.0, max(0.0, t))
        least = min(least, math.hypot(point[0] - ax - t * ex, point[1] - ay - t * ey))
    return least
