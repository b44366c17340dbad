"""Polylines on a page joined end to end, and thinned out to the points that shape them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from model3d.illustrations.camera import Points

MEET_MM = 0.03
STRAY_MM = 0.012  # a point nearer than this to the line without it is left out


def joined(lines: Sequence[Points]) -> list[Points]:
    """The (n, 2) polylines, those whose ends meet (and no third one there) made into one."""
    left = dict(enumerate(lines))
    ends: dict[tuple[int, int], list[int]] = defaultdict(list)
    for k, line in left.items():
        for point in (line[0], line[-1]):
            ends[_cell(point)].append(k)
    found = []
    for start in range(len(lines)):
        if start in left:
            line = _grown(left.pop(start), left, ends)
            found.append(_grown(line[::-1], left, ends)[::-1])
    return found


def _grown(line: Points, left: dict[int, Points], ends: dict[tuple[int, int], list[int]]) -> Points:
    """The line with what goes on from its end taken out of ``left`` and put on."""
    while True:
        here = ends[_cell(line[-1])]
        others = [k for k in here if k in left]
        if len(here) != 2 or len(others) != 1:
            return line
        more = left.pop(others[0])
        if _cell(more[0]) != _cell(line[-1]):
            more = more[::-1]
        line = np.vstack([line, more[1:]])


def _cell(point: Points) -> tuple[int, int]:
    return round(float(point[0]) / MEET_MM), round(float(point[1]) / MEET_MM)


def simplified(line: Points, stray_mm: float = STRAY_MM) -> Points:
    """The (n, 2) polyline with as few of its points as keep all others within ``stray_mm`` (Ramer, Douglas and
    Peucker).
    """
    keep = np.zeros(len(line), dtype=bool)
    keep[[0, -1]] = True
    todo = [(0, len(line) - 1)]
    while todo:
        first, last = todo.pop()
        if last - first < 2:
            continue
        off = _off(line[first + 1 : last], line[first], line[last])
        k = int(off.argmax())
        if off[k] > stray_mm:
            keep[first + 1 + k] = True
            todo += [(first, first + 1 + k), (first + 1 + k, last)]
    return line[keep]


def _off(points: Points, a: Points, b: Points) -> npt.NDArray[np.float64]:
    """Distances of points from the stretch a to b."""
    way = b - a
    size = float(way @ way)
    share = np.clip((points - a) @ way / size, 0.0, 1.0) if size > 1e-18 else np.zeros(len(points))
    return np.asarray(np.linalg.norm(points - a - share[:, None] * way, axis=1))
