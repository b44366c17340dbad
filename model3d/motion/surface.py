"""How far triangles stand apart: exact, by bunches of triangles whose boxes come near enough."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from model3d.geometry.placement import Placement, Vec3

Points = npt.NDArray[np.float64]

BUNCH = 16  # triangles in a bunch
AT_ONCE = 24  # pairs of bunches looked at together
SIDES = ((0, 1), (1, 2), (2, 0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """How far two surfaces stand apart, and the point midway between where they come nearest."""

    distance_mm: float
    place_mm: Vec3


class Surface:
    """Triangles (m, 3, 3), mm, in one frame, ready for distances; put in bunches of neighbours."""

    def __init__(self, corners: Points) -> None:
        self.corners = corners[_along_a_curve(corners.mean(axis=1))] if len(corners) else corners

    @cached_property
    def starts(self) -> npt.NDArray[np.int64]:
        """Where each bunch begins."""
        return np.arange(0, len(self.corners), BUNCH)

    def boxes(self, axes: Points, origin: Points) -> tuple[Points, Points, Points]:
        """Corners turned and moved (own @ axes + origin), and the low and high corners of the bunches' boxes."""
        moved = self.corners @ axes + origin
        low, high = moved.min(axis=1), moved.max(axis=1)
        return moved, np.minimum.reduceat(low, self.starts), np.maximum.reduceat(high, self.starts)


def gap(a: Surface, b: Surface, b_in_a: Placement, *, within_mm: float, along: Points | None = None) -> Gap | None:
    """How far two surfaces stand apart when that is less than ``within_mm``, else None; the place in a's frame.

    ``along`` is a direction in a's frame along which a's triangles are long: boxes are drawn along it. Surfaces that
    cut into one another have no distance; ask first whether they meet.
    """
    if not len(a.corners) or not len(b.corners):
        return None
    turn = _frame_along(along)
    b_axes = np.array([b_in_a.x_axis, b_in_a.y_axis, b_in_a.z_axis]) @ turn
    one, a_low, a_high = a.boxes(turn, np.zeros(3))
    two, b_low, b_high = b.boxes(b_axes, np.array(b_in_a.origin_mm) @ turn)
    apart = _boxes_apart(a_low[:, None], a_high[:, None], b_low[None], b_high[None])
    rows, columns = np.nonzero(apart < within_mm)
    order = np.argsort(apart[rows, columns], kind="stable")
    rows, columns = rows[order], columns[order]
    best, place = within_mm, None
    for k in range(0, len(rows), AT_ONCE):
        near = apart[rows[k : k + AT_ONCE], columns[k : k + AT_ONCE]] < best
        if not near[0]:
            break
        i, j = _members(rows[k : k + AT_ONCE][near], columns[k : k + AT_ONCE][near], len(one), len(two))
        found, where = _nearest(one[i], two[j], best)
        if found < best:
            best, place = found, where
    if place is None:
        return None
    x, y, z = (turn @ place).tolist()
    return Gap(distance_mm=best, place_mm=(x, y, z))


def _members(
    rows: npt.NDArray[np.int64], columns: npt.NDArray[np.int64], m: int, n: int
) -> tuple[npt.NDArray[np.int64], npt.NDArray[np.int64]]:
    """Every pair of triangles of pairs of bunches."""
    steps = np.arange(BUNCH)
    i = (rows * BUNCH)[:, None, None] + steps[None, :, None]
    j = (columns * BUNCH)[:, None, None] + steps[None, None, :]
    i, j = (x.ravel() for x in np.broadcast_arrays(i, j))
    real = (i < m) & (j < n)
    return i[real], j[real]


def _nearest(one: Points, two: Points, within_mm: float) -> tuple[float, Points]:
    """The least distance between triangles paired off, and the place between; what stands further is left out."""
    near = _boxes_apart(one.min(axis=1), one.max(axis=1), two.min(axis=1), two.max(axis=1)) < within_mm
    one, two = one[near], two[near]
    best, place = np.inf, np.zeros(3)
    if not len(one):
        return best, place
    for found, where in (_edges_apart(one, two), _corners_over(one, two), _corners_over(two, one)):
        k = int(np.argmin(found))
        if found[k] < best:
            best, place = float(found[k]), where[k]
    return best, place


