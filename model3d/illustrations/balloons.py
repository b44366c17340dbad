"""Where balloons stand round a drawing: outside it, apart, their leaders straight, uncrossed and clear of other
balloons.

Balloons stand on the convex hull of what is drawn, grown outward, evenly apart. Which goes where is the assignment of
least total leader length: of two leaders that cross, swapping their balloons makes the total shorter, so in it none do.
What stands in the way of a leader, or meets it too flat, is then ruled out and the rest assigned anew.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.optimize import linear_sum_assignment

from model3d.illustrations.sheet import Mm

CLEAR_MM = 0.5  # kept between a leader and a balloon that is not its own
_GROWTHS = (1.0, 1.4, 2.0, 3.0, 4.5, 7.0, 12.0, 24.0)
_PHASES = 5
_ROUNDS = 8
_RULED_OUT = 1e6

Points = npt.NDArray[np.float64]


class NoRoomForBalloons(ValueError):
    """No arrangement was found."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leader:
    """A balloon: its middle, and the point that it is about."""

    balloon: Mm
    anchor: Mm


def arranged(anchors: Sequence[Mm], drawn: Sequence[Mm], *, radius_mm: float, away_mm: float) -> tuple[Leader, ...]:
    """A balloon for each anchor, in their order, ``away_mm`` or more outside the hull of the ``drawn`` points.

    Raises NoRoomForBalloons when nothing will do (two anchors at one point).
    """
    if not anchors:
        return ()
    tips = np.array(anchors, dtype=float)
    hull = convex_hull(np.vstack([np.array(drawn, dtype=float).reshape(-1, 2), tips]))
    spacing = 2 * radius_mm + 1.6
    for growth in _GROWTHS:
        ring = _ring(hull, away_mm * growth + radius_mm)
        slots = max(int(_round_length(ring) / spacing), 3)
        if slots < len(tips):
            continue
        found = [_assigned(tips, _slots(ring, slots, k / _PHASES), radius_mm) for k in range(_PHASES)]
        whole = [f for f in found if f is not None]
        if whole:
            best = min(whole, key=lambda f: f[0])[1]
            return tuple(
                Leader(balloon=(float(b[0]), float(b[1])), anchor=(float(a[0]), float(a[1])))
                for b, a in zip(best, tips, strict=True)
            )
    raise NoRoomForBalloons(f"no room for {len(tips)} balloons round the drawing")


def faults(leaders: Sequence[Leader], *, radius_mm: float) -> list[tuple[int, int, str]]:
    """Pairs that are wrong with one another: ``crosses``, ``passes`` (the first's leader too near the second's
    balloon), ``overlaps``.
    """
    found = []
    for i, one in enumerate(leaders):
        for j, other in enumerate(leaders):
            if i == j:
                continue
            if i < j and math.dist(one.balloon, other.balloon) < 2 * radius_mm:
                found.append((i, j, "overlaps"))
            if i < j and _cross(one, other):
                found.append((i, j, "crosses"))
            if _off(other.balloon, one.anchor, one.balloon) < radius_mm + CLEAR_MM:
                found.append((i, j, "passes"))
    return found


def convex_hull(points: Points) -> Points:
    """(k, 2) corners of the hull of points, in order round it (Andrew's monotone chain)."""
    ordered = sorted({(float(x), float(y)) for x, y in points})
    if len(ordered) < 3:
        return np.array(ordered)

    def half(these: Sequence[Mm]) -> list[Mm]:
        chain: list[Mm] = []
        for p in these:
            while len(chain) > 1 and _turn(chain[-2], chain[-1], p) <= 0:
                chain.pop()
            chain.append(p)
        return chain[:-1]

    return np.array(half(ordered) + half(ordered[::-1]))


def _ring(hull: Points, out_mm: float) -> Points:
    """The hull grown outward: a round joint at each corner."""
    angles = np.linspace(0, 2 * math.pi, 96, endpoint=False)
    disc = out_mm * np.column_stack([np.cos(angles), np.sin(angles)])
    return convex_hull((hull[:, None, :] + disc[None, :, :]).reshape(-1, 2))


def _round_length(ring: Points) -> float:
    return float(np.linalg.norm(np.diff(np.vstack([ring, ring[:1]]), axis=0), axis=1).sum())


def _slots(ring: Points, count: int, phase: float) -> Points:
    """(count, 2) points evenly apart along the ring."""
    closed = np.vstack([ring, ring[:1]])
    far = np.r_[0.0, np.cumsum(np.linalg.norm(np.diff(closed, axis=0), axis=1))]
    at = (np.arange(count) + phase) / count * far[-1]
    return np.column_stack([np.interp(at, far, closed[:, 0]), np.interp(at, far, closed[:, 1])])


def _assigned(tips: Points, slots: Points, radius_mm: float) -> tuple[float, Points] | None:
    """Total length and a slot for each tip, or None when no sound assignment was found."""
    way = slots[None, :, :] - tips[:, None, :]
    cost = np.linalg.norm(way, axis=2) + _flatness(way)
    for _ in range(_ROUNDS):
        row, column = linear_sum_assignment(cost)
        if cost[row, column].max() >= _RULED_OUT:
            return None
        chosen = slots[column]
        leaders = [Leader(balloon=(b[0], b[1]), anchor=(a[0], a[1])) for b, a in zip(chosen, tips, strict=True)]
        wrong = faults(leaders, radius_mm=radius_mm)
        if not wrong:
            return float(cost[row, column].sum()), chosen
        for i, _, _ in wrong:
            cost[i, column[i]] = _RULED_OUT
    return None


def _flatness(way: Points) -> Points:
    """What a leader costs for lying nearly level or upright, where it may be taken for a line of the drawing."""
    angle = np.degrees(np.arctan2(np.abs(way[..., 1]), np.abs(way[..., 0])))
    return np.asarray(4.0 * np.clip(1.0 - np.minimum(angle, 90.0 - angle) / 12.0, 0.0, 1.0))


def _turn(a: Mm, b: Mm, c: Mm) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _cross(one: Leader, other: Leader) -> bool:
    """Whether two leaders meet."""
    a, b, c, d = one.anchor, one.balloon, other.anchor, other.balloon
    if any(max(a[k], b[k]) < min(c[k], d[k]) or max(c[k], d[k]) < min(a[k], b[k]) for k in (0, 1)):
        return False
    return _turn(a, b, c) * _turn(a, b, d) <= 0 and _turn(c, d, a) * _turn(c, d, b) <= 0


def _off(point: Mm, a: Mm, b: Mm) -> float:
    """Distance of a point from the stretch a to b."""
    x, y = b[0] - a[0], b[1] - a[1]
    size = x * x + y * y
    share = 0.0 if size < 1e-18 else min(max(((point[0] - a[0]) * x + (point[1] - a[1]) * y) / size, 0.0), 1.0)
    return math.dist(point, (a[0] + share * x, a[1] + share * y))
