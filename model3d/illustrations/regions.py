"""What an id map tells: the point of a part that lies deepest inside what is seen of it, and outlines of what is
seen.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.ndimage import distance_transform_edt

from model3d.illustrations.camera import Window
from model3d.illustrations.joining import simplified
from model3d.illustrations.sheet import Mm

Mask = npt.NDArray[np.bool_]
_STAIR = 0.75  # of a cell: what tracing cells leaves of a slanting line's steps


@dataclass(frozen=True, slots=True, kw_only=True)
class Deepest:
    """The point of what is seen of a part that lies furthest from its rim, and how far, page mm."""

    at: Mm
    depth_mm: float


def deepest(mask: Mask, window: Window, per_mm: float) -> Deepest | None:
    """The deepest point of a mask over a window; None when it is empty."""
    if not mask.any():
        return None
    far = distance_transform_edt(np.pad(mask, 1))[1:-1, 1:-1]
    row, column = np.unravel_index(int(far.argmax()), far.shape)
    at = (window.left + (float(column) + 0.5) / per_mm, window.top + (float(row) + 0.5) / per_mm)
    return Deepest(at=at, depth_mm=float(far[row, column]) / per_mm)


def outlines(mask: Mask, window: Window, per_mm: float) -> tuple[tuple[Mm, ...], ...]:
    """Closed outlines of the regions of a mask and of their holes, smoothed by less than a cell."""
    found = []
    for loop in _loops(mask):
        half = len(loop) // 2
        if len(loop) < 6:
            continue
        corners = np.array(loop, dtype=float)
        line = np.vstack([simplified(corners[: half + 1], _STAIR)[:-1], simplified(corners[half:], _STAIR)])
        if len(line) > 3:
            found.append(tuple((window.left + x / per_mm, window.top + y / per_mm) for x, y in line[:-1].tolist()))
    return tuple(found)


def _loops(mask: Mask) -> list[list[tuple[int, int]]]:
    """The rims of a mask's cells as closed walks over grid points (first point again at the end)."""
    full = np.pad(mask, 1)
    steps: dict[tuple[int, int], list[tuple[int, int]]] = defaultdict(list)
    rows, columns = np.nonzero(full)
    for (dr, dc), (a, b) in {
        (-1, 0): ((0, 0), (1, 0)),
        (0, 1): ((1, 0), (1, 1)),
        (1, 0): ((1, 1), (0, 1)),
        (0, -1): ((0, 1), (0, 0)),
    }.items():  # a neighbour's place; the side toward it, with the cell on the right
        rim = ~full[rows + dr, columns + dc]
        for r, c in zip((rows[rim] - 1).tolist(), (columns[rim] - 1).tolist(), strict=True):
            steps[(c + a[0], r + a[1])].append((c + b[0], r + b[1]))
    found = []
    for start in sorted(steps):
        while steps[start]:
            loop = [start, steps[start].pop()]
            while loop[-1] != start:
                loop.append(_next(loop, steps))
            found.append(loop)
    return found


def _next(loop: list[tuple[int, int]], steps: dict[tuple[int, int], list[tuple[int, int]]]) -> tuple[int, int]:
    """The step that goes on; where two cells touch at a corner, the one that stays with the same cell."""
    here, before = loop[-1], loop[-2]
    ways = steps[here]
    if len(ways) > 1:
        x, y = here[0] - before[0], here[1] - before[1]
        ways.sort(key=lambda w: x * (w[1] - here[1]) - y * (w[0] - here[0]))
    return ways.pop()
