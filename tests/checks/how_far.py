"""How far two plain bodies are apart, or how far one has to be moved to be off the other: from above and from below.

Nothing here comes from the kernel, a mesh or the engine. Two convex bodies are apart, or in one another, by the
distance of the origin from the surface of all differences of their points; that surface is closed in on by polyhedra
within it and planes that hold it (Gilbert, Johnson and Keerthi's and van den Bergen's algorithms, from memory), so that
the answer stands between two figures whatever the number of steps. A ring is all balls about the circle in its middle:
with anything it is apart by the least distance from that circle, less the ball's radius, and no move shorter than that
frees the ball which is deepest.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from scipy.spatial import ConvexHull

from tests.checks.plain_bodies import Convex, Plain, PlainRing, Points

CLOSE_MM = 1e-6
MOST_STEPS = 500
MOST_PLACES = 200_000  # round a circle: where more are equally near, the two figures stay further apart
FREED_MM = 1e-4
Furthest = Callable[[Points], Points]


@dataclass(frozen=True, kw_only=True)
class Apart:
    """The least and the most by which two bodies are apart; negative: by how much the one is to be moved to be off
    the other. ``way`` is the unit way for the second, in the first one's frame.
    """

    least_mm: float
    most_mm: float
    way: Points


@dataclass(frozen=True, kw_only=True)
class Pose:
    """Where the second body stands in the first one's frame: ``axes`` (3, 3) as columns, ``origin_mm`` (3,)."""

    axes: Points
    origin_mm: Points

    def moved(self, by_mm: Points) -> Pose:
        """The same, shifted."""
        return Pose(axes=self.axes, origin_mm=self.origin_mm + by_mm)

    def inverse(self) -> Pose:
        """The first one in the second one's frame."""
        return Pose(axes=self.axes.T, origin_mm=-self.axes.T @ self.origin_mm)


def apart(a: Plain, b: Plain, b_in_a: Pose, *, enough_mm: float = math.inf) -> Apart:
    """How far two bodies are apart. Once they are known to be in one another by more than ``enough_mm``, no closer."""
    if isinstance(a, PlainRing):
        return _of_ring(a, b, b_in_a)
    if isinstance(b, PlainRing):
        found = _of_ring(b, a, b_in_a.inverse())
        return Apart(least_mm=found.least_mm, most_mm=found.most_mm, way=-b_in_a.axes @ found.way)
    return _of_convex(a, b, b_in_a, enough_mm)  # type: ignore[arg-type]


def _of_convex(a: Convex, b: Convex, b_in_a: Pose, enough_mm: float) -> Apart:
    def furthest(way: Points) -> Points:
        """Of all points of the second less points of the first."""
        there = b_in_a.axes @ b.furthest(b_in_a.axes.T @ way) + b_in_a.origin_mm
        return there - a.furthest(-way)

    found = _distance(furthest)
    return found if found is not None else _depth(furthest, enough_mm)


def _distance(furthest: Furthest) -> Apart | None:
    """How far the origin is from a convex body; None when it is inside, or no further than ``CLOSE_MM``."""
    kept = [furthest(np.array([1.0, 0.0, 0.0]))]
    nearest = kept[0]
    for _ in range(MOST_STEPS):
        size = float(np.linalg.norm(nearest))
        if size < CLOSE_MM:
            return None
        way = nearest / size
        new = furthest(-way)
        least = float(new @ way)
        if size - least < CLOSE_MM:
            return Apart(least_mm=least, most_mm=size, way=way)
        shown = _nearest([*kept, new])
        if shown is None:
            return None
        nearest, kept = shown
    raise ArithmeticError("the distance of two bodies was not found")


def _nearest(corners: list[Points]) -> tuple[Points, list[Points]] | None:
    """The nearest point to the origin of the hull of up to four points, and the fewest of them that it stands
    between; None when the origin is inside.
    """
    best: tuple[float, Points, list[Points]] | None = None
    for count in range(1, min(len(corners), 3) + 1):
        for some in combinations(corners, count):
            shares = _shares(np.array(some))
            if shares is None:
                continue
            point = shares @ np.array(some)
            size = float(point @ point)
            if best is None or size < best[0] * (1.0 - 1e-14):
                best = size, point, list(some)
    if len(corners) == 4 and _holds_origin(np.array(corners)):
        return None
    assert best is not None
    return best[1], best[2]


