"""Plane shapes as rings of points: does one fit inside another, and how far do two stand apart.

Arcs become chords; touching counts as standing apart by nothing.
"""

from __future__ import annotations

import math
from itertools import pairwise

from model3d.geometry.outline import Obround, Outline, arc_through
from model3d.geometry.placement import Vec2

Ring = tuple[Vec2, ...]
Extent = tuple[float, float, float, float]


def faceted(outline: Outline, sagitta_mm: float = 0.02) -> Ring:
    """The outline's corners, arcs as chords that leave them by at most ``sagitta_mm``.

    Raises ValueError when an arc's three points stand in a line.
    """
    points: list[Vec2] = []
    for start, segment in outline.edges:
        points.append(start)
        if segment.through is not None:
            arc = arc_through(start, segment.through, segment.to)
            points += _arc_points(arc.centre, arc.radius_mm, arc.start_rad, arc.sweep_rad, sagitta_mm)[1:-1]
    return tuple(points)


def box(u0_mm: float, v0_mm: float, u1_mm: float, v1_mm: float) -> Ring:
    """An upright rectangle, anticlockwise."""
    return ((u0_mm, v0_mm), (u1_mm, v0_mm), (u1_mm, v1_mm), (u0_mm, v1_mm))


def stadium(shape: Obround, centre: Vec2, sagitta_mm: float = 0.02) -> Ring:
    """An obround about a centre, anticlockwise."""
    r = shape.radius_mm
    along_u, along_v = shape.width_mm / 2.0 - r, shape.height_mm / 2.0 - r
    points: list[Vec2] = []
    for quarter, (su, sv) in enumerate(((1, 1), (-1, 1), (-1, -1), (1, -1))):
        at = (centre[0] + su * along_u, centre[1] + sv * along_v)
        points += _arc_points(at, r, quarter * math.pi / 2.0, math.pi / 2.0, sagitta_mm)
    return tuple(points)


def shifted(ring: Ring, du_mm: float, dv_mm: float) -> Ring:
    """The ring moved."""
    return tuple((u + du_mm, v + dv_mm) for u, v in ring)


