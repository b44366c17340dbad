"""Plane geometry of rings of points: do walls cross, which side is inside, how does a corner turn."""

from __future__ import annotations

import math
from collections.abc import Sequence

from model3d.geometry.placement import Vec2


def heading(turn_deg: float) -> Vec2:
    """The unit vector at an angle from x, anticlockwise; exact for whole quarter turns."""
    quarters = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}
    angle = turn_deg % 360.0
    return quarters.get(angle) or (math.cos(math.radians(angle)), math.sin(math.radians(angle)))


def turn_between(before: Vec2, after: Vec2) -> float:
    """Angle from one direction to the next, degrees in (-180, 180], anticlockwise positive."""
    across = before[0] * after[1] - before[1] * after[0]
    along = before[0] * after[0] + before[1] * after[1]
    return math.degrees(math.atan2(across, along))


def signed_area_mm2(points: Sequence[Vec2]) -> float:
    """Area of a ring by the shoelace formula, positive when anticlockwise."""
    total = 0.0
    for a, b in zip(points, [*points[1:], points[0]], strict=True):
        total += a[0] * b[1] - b[0] * a[1]
    return total / 2.0


def distance_to_segment_mm(p: Vec2, a: Vec2, b: Vec2) -> float:
    """Distance of a point from a straight stretch."""
    length_2 = (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2
    part = ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / length_2 if length_2 else 0.0
    part = min(1.0, max(0.0, part))
    return math.dist(p, (a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1])))


def meeting_point(a: Vec2, b: Vec2, c: Vec2, d: Vec2, within_mm: float = 1e-6) -> Vec2 | None:
    """Where the stretches ab and cd cross or touch, None when they stay more than ``within_mm`` apart."""
    apart = max(
        min(a[0], b[0]) - max(c[0], d[0]), min(c[0], d[0]) - max(a[0], b[0]),
        min(a[1], b[1]) - max(c[1], d[1]), min(c[1], d[1]) - max(a[1], b[1]),
    )  # fmt: skip
    if apart > within_mm:
        return None
    for p, start, end in ((a, c, d), (b, c, d), (c, a, b), (d, a, b)):
        if distance_to_segment_mm(p, start, end) <= within_mm:
            return p
    r, s = (b[0] - a[0], b[1] - a[1]), (d[0] - c[0], d[1] - c[1])
    across = r[0] * s[1] - r[1] * s[0]
    if across == 0.0:
        return None
    part = ((c[0] - a[0]) * s[1] - (c[1] - a[1]) * s[0]) / across
    other = ((c[0] - a[0]) * r[1] - (c[1] - a[1]) * r[0]) / across
    if 0.0 <= part <= 1.0 and 0.0 <= other <= 1.0:
        return (a[0] + part * r[0], a[1] + part * r[1])
    return None


def crossings(points: Sequence[Vec2]) -> list[tuple[int, int, Vec2]]:
    """The pairs of edges of a ring that meet where they should not, by number, and where they meet.

    Edge i goes from point i to the next. Neighbours may meet only in the corner between them: one that folds
    back along the other counts as meeting it.
    """
    count = len(points)
    found: list[tuple[int, int, Vec2]] = []
    for i in range(count):
        a, b = points[i], points[(i + 1) % count]
        for j in range(i + 1, count):
            c, d = points[j], points[(j + 1) % count]
            if j == i + 1 or (i == 0 and j == count - 1):
                corner, ends = (b, (a, d)) if j == i + 1 else (a, (b, c))
                if _folds_back(corner, *ends):
                    found.append((i, j, corner))
            else:
                where = meeting_point(a, b, c, d)
                if where is not None:
                    found.append((i, j, where))
    return found


def _folds_back(corner: Vec2, one: Vec2, other: Vec2) -> bool:
    """Whether two edges from a corner run along each other."""
    return distance_to_segment_mm(one, corner, other) <= 1e-6 or distance_to_segment_mm(other, corner, one) <= 1e-6


def is_inside(p: Vec2, ring: Sequence[Vec2]) -> bool:
    """Whether a point lies within a ring, by the edges to its right; on an edge it may be either."""
    inside = False
    for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
        if (a[1] > p[1]) != (b[1] > p[1]):
            x = a[0] + (p[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
            inside ^= p[0] < x
    return inside
