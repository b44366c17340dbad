"""Where labels and insets go: clear of one another, inside the panel, over as little of the work as can be.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import permutations

import numpy as np
import numpy.typing as npt
from shapely.geometry import LineString, Point
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from model3d.pictures.page import Box, Px
from model3d.pictures.sight import NOTHING, IdMap
from model3d.pictures.solids import PlacedMesh

CELL_PX = 4
_WEIGHTS: Mapping[str, float] = {
    "room-floor": 0.02, "room-wall": 0.03, "room-fixture": 0.2, "fitted": 1.2, "bracket": 1.0, "obstacle": 1.5,
    "ghost": 0.6,
}
_STRONG = 10.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Worth:
    """How much it costs to cover each cell of the panel; cells are ``CELL_PX`` pixels wide."""

    cells: npt.NDArray[np.float64]
    panel: Box

    def under(self, shape_box: Box, mask: npt.NDArray[np.bool_] | None = None) -> float:
        """Worth of the cells under a rectangle, or under a mask of its cells."""
        top, left = self._cell(shape_box.top - self.panel.top), self._cell(shape_box.left - self.panel.left)
        bottom = self._cell(shape_box.bottom - self.panel.top)
        right = self._cell(shape_box.right - self.panel.left)
        part = self.cells[max(top, 0):max(bottom, 0), max(left, 0):max(right, 0)]
        if mask is None:
            return float(part.sum())
        rows, columns = min(part.shape[0], mask.shape[0]), min(part.shape[1], mask.shape[1])
        return float(part[:rows, :columns][mask[:rows, :columns]].sum())

    def along(self, line: LineString) -> float:
        """Worth of the cells a line runs over."""
        count = max(2, int(line.length / CELL_PX))
        spots = [line.interpolate(k / (count - 1), normalized=True) for k in range(count)]
        rows = [min(max(self._cell(p.y - self.panel.top), 0), self.cells.shape[0] - 1) for p in spots]
        columns = [min(max(self._cell(p.x - self.panel.left), 0), self.cells.shape[1] - 1) for p in spots]
        return float(self.cells[rows, columns].sum())

    @staticmethod
    def _cell(pixels: float) -> int:
        return int(pixels // CELL_PX)


def worth_of(ids: IdMap, solids: Sequence[PlacedMesh], panel: Box) -> Worth:
    """What each cell of an id map is worth by the look that is seen there."""
    table = np.array([_WEIGHTS.get(solid.look, _STRONG) for solid in solids] + [0.0])
    return Worth(cells=table[np.where(ids == NOTHING, len(solids), ids)], panel=panel)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A joint in the main picture that wants a close-up: where it is, how large, and the size of the close-
    up's title.
    """

    at: Px
    radius: float
    title: tuple[float, float]


def place_insets(
    spots: Sequence[Spot], radius: float, worth: Worth, taken: Sequence[BaseGeometry]
) -> tuple[tuple[Px, ...], float]:
    """Centres of the close-ups and the worth of what they cover; the order that covers least is taken.

    Close-ups stay inside the panel, apart from one another, off ``taken``, and their leaders do not cross.
    """
    best: tuple[dict[int, Px], float] = {}, math.inf
    for order in permutations(range(len(spots))):
        done: dict[int, Px] = {}
        total = 0.0
        for k in order:
            centre, cost = _best_centre(spots[k], radius, worth, taken, [(spots[j], done[j]) for j in done])
            done[k] = centre
            total += cost
        if total < best[1]:
            best = done, total
    return tuple(best[0][k] for k in range(len(spots))), best[1] if spots else 0.0


