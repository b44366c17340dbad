"""Convex boxes on paper, and whether they overlap. Paper millimetres, y down."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from model3d.geometry.placement import Vec2


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A convex ring of corners, and the upright rectangle round it (left, top, right, bottom)."""

    corners: tuple[Vec2, ...]
    bounds: tuple[float, float, float, float]


def box(corners: Sequence[Vec2]) -> Box:
    """The box of a convex ring of corners."""
    xs, ys = [c[0] for c in corners], [c[1] for c in corners]
    return Box(corners=tuple(corners), bounds=(min(xs), min(ys), max(xs), max(ys)))


def turned_box(centre: Vec2, width_mm: float, height_mm: float, turn_deg: float = 0.0) -> Box:
    """A rectangle about its centre, turned clockwise on paper."""
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    w, h = width_mm / 2.0, height_mm / 2.0
    around = ((-w, -h), (w, -h), (w, h), (-w, h))
    return box([(centre[0] + x * c - y * s, centre[1] + x * s + y * c) for x, y in around])


def line_box(a: Vec2, b: Vec2, width_mm: float = 0.3) -> Box:
    """The box of a drawn line."""
    length = math.dist(a, b)
    turn = math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))
    return turned_box(((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0), length, width_mm, turn)


def boxes_meet(one: Box, other: Box) -> bool:
    """Whether two boxes overlap: no axis of theirs separates them. Boxes that only touch do not."""
    p, q = one.bounds, other.bounds
    if p[2] <= q[0] or q[2] <= p[0] or p[3] <= q[1] or q[3] <= p[1]:
        return False
    return not (_parted(one.corners, other.corners) or _parted(other.corners, one.corners))


def _parted(ring: Sequence[Vec2], other: Sequence[Vec2]) -> bool:
    for a, b in zip(ring, (*ring[1:], ring[0]), strict=True):
        x, y = b[1] - a[1], a[0] - b[0]
        first, second = ([u * x + v * y for u, v in r] for r in (ring, other))
        if max(first) <= min(second) or max(second) <= min(first):
            return True
    return False


def within(inner: Box, outer: Box) -> bool:
    """Whether a box lies within the upright rectangle round another."""
    p, q = inner.bounds, outer.bounds
    return p[0] >= q[0] and p[1] >= q[1] and p[2] <= q[2] and p[3] <= q[3]