def _shares(corners: Points) -> Points | None:
    """The shares of the point of a flat through corners that is nearest the origin; None where one is negative."""
    if len(corners) == 1:
        return np.ones(1)
    sides = corners[1:] - corners[0]
    square = sides @ sides.T
    if np.linalg.det(square) <= 1e-18 * float(np.prod(np.diag(square))):
        return None
    rest = np.linalg.solve(square, -sides @ corners[0])
    shares = np.array([1.0 - rest.sum(), *rest])
    return shares if shares.min() >= 0.0 else None


def _holds_origin(corners: Points) -> bool:
    sides = corners[1:] - corners[0]
    if abs(np.linalg.det(sides)) < 1e-12:
        return False
    rest = np.linalg.solve(sides.T, -corners[0])
    return bool(rest.min() >= 0.0 and rest.sum() <= 1.0)


def _depth(furthest: Furthest, enough_mm: float) -> Apart:
    """How deep the origin is inside a convex body: between the nearest side of a polyhedron within it, and the
    nearest plane found that holds it.
    """
    ways = np.array([(x, y, z) for x in (-1, 0, 1) for y in (-1, 0, 1) for z in (-1, 0, 1) if x or y or z], dtype=float)
    hull = ConvexHull(np.array([furthest(way) for way in ways]), incremental=True)
    best, most_way = math.inf, ways[0]
    for _ in range(MOST_STEPS):
        number = int(np.argmax(hull.equations[:, 3]))
        way, inner = hull.equations[number, :3], -float(hull.equations[number, 3])
        new = furthest(way)
        outer = float(new @ way)
        if outer < best:
            best, most_way = outer, way
        if best - inner < CLOSE_MM or inner > enough_mm:
            break
        hull.add_points(new[None])
    return Apart(least_mm=-best, most_mm=-inner, way=-most_way)


def _of_ring(ring: PlainRing, other: Plain, other_in_ring: Pose) -> Apart:
    found = _ball_by_ball(ring, other, other_in_ring)
    if found.most_mm >= 0.0:
        return found
    shift = FREED_MM - found.most_mm
    freed = _ball_by_ball(ring, other, other_in_ring.moved(shift * found.way)).least_mm >= 0.0
    return Apart(least_mm=-shift if freed else -math.inf, most_mm=found.most_mm, way=found.way)


def _ball_by_ball(ring: PlainRing, other: Plain, other_in_ring: Pose) -> Apart:
    """How far the nearest of the ring's balls is from the other, or how deep in it; from below by how finely the
    circle is searched: distances change no faster than the place.
    """

    def far(turns: Points) -> Points:
        places = (ring.middle(turns) - other_in_ring.origin_mm) @ other_in_ring.axes
        return other.signed_mm(places) - ring.minor_mm

    turn, most, least = _least_round(far, ring.major_mm)
    place = ring.middle(np.array([turn]))[0]
    way = -other_in_ring.axes @ _way_out(other, (place - other_in_ring.origin_mm) @ other_in_ring.axes)
    return Apart(least_mm=least, most_mm=most, way=way)


def _least_round(far: Callable[[Points], Points], major_mm: float) -> tuple[float, float, float]:
    """Where round a circle a function is least that changes no faster than the place, how much it is, and what it
    cannot be less than.
    """
    half = math.pi / 2048
    turns = np.arange(2048) * 2.0 * half
    values = far(turns)
    while True:
        best = int(np.argmin(values))
        least = float((values - major_mm * half).min())
        if values[best] - least < CLOSE_MM or len(values) > MOST_PLACES:
            return float(turns[best]), float(values[best]), least
        left = turns[values - major_mm * half <= values[best]]
        half /= 4.0
        turns = np.concatenate([left + k * half for k in (-3.0, -1.0, 1.0, 3.0)])
        values = far(turns)


def _way_out(body: Plain, place: Points) -> Points:
    """The unit way in which it is furthest from a body, or soonest out of it."""
    step = 1e-5
    ends = body.signed_mm(place + step * np.concatenate([np.eye(3), -np.eye(3)]))
    way = ends[:3] - ends[3:]
    return np.asarray(way / max(float(np.linalg.norm(way)), 1e-300))
