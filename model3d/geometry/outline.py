"""Closed plane outlines of straight lines and circular arcs, with their closed forms.

Sections are drawn in (u, v): u from the back toward the room, v up, millimetres, anticlockwise.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from model3d.geometry.placement import Vec2


@dataclass(frozen=True, slots=True, kw_only=True)
class Segment:
    """One edge of an outline: from the point before it to ``to``; an arc when it passes ``through`` a third point."""

    to: Vec2
    through: Vec2 | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """A circular arc: centre, radius, start angle and signed sweep (radians, anticlockwise positive)."""

    centre: Vec2
    radius_mm: float
    start_rad: float
    sweep_rad: float


def arc_through(a: Vec2, through: Vec2, b: Vec2) -> Arc:
    """The arc from ``a`` to ``b`` by way of ``through``. Raises ValueError when the three stand in a line."""
    ax, ay = a
    bx, by = through[0] - ax, through[1] - ay
    cx, cy = b[0] - ax, b[1] - ay
    d = 2.0 * (bx * cy - by * cx)
    if abs(d) < 1e-12:
        raise ValueError(f"an arc needs three points that are not in a line: {a}, {through}, {b}")
    ux = (cy * (bx * bx + by * by) - by * (cx * cx + cy * cy)) / d
    uy = (bx * (cx * cx + cy * cy) - cx * (bx * bx + by * by)) / d
    centre = (ax + ux, ay + uy)
    start = math.atan2(-uy, -ux)
    end = math.atan2(b[1] - centre[1], b[0] - centre[0])
    sweep = (end - start) % (2 * math.pi) if d > 0 else -((start - end) % (2 * math.pi))
    return Arc(centre=centre, radius_mm=math.hypot(ux, uy), start_rad=start, sweep_rad=sweep)


@dataclass(frozen=True, kw_only=True)
class Outline:
    """A closed outline: ``start`` and the edges from it; the last edge ends at the start (a closing line is implied).
    """

    start: Vec2
    segments: tuple[Segment, ...]

    @cached_property
    def edges(self) -> tuple[tuple[Vec2, Segment], ...]:
        """Each edge with the point it sets out from, the closing line included."""
        found: list[tuple[Vec2, Segment]] = []
        here = self.start
        for segment in self.segments:
            found.append((here, segment))
            here = segment.to
        if math.dist(here, self.start) > 1e-9:
            found.append((here, Segment(to=self.start)))
        return tuple(found)

    @cached_property
    def area_mm2(self) -> float:
        """Area by the shoelace formula plus each arc's circular segment; positive when anticlockwise."""
        total = 0.0
        for a, segment in self.edges:
            b = segment.to
            total += (a[0] * b[1] - b[0] * a[1]) / 2.0
            if segment.through is not None:
                arc = arc_through(a, segment.through, b)
                total += arc.radius_mm**2 * (arc.sweep_rad - math.sin(arc.sweep_rad)) / 2.0
        return total

    @cached_property
    def perimeter_mm(self) -> float:
        """Length round the outline."""
        total = 0.0
        for a, segment in self.edges:
            if segment.through is None:
                total += math.dist(a, segment.to)
            else:
                arc = arc_through(a, segment.through, segment.to)
                total += arc.radius_mm * abs(arc.sweep_rad)
        return total

    @cached_property
    def extent_mm(self) -> tuple[float, float, float, float]:
        """Least u, least v, greatest u, greatest v, arcs included."""
        us: list[float] = []
        vs: list[float] = []
        for a, segment in self.edges:
            us.append(a[0])
            vs.append(a[1])
            if segment.through is not None:
                for u, v in _arc_extremes(arc_through(a, segment.through, segment.to)):
                    us.append(u)
                    vs.append(v)
        return (min(us), min(vs), max(us), max(vs))

    def moved(self, du_mm: float, dv_mm: float) -> Outline:
        """The same outline shifted."""

        def shift(p: Vec2) -> Vec2:
            return (p[0] + du_mm, p[1] + dv_mm)

        return Outline(
            start=shift(self.start),
            segments=tuple(
                Segment(to=shift(s.to), through=None if s.through is None else shift(s.through)) for s in self.segments
            ),
        )


def _arc_extremes(arc: Arc) -> list[Vec2]:
    """The points of an arc that stand furthest along the axes, within its sweep."""
    found: list[Vec2] = []
    for quarter in range(4):
        angle = quarter * math.pi / 2
        ahead = (angle - arc.start_rad) % (2 * math.pi)
        behind = (arc.start_rad - angle) % (2 * math.pi)
        if (arc.sweep_rad > 0 and ahead <= arc.sweep_rad) or (arc.sweep_rad < 0 and behind <= -arc.sweep_rad):
            found.append(
                (arc.centre[0] + arc.radius_mm * math.cos(angle), arc.centre[1] + arc.radius_mm * math.sin(angle))
            )
    return found


def polygon(*points: Vec2) -> Outline:
    """A closed outline of straight lines through the points."""
    return Outline(start=points[0], segments=tuple(Segment(to=p) for p in points[1:]))


def rectangle(u0_mm: float, v0_mm: float, u1_mm: float, v1_mm: float) -> Outline:
    """A rectangle from its lower corner to its upper one."""
    return polygon((u0_mm, v0_mm), (u1_mm, v0_mm), (u1_mm, v1_mm), (u0_mm, v1_mm))


@dataclass(frozen=True, slots=True, kw_only=True)
class Obround:
    """A stadium: a rectangle with half-round ends, ``width_mm`` along u, ``height_mm`` along v; round when equal."""

    width_mm: float
    height_mm: float

    @property
    def radius_mm(self) -> float:
        """Radius of the round ends."""
        return min(self.width_mm, self.height_mm) / 2.0

    @property
    def straight_mm(self) -> float:
        """Length of the straight part between the round ends."""
        return abs(self.height_mm - self.width_mm)

    @property
    def area_mm2(self) -> float:
        """pi r^2 + 2 r l."""
        return math.pi * self.radius_mm**2 + 2.0 * self.radius_mm * self.straight_mm

    @property
    def perimeter_mm(self) -> float:
        """2 pi r + 2 l."""
        return 2.0 * math.pi * self.radius_mm + 2.0 * self.straight_mm

    def grown(self, by_mm: float) -> Obround:
        """The obround whose edge stands ``by_mm`` further out all round (inward when negative)."""
        return Obround(width_mm=self.width_mm + 2.0 * by_mm, height_mm=self.height_mm + 2.0 * by_mm)