def _edges_apart(one: Points, two: Points) -> tuple[Points, Points]:
    """Each edge of one against each of the other: distance and middle, (9k,), (9k, 3)."""
    starts = np.concatenate([one[:, i] for i, _ in SIDES for _ in SIDES])
    ways = np.concatenate([one[:, j] - one[:, i] for i, j in SIDES for _ in SIDES])
    others = np.concatenate([two[:, i] for _ in SIDES for i, _ in SIDES])
    runs = np.concatenate([two[:, j] - two[:, i] for _ in SIDES for i, j in SIDES])
    between = starts - others
    a, b, e = _dots(ways, ways), _dots(ways, runs), _dots(runs, runs)
    c, f = _dots(ways, between), _dots(runs, between)
    span = a * e - b * b
    s = np.clip(np.divide(b * f - c * e, span, out=np.zeros_like(a), where=span > 1e-12 * a * e), 0.0, 1.0)
    t = np.divide(b * s + f, e, out=np.zeros_like(a), where=e > 0.0)
    held = np.clip(t, 0.0, 1.0)
    again = np.clip(np.divide(b * held - c, a, out=np.zeros_like(a), where=a > 0.0), 0.0, 1.0)
    s = np.where(t == held, s, again)
    p, q = starts + s[:, None] * ways, others + held[:, None] * runs
    return np.linalg.norm(p - q, axis=1), (p + q) / 2.0


def _corners_over(one: Points, two: Points) -> tuple[Points, Points]:
    """Each corner of one that lies over the inside of the other: distance and middle; inf elsewhere."""
    points = np.concatenate([one[:, k] for k in range(3)])
    a, b, c = (np.tile(two[:, k], (3, 1)) for k in range(3))
    normal = np.cross(b - a, c - a)
    size = np.linalg.norm(normal, axis=1)
    flat = size > 1e-12
    unit = normal / np.where(flat, size, 1.0)[:, None]
    height = _dots(points - a, unit)
    foot = points - height[:, None] * unit
    inside = flat
    for p, q in ((a, b), (b, c), (c, a)):
        inside = inside & (_dots(np.cross(q - p, foot - p), unit) >= 0.0)
    return np.where(inside, np.abs(height), np.inf), (points + foot) / 2.0


def _dots(a: Points, b: Points) -> Points:
    return np.asarray(np.einsum("ij,ij->i", a, b))


def _boxes_apart(a_low: Points, a_high: Points, b_low: Points, b_high: Points) -> Points:
    """How far boxes stand apart, 0 when they meet."""
    return np.asarray(np.linalg.norm(np.maximum(np.maximum(a_low - b_high, b_low - a_high), 0.0), axis=-1))


def _frame_along(along: Points | None) -> Points:
    """Three unit directions as columns, the first along a direction."""
    if along is None or not np.linalg.norm(along) > 1e-9:
        return np.eye(3)
    first = along / np.linalg.norm(along)
    second = np.cross(first, np.eye(3)[int(np.argmin(np.abs(first)))])
    second /= np.linalg.norm(second)
    return np.stack([first, second, np.cross(first, second)], axis=1)


def _along_a_curve(points: Points) -> npt.NDArray[np.int64]:
    """The order of points along a curve that fills their box (Morton's), so that neighbours stand together."""
    low, size = points.min(axis=0), np.maximum(np.ptp(points, axis=0), 1e-9)
    cells = np.minimum(((points - low) / size.max() * 1024.0).astype(np.int64), 1023)
    keys = np.zeros(len(points), dtype=np.int64)
    for bit in range(10):
        for axis in range(3):
            keys |= ((cells[:, axis] >> bit) & 1) << (3 * bit + axis)
    return np.argsort(keys, kind="stable")
