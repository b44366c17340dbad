"""The shape of a hose whose two ends are held: a thin elastic line of fixed length, clamped in place and
direction.

Frame: the first end at the origin, pointing along x; z up. The line bends alike in every direction and
takes no twist, so its moment m and its direction t obey t' = m x t and m' = F x t, with one force F all
along (Kirchhoff's rod without twist; in a plane, Euler's elastica). Unit bending stiffness: it cancels.
The unknown F and the moment at the first end are found by shooting with Newton's method, along a path from
a shape that is known.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from model3d.geometry.placement import Vec3

Vector = list[float]
# Steps of the integration along the hose; the least radius is then right to a thousandth (elliptic
# integrals).
_STEPS = 48
_NEAR = 1e-9  # how well the far end must be met, as a share of the length


class NoShape(ValueError):
    """The ends stand so that no shape was found: further apart than the hose is long, or bent back on
    itself.
    """


@dataclass(frozen=True, slots=True, kw_only=True)
class BentHose:
    """The centre line: points along it, its least radius of curvature, mm, and where that is, how much it bends there
    for its length: length over radius.
    """

    points_mm: tuple[Vec3, ...]
    least_radius_mm: float
    most_bend: float


def bent_hose(length_mm: float, end_mm: Vec3, turn_deg: float) -> BentHose:
    """The hose of ``length_mm`` from the origin along +x to ``end_mm``, where its direction has turned by
    ``turn_deg`` about z (positive to the left). Raises NoShape when there is no such shape.
    """
    found = _shape_or_why(length_mm, end_mm, turn_deg)
    if isinstance(found, str):
        raise NoShape(found)
    return found


@lru_cache(maxsize=65536)
def _shape_or_why(length_mm: float, end_mm: Vec3, turn_deg: float) -> BentHose | str:
    """The hose, or why there is none: that there is none takes longest to find out, and is kept as well."""
    try:
        return _shape(length_mm, end_mm, turn_deg)
    except NoShape as reason:
        return str(reason)


def _shape(length_mm: float, end_mm: Vec3, turn_deg: float) -> BentHose:
    level = (end_mm[0] / length_mm, end_mm[1] / length_mm)
    turn = math.radians(turn_deg)
    if math.hypot(*level, end_mm[2] / length_mm) >= 1.0 - 1e-6:
        raise NoShape(f"a hose of {length_mm:g} mm does not reach over {math.hypot(*end_mm):.1f} mm")
    plane = _in_plane(level, turn)
    line = _Line3(turn)
    unknown: Vector = [plane[0], plane[1], 0.0, 0.0, plane[2]]
    rise = end_mm[2] / length_mm
    if rise != 0.0:
        for share in (0.5, 1.0):
            unknown = _newton(line.misses, unknown, (*level, rise * share, 0.0, 0.0))
    points, bend = line.along(unknown)
    return BentHose(
        points_mm=tuple((x * length_mm, y * length_mm, z * length_mm) for x, y, z in points),
        least_radius_mm=length_mm / bend if bend > 0.0 else math.inf,
        most_bend=bend,
    )


def _in_plane(end: tuple[float, float], turn: float) -> Vector:
    """Fx, Fy and the first curvature of the line of length 1 in the plane."""

    def misses(unknown: Sequence[float]) -> Vector:
        x, y, heading = _plane_end(unknown)
        return [x, y, heading - turn]

    if abs(turn) < 0.02:
        # The straight line under pressure bows out in half a cosine: heading a sin(2 pi s) with a^2 = 4 (1 -
        # chord).
        bow = math.sqrt(4.0 * max(1.0 - math.hypot(*end), 1e-6))
        return _newton(misses, [-4.0 * math.pi**2, 0.0, 2.0 * math.pi * bow], (*end, 0.0))
    # The arc is the shape without force. From its end to the end asked for, step by step.
    unknown = [0.0, 0.0, turn]
    first = (math.sin(turn) / turn, (1.0 - math.cos(turn)) / turn)
    steps = 4
    for i in range(1, steps + 1):
        share = i / steps
        goal = (first[0] + share * (end[0] - first[0]), first[1] + share * (end[1] - first[1]), 0.0)
        unknown = _newton(misses, unknown, goal)
    return unknown


def _plane_end(unknown: Sequence[float]) -> tuple[float, float, float]:
    """Where the line of length 1 in the plane ends, and its heading there, by the classical Runge-Kutta
    rule.
    """
    fx, fy, bend = unknown
    x = y = heading = 0.0
    h = 1.0 / _STEPS
    sin, cos = math.sin, math.cos

    for _ in range(_STEPS):
        s1, c1 = sin(heading), cos(heading)
        a2, b2 = heading + h / 2.0 * bend, bend + h / 2.0 * (fx * s1 - fy * c1)
        s2, c2 = sin(a2), cos(a2)
        a3, b3 = heading + h / 2.0 * b2, bend + h / 2.0 * (fx * s2 - fy * c2)
        s3, c3 = sin(a3), cos(a3)
        a4, b4 = heading + h * b3, bend + h * (fx * s3 - fy * c3)
        s4, c4 = sin(a4), cos(a4)
        sines, cosines = s1 + 2.0 * (s2 + s3) + s4, c1 + 2.0 * (c2 + c3) + c4
        x += h / 6.0 * cosines
        y += h / 6.0 * sines
        heading += h / 6.0 * (bend + 2.0 * (b2 + b3) + b4)
        bend += h / 6.0 * (fx * sines - fy * cosines)
    return x, y, heading


class _Line3:
    """The line of length 1 in space, its far direction turned by ``turn`` about z."""

    def __init__(self, turn: float) -> None:
        self.across = (-math.sin(turn), math.cos(turn), 0.0)

    def misses(self, unknown: Sequence[float]) -> Vector:
        """Where it ends, and how far its direction is off across and upward."""
        state = self._integrated(unknown, [])
        return [*state[:3], state[3] * self.across[0] + state[4] * self.across[1], state[5]]

    def along(self, unknown: Sequence[float]) -> tuple[list[Vec3], float]:
        """The points along it, and its greatest curvature."""
        passed: list[Vector] = []
        self._integrated(unknown, passed)
        points = [(s[0], s[1], s[2]) for s in passed]
        return points, max(math.hypot(s[6], s[7], s[8]) for s in passed)

    def _integrated(self, unknown: Sequence[float], passed: list[Vector]) -> Vector:
        fx, fy, fz, my, mz = unknown
        force = (fx, fy, fz)
        state: Vector = [0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, my, mz]
        h = 1.0 / _STEPS
        passed.append(state)
        for _ in range(_STEPS):
            k1 = _rates(state, force)
            k2 = _rates([a + h / 2.0 * b for a, b in zip(state, k1, strict=True)], force)
            k3 = _rates([a + h / 2.0 * b for a, b in zip(state, k2, strict=True)], force)
            k4 = _rates([a + h * b for a, b in zip(state, k3, strict=True)], force)
            state = [a + h / 6.0 * (p + 2.0 * (q + r) + s) for a, p, q, r, s in zip(state, k1, k2, k3, k4, strict=True)]
            passed.append(state)
        return state


def _rates(state: Vector, force: Vec3) -> Vector:
    _, _, _, tx, ty, tz, mx, my, mz = state
    fx, fy, fz = force
    return [
        tx,
        ty,
        tz,
        my * tz - mz * ty,
        mz * tx - mx * tz,
        mx * ty - my * tx,
        fy * tz - fz * ty,
        fz * tx - fx * tz,
        fx * ty - fy * tx,
    ]


def _newton(misses: Callable[[Sequence[float]], Vector], unknown: Vector, goal: Sequence[float]) -> Vector:
    """The unknowns for which the misses equal the goal. Raises NoShape when they are not found."""
    here = list(unknown)
    off = [a - b for a, b in zip(misses(here), goal, strict=True)]
    for _ in range(40):
        size = max(map(abs, off))
        if size < _NEAR:
            return here
        columns = []
        for j, value in enumerate(here):
            step = 1e-6 * max(1.0, abs(value))
            moved = misses([*here[:j], value + step, *here[j + 1 :]])
            columns.append([(a - b - c) / step for a, b, c in zip(moved, goal, off, strict=True)])
        change = _solved([[c[i] for c in columns] for i in range(len(off))], [-v for v in off])
        share = 1.0
        while share > 1e-3:
            tried = [a + share * b for a, b in zip(here, change, strict=True)]
            then = [a - b for a, b in zip(misses(tried), goal, strict=True)]
            if max(map(abs, then)) < size:
                here, off = tried, then
                break
            share /= 2.0
        else:
            break
    raise NoShape("the hose finds no shape between its ends")


def _solved(rows: list[Vector], right: Vector) -> Vector:
    """A small linear system, by elimination with the largest pivot."""
    count = len(right)
    table = [[*row, value] for row, value in zip(rows, right, strict=True)]
    for i in range(count):
        best = max(range(i, count), key=lambda r: abs(table[r][i]))
        table[i], table[best] = table[best], table[i]
        if abs(table[i][i]) < 1e-14:
            raise NoShape("the hose finds no shape between its ends")
        for r in range(i + 1, count):
            factor = table[r][i] / table[i][i]
            table[r] = [a - factor * b for a, b in zip(table[r], table[i], strict=True)]
    found = [0.0] * count
    for i in reversed(range(count)):
        rest = sum(table[i][j] * found[j] for j in range(i + 1, count))
        found[i] = (table[i][count] - rest) / table[i][i]
    return found