def _best_centre(
    spot: Spot, radius: float, worth: Worth, taken: Sequence[BaseGeometry], others: Sequence[tuple[Spot, Px]]
) -> tuple[Px, float]:
    panel, edge = worth.panel, radius + 14
    low = radius + 14 + spot.title[1] / 2
    busy = unary_union([*taken, *(Point(s.at).buffer(s.radius + 8) for s, _ in others)])
    leaders = [LineString([s.at, c]) for s, c in others]
    span = int(2 * radius // CELL_PX) + 1
    ring = (np.indices((span, span)) - span / 2 + 0.5) * CELL_PX
    mask = np.hypot(ring[0], ring[1]) <= radius
    best: tuple[Px, float] = (panel.middle, math.inf)
    for x in np.arange(panel.left + edge, panel.right - edge + 1, 16):
        for y in np.arange(panel.top + edge, panel.bottom - low + 1, 16):
            cost = 0.02 * max(0.0, math.hypot(x - spot.at[0], y - spot.at[1]) - radius)
            if math.hypot(x - spot.at[0], y - spot.at[1]) < radius + spot.radius + 26:
                cost += 1e5
            cost += 1e6 * sum(math.hypot(x - c[0], y - c[1]) < 2 * radius + 30 for _, c in others)
            if cost < best[1]:
                cost += worth.under(Box(left=x - radius, top=y - radius, width=2 * radius, height=2 * radius), mask)
                cost += worth.under(
                    Box(left=x - spot.title[0] / 2, top=y + radius, width=spot.title[0], height=spot.title[1] / 2))
            if cost < best[1]:
                leader = LineString([spot.at, (x, y)])
                cost += 3e3 * sum(leader.intersects(other) for other in leaders)
                cost += 2.0 * worth.along(_shortened(leader, spot.radius, radius))
                cost += 5.0 * float(Point(x, y).buffer(radius + 8).intersection(busy).area)
                cost += 30.0 * float(leader.intersection(busy).length)
            if cost < best[1]:
                best = (float(x), float(y)), cost
    return best


def _shortened(line: LineString, start: float, end: float) -> LineString:
    long = max(line.length, 1e-6)
    return LineString([line.interpolate(min(start, long)), line.interpolate(max(long - end, 0.0))])


def place_label(
    size: tuple[float, float], tip: Px, worth: Worth, taken: Sequence[BaseGeometry], inside: BaseGeometry,
    reach: tuple[float, ...] = (34.0, 52.0, 76.0, 104.0, 140.0, 190.0),
) -> Box:
    """A free rectangle for a label near ``tip``: nearest ring first, then anywhere in ``inside``.

    Never over ``taken``; of the free places, the one that covers and crosses the least, near the tip. Raises
    ValueError when there is no free place at all.
    """
    busy = unary_union([shape.buffer(4) for shape in taken])
    for candidates in (_round(size, tip, reach), _everywhere(size, worth.panel)):
        best: tuple[float, Box] | None = None
        for option in candidates:
            shape = option.shape()
            if not inside.contains(shape) or shape.intersects(busy):
                continue
            leader = LineString([option.middle, tip])
            far = leader.length - min(size) / 2
            cost = 0.35 * far + worth.under(option) + 0.5 * worth.along(leader)
            cost += 60.0 * float(leader.difference(shape).intersection(busy).length)
            if best is None or cost < best[0]:
                best = cost, option
        if best is not None:
            return best[1]
    raise ValueError(f"no free place for a label of {size[0]:.0f} x {size[1]:.0f} pixels")


def _round(size: tuple[float, float], tip: Px, reach: tuple[float, ...]) -> Iterator[Box]:
    for far in reach:
        for k in range(24):
            angle = math.radians(15 * k)
            ex, ey = math.cos(angle), math.sin(angle)
            hug = min(size[0] / 2 / max(abs(ex), 1e-9), size[1] / 2 / max(abs(ey), 1e-9))
            x, y = tip[0] + ex * (far + hug), tip[1] + ey * (far + hug)
            yield Box(left=x - size[0] / 2, top=y - size[1] / 2, width=size[0], height=size[1])


def _everywhere(size: tuple[float, float], panel: Box) -> Iterator[Box]:
    for left in np.arange(panel.left + 8, panel.right - size[0] - 8, 12):
        for top in np.arange(panel.top + 8, panel.bottom - size[1] - 8, 12):
            yield Box(left=float(left), top=float(top), width=size[0], height=size[1])