def area_mm2(ring: Ring) -> float:
    """Area by the shoelace formula, positive when anticlockwise."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in _edges(ring)) / 2.0


def cut_at(ring: Ring, axis: int, limit_mm: float, keep: int) -> Ring:
    """The part of a ring on one side of a line square to an axis (0: u, 1: v); ``keep`` is +1 for what lies beyond the
    limit."""
    kept: list[Vec2] = []
    for here, there in _edges(ring):
        a, b = (here[axis] - limit_mm) * keep, (there[axis] - limit_mm) * keep
        if a >= 0.0:
            kept.append(here)
        if a * b < 0.0:
            f = a / (a - b)
            kept.append((here[0] + f * (there[0] - here[0]), here[1] + f * (there[1] - here[1])))
    return tuple(kept)


def spans_at_u(ring: Ring, u_mm: float) -> tuple[tuple[float, float], ...]:
    """The stretches of v that lie inside a ring along the upright line at ``u_mm``, lowest first."""
    crossed = []
    for a, b in _edges(ring):
        if (a[0] > u_mm) != (b[0] > u_mm):
            crossed.append(a[1] + (u_mm - a[0]) / (b[0] - a[0]) * (b[1] - a[1]))
    crossed.sort()
    return tuple(zip(crossed[::2], crossed[1::2], strict=True))


def contains(ring: Ring, point: Vec2) -> bool:
    """Whether a point lies inside a ring (even-odd rule; on the edge it may go either way)."""
    u, v = point
    inside = False
    for a, b in _edges(ring):
        if (a[1] > v) != (b[1] > v) and u < a[0] + (v - a[1]) / (b[1] - a[1]) * (b[0] - a[0]):
            inside = not inside
    return inside


def crosses_itself(ring: Ring, touch_mm: float = 1e-6) -> bool:
    """Whether two edges of a ring that are not neighbours meet."""
    edges = [(a, b, *_extent(a, b)) for a, b in _edges(ring)]
    count = len(edges)
    for i, (a0, a1, *reach) in enumerate(edges):
        for j in range(i + 2, count if i else count - 1):
            b0, b1, u0, v0, u1, v1 = edges[j]
            if _apart((u0, v0, u1, v1), *reach) < touch_mm and _edge_gap(a0, a1, b0, b1) < touch_mm:
                return True
    return False


def gap_mm(one: Ring, other: Ring, enough_mm: float = 20.0) -> float:
    """Least distance between two rings' edges, nothing when they cross or touch; no more than ``enough_mm`` is
    measured."""
    least = enough_mm
    reach = _extent(*other)
    others = [(b0, b1, *_extent(b0, b1)) for b0, b1 in _edges(other)]
    for a0, a1 in _edges(one):
        u0, v0, u1, v1 = _extent(a0, a1)
        if _apart(reach, u0, v0, u1, v1) >= least:
            continue
        for b0, b1, p0, q0, p1, q1 in others:
            if max(p0 - u1, u0 - p1, q0 - v1, v0 - q1) < least:
                least = min(least, _edge_gap(a0, a1, b0, b1))
    return least


def room_inside_mm(inner: Ring, outer: Ring, enough_mm: float = 20.0, touch_mm: float = 1e-6) -> float:
    """How far ``inner`` stays inside ``outer``, measured up to ``enough_mm``; negative by how far it sticks out."""
    gap = gap_mm(inner, outer, enough_mm)
    if gap > touch_mm:
        return gap if contains(outer, inner[0]) else -_to_ring(inner[0], outer)
    out = [_to_ring(p, outer) for p in _probes(inner, outer) if not contains(outer, p)]
    worst = max((*out, *_deep(outer, inner, -1.0)), default=0.0)
    return -worst if worst > touch_mm else gap


def room_beside_mm(one: Ring, other: Ring, enough_mm: float = 20.0, touch_mm: float = 1e-6) -> float:
    """How far two shapes stand apart, measured up to ``enough_mm``; negative by how deep one reaches into the other."""
    gap = gap_mm(one, other, enough_mm)
    if gap > touch_mm:
        if contains(other, one[0]):
            return -_to_ring(one[0], other)
        return -_to_ring(other[0], one) if contains(one, other[0]) else gap
    worst = max((*_deep(one, other), *_deep(other, one)), default=0.0)
    return -worst if worst > touch_mm else gap


def _arc_points(centre: Vec2, radius_mm: float, start_rad: float, sweep_rad: float, sagitta_mm: float) -> list[Vec2]:
    step = 2.0 * math.acos(1.0 - sagitta_mm / radius_mm) if radius_mm > sagitta_mm else math.pi
    count = max(2, math.ceil(abs(sweep_rad) / step))
    angles = [start_rad + sweep_rad * i / count for i in range(count + 1)]
    return [(centre[0] + radius_mm * math.cos(a), centre[1] + radius_mm * math.sin(a)) for a in angles]


def _edges(ring: Ring) -> list[tuple[Vec2, Vec2]]:
    return [(a, b) for a, b in zip(ring, (*ring[1:], *ring[:1]), strict=True) if a != b]


def _extent(*points: Vec2) -> Extent:
    us, vs = [p[0] for p in points], [p[1] for p in points]
    return min(us), min(vs), max(us), max(vs)


def _apart(reach: Extent, u0: float, v0: float, u1: float, v1: float) -> float:
    return max(reach[0] - u1, u0 - reach[2], reach[1] - v1, v0 - reach[3])


def _deep(one: Ring, other: Ring, inward: float = 1.0) -> list[float]:
    """How deep each probe of one shape that lies inside another stands in it."""
    u0, v0, u1, v1 = _extent(*other)
    near = [p for p in _probes(one, other, inward) if u0 < p[0] < u1 and v0 < p[1] < v1]
    return [_to_ring(p, other) for p in near if contains(other, p)]


def _probes(ring: Ring, other: Ring, inward: float = 1.0, by_mm: float = 1e-3) -> list[Vec2]:
    """Corners of a ring, and the middle of every stretch of its edges between meetings with another ring: on the edge,
    and a little inside it (outside when ``inward`` is negative), where it is seen even if edges coincide."""
    side = inward * math.copysign(1.0, area_mm2(ring))
    others = [(c, d, _extent(c, d)) for c, d in _edges(other)]
    found: list[Vec2] = []
    for a, b in _edges(ring):
        du, dv = b[0] - a[0], b[1] - a[1]
        length = math.hypot(du, dv)
        stops = [0.0, *sorted(_meetings(a, b, others)), 1.0]
        found.append(a)
        for low, high in pairwise(stops):
            by = side * min(by_mm / length, (high - low) / 100.0)
            middle = (a[0] + (low + high) / 2.0 * du, a[1] + (low + high) / 2.0 * dv)
            found += [middle, (middle[0] - dv * by, middle[1] + du * by)]
    return found


def _meetings(a: Vec2, b: Vec2, others: list[tuple[Vec2, Vec2, Extent]], touch_mm: float = 1e-6) -> set[float]:
    """Where along an edge others cross it, or have a corner on it, as shares of its length."""
    du, dv = b[0] - a[0], b[1] - a[1]
    length = math.hypot(du, dv)
    u0, v0, u1, v1 = _extent(a, b)
    found: set[float] = set()
    for c, d, reach in others:
        if _apart(reach, u0, v0, u1, v1) > touch_mm:
            continue
        at_c, at_d = _side(a, b, c), _side(a, b, d)
        if abs(at_c) <= touch_mm * length:
            found.add(((c[0] - a[0]) * du + (c[1] - a[1]) * dv) / length**2)
        elif at_c * at_d < 0.0:
            along = at_c / (at_c - at_d)
            u, v = c[0] + along * (d[0] - c[0]), c[1] + along * (d[1] - c[1])
            found.add(((u - a[0]) * du + (v - a[1]) * dv) / length**2)
    return {f for f in found if 0.0 < f < 1.0}


def _to_ring(point: Vec2, ring: Ring) -> float:
    return min(_to_edge(point, a, b) for a, b in _edges(ring))


def _to_edge(point: Vec2, a: Vec2, b: Vec2) -> float:
    du, dv = b[0] - a[0], b[1] - a[1]
    f = ((point[0] - a[0]) * du + (point[1] - a[1]) * dv) / (du * du + dv * dv)
    f = min(1.0, max(0.0, f))
    return math.hypot(point[0] - a[0] - f * du, point[1] - a[1] - f * dv)


def _edge_gap(a0: Vec2, a1: Vec2, b0: Vec2, b1: Vec2) -> float:
    """Least distance of two edges, nothing when they cross."""
    if _side(a0, a1, b0) * _side(a0, a1, b1) < 0.0 and _side(b0, b1, a0) * _side(b0, b1, a1) < 0.0:
        return 0.0
    return min(_to_edge(a0, b0, b1), _to_edge(a1, b0, b1), _to_edge(b0, a0, a1), _to_edge(b1, a0, a1))


def _side(a: Vec2, b: Vec2, p: Vec2) -> float:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
