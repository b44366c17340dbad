"""Where labels and close-ups go: clear of one another, in the panel, over as little of the work as can be."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import permutations

import numpy as np
import numpy.typing as npt

from model3d.pictures.paper import FINE_PX, Box, Paper, Px, crossing
from model3d.pictures.sight import NOTHING, IdMap
from model3d.pictures.solids import PlacedMesh

CELL_PX = 4
Floats = npt.NDArray[np.float64]
_WEIGHTS: Mapping[str, float] = {
    "room-floor": 0.02,
    "room-wall": 0.03,
    "room-fixture": 0.2,
    "fitted": 1.2,
    "bracket": 1.0,
    "obstacle": 1.5,
    "ghost": 0.6,
}
_STRONG = 10.0
_TAKEN = 80.0
_STEP_PX = 12
_BATCH = 128
_LEADER_SAMPLES = 96
_FAR_WORTH = 0.5
_CROSSED = 6000.0
_ABOUT_PX = 280.0
_ORDERED_PX = 60.0
_REACH_PX = (34.0, 52.0, 76.0, 104.0, 140.0, 190.0, 240.0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Worth:
    """How much it costs to cover each cell of the panel; cells are ``CELL_PX`` pixels wide."""

    cells: npt.NDArray[np.float64]
    panel: Box

    def under(self, place: Box) -> float:
        """Worth of the cells under a rectangle."""
        rows, columns = self.cells_at(np.array([place.left, place.right]), np.array([place.top, place.bottom]))
        return float(self.cells[rows[0] : rows[1] + 1, columns[0] : columns[1] + 1].sum())

    def with_round(self, inner: Worth, centre: Px, radius: float) -> Worth:
        """The same with a round close-up's own worth where it lies."""
        high, wide = self.cells.shape
        x = self.panel.left + (np.arange(wide) + 0.5) * CELL_PX
        y = self.panel.top + (np.arange(high) + 0.5) * CELL_PX
        columns, rows = np.meshgrid(x, y)
        own_rows, own_columns = inner.cells_at(columns, rows)
        inside = np.hypot(columns - centre[0], rows - centre[1]) < radius
        return Worth(cells=np.where(inside, inner.cells[own_rows, own_columns], self.cells), panel=self.panel)

    def along(self, start: Px, end: Px) -> float:
        """Worth of the cells a line runs over."""
        count = max(2, int(math.dist(start, end) / CELL_PX))
        rows, columns = self.cells_at(np.linspace(start[0], end[0], count), np.linspace(start[1], end[1], count))
        return float(self.cells[rows, columns].sum())

    def cells_at(self, x: Floats, y: Floats) -> tuple[npt.NDArray[np.int64], npt.NDArray[np.int64]]:
        """Rows and columns of the cells under page points; points outside count for the nearest cell."""
        high, wide = self.cells.shape
        rows = np.clip((y - self.panel.top) // CELL_PX, 0, high - 1).astype(np.int64)
        return rows, np.clip((x - self.panel.left) // CELL_PX, 0, wide - 1).astype(np.int64)


def worth_of(ids: IdMap, solids: Sequence[PlacedMesh], panel: Box) -> Worth:
    """What each cell of an id map is worth by the look that is seen there."""
    table = np.array([_WEIGHTS.get(solid.look, _STRONG) for solid in solids] + [0.0])
    return Worth(cells=table[np.where(ids == NOTHING, len(solids), ids)], panel=panel)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A joint in the main picture that wants a close-up: where it is, how large, and the size of the close-up's title,
    which hangs under its ring.
    """

    at: Px
    radius: float
    title: tuple[float, float]


def place_insets(spots: Sequence[Spot], radius: float, worth: Worth, paper: Paper) -> tuple[tuple[Px, ...], float]:
    """Centres of the close-ups and the worth of what they cover; the order that covers least is taken.

    Close-ups stay inside the panel, apart from one another, off what is taken on ``paper``, from left to right as
    what they show; their leaders cross neither one another nor another close-up. The worth is endless where the panel
    cannot hold them.
    """
    if not spots:
        return (), 0.0
    cells = worth.cells + np.where(_coarse(paper, worth), _TAKEN, 0.0)
    covered = _covered(cells, radius)
    costs = [_cover_costs(k, spots, radius, worth, cells, covered) for k in range(len(spots))]
    if any(len(x) == 0 for x, _, _ in costs):
        return tuple(worth.panel.middle for _ in spots), math.inf
    best: tuple[dict[int, Px], float] = {}, math.inf
    for order in permutations(range(len(spots))):
        done: dict[int, Px] = {}
        total = 0.0
        for k in order:
            others = [(spots[j], done[j]) for j in done]
            done[k], cost = _best_centre(spots[k], radius, worth, paper, costs[k], others)
            total += cost
        if total < best[1]:
            best = done, total
    return tuple(best[0][k] for k in range(len(spots))), best[1]


def _covered(cells: Floats, radius: float) -> Floats:
    """What a ring about each cell covers."""
    high, wide = cells.shape
    reach = np.hypot(*np.meshgrid(np.arange(-wide, wide) * CELL_PX, np.arange(-high, high) * CELL_PX))
    disc = np.fft.rfft2(np.fft.ifftshift(reach <= radius + 6))
    padded = np.zeros((2 * high, 2 * wide))
    padded[:high, :wide] = cells
    return np.asarray(np.fft.irfft2(np.fft.rfft2(padded) * disc, s=padded.shape)[:high, :wide])


def _cover_costs(
    number: int, spots: Sequence[Spot], radius: float, worth: Worth, cells: Floats, covered: Floats
) -> tuple[Floats, Floats, Floats]:
    """Candidate centres (x and y, flat) and what each costs by what its ring and title cover, other spots among it, and
    its distance.
    """
    spot = spots[number]
    panel, edge, low = worth.panel, radius + 14, radius + spot.title[1]
    side = max(edge, spot.title[0] / 2 + 12)
    x, y = np.meshgrid(
        np.arange(panel.left + side, panel.right - side + 1, _STEP_PX),
        np.arange(panel.top + edge, panel.bottom - low + 1, _STEP_PX),
    )
    x, y = x.ravel(), y.ravel()
    rows, columns = worth.cells_at(x, y)
    sums = np.pad(cells.cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0)))
    left, top = x - spot.title[0] / 2, y + radius - 8
    top, left = worth.cells_at(left, top)
    bottom, right = worth.cells_at(x + spot.title[0] / 2, y + radius + spot.title[1] - 12)
    title = sums[bottom + 1, right + 1] - sums[top, right + 1] - sums[bottom + 1, left] + sums[top, left]
    far = np.hypot(x - spot.at[0], y - spot.at[1])
    beside = np.abs(x - spot.at[0]) < spot.title[0] / 2 + spot.radius + 8
    below = np.abs(y + radius + spot.title[1] / 2 - 12 - spot.at[1]) < spot.title[1] / 2 + spot.radius + 8
    own = np.where((far < radius + spot.radius + 26) | (beside & below), 1e5, 0.0)
    for other in (other for k, other in enumerate(spots) if k != number):
        own += np.where(np.hypot(x - other.at[0], y - other.at[1]) < radius + other.radius + 8, 1e4, 0.0)
        own += np.where(_under_title(spot, x, y, radius, other), 1e4, 0.0)
    return x, y, np.maximum(covered[rows, columns], 0.0) + title + own + _FAR_WORTH * np.maximum(far - radius, 0.0)


def _best_centre(
    spot: Spot,
    radius: float,
    worth: Worth,
    paper: Paper,
    costs: tuple[Floats, Floats, Floats],
    others: Sequence[tuple[Spot, Px]],
) -> tuple[Px, float]:
    """The cheapest centre once the other close-ups and the leaders count too."""
    x, y, cost = costs[0], costs[1], costs[2].copy()
    for other, centre in others:
        title = max(spot.title[1], other.title[1])
        wide = (spot.title[0] + other.title[0]) / 2 + 12
        stacked = (np.abs(x - centre[0]) < max(2 * radius, wide)) & (np.abs(y - centre[1]) < 2 * radius + title + 8)
        cost += np.where(stacked | (np.hypot(x - centre[0], y - centre[1]) < 2 * radius + 30), 1e6, 0.0)
        swapped = (x - centre[0]) * (spot.at[0] - other.at[0]) < 0
        cost += np.where(swapped & (abs(spot.at[0] - other.at[0]) > _ORDERED_PX), 4e3, 0.0)
    best: tuple[Px, float] = (worth.panel.middle, math.inf)
    order = np.argsort(cost, kind="stable")
    for start in range(0, len(order), _BATCH):
        batch = order[start : start + _BATCH]
        if cost[batch[0]] >= best[1]:
            break
        total = cost[batch] + _leader_costs(spot, x[batch], y[batch], radius, worth, paper)
        for other, centre in others:
            total += 3e3 * _crossed(spot.at, x[batch], y[batch], other.at, centre)
            total += 3e3 * (_from_line(centre, spot.at, x[batch], y[batch]) < radius + 10)
            total += 3e3 * (_to_line(x[batch], y[batch], other.at, centre) < radius + 10)
            total += 1e3 * (_from_line(other.at, spot.at, x[batch], y[batch]) < other.radius + 6)
            total += 1e3 * _through_titles(spot, (x[batch], y[batch]), radius, (other, centre))
        k = int(np.argmin(total))
        if total[k] < best[1]:
            best = (float(x[batch[k]]), float(y[batch[k]])), float(total[k])
    return best


def _under_title(spot: Spot, x: Floats, y: Floats, radius: float, other: Spot) -> npt.NDArray[np.bool_]:
    """At which centres the title hides the ring of another spot."""
    beside = np.abs(x - other.at[0]) < spot.title[0] / 2 + other.radius
    down = y + radius - 12 + spot.title[1] / 2
    return np.asarray(beside & (np.abs(down - other.at[1]) < spot.title[1] / 2 + other.radius))


def _through_titles(
    spot: Spot, centres: tuple[Floats, Floats], radius: float, other: tuple[Spot, Px]
) -> npt.NDArray[np.int64]:
    """How many points of the titles lie under a leader, for each of the centres: of its own, and of the other."""
    x, y = centres
    beside, centre = other
    found = np.zeros(len(x), dtype=np.int64)
    for share in (-0.5, -0.25, 0.0, 0.25, 0.5):
        place = centre[0] + share * beside.title[0], centre[1] + radius + beside.title[1] / 2 - 12
        found += _from_line(place, spot.at, x, y) < beside.title[1] / 2 + 4
        low = y + radius + spot.title[1] / 2 - 12
        found += _to_line(x + share * spot.title[0], low, beside.at, centre) < spot.title[1] / 2 + 4
    return found


def _from_line(point: Px, start: Px, x: Floats, y: Floats) -> Floats:
    """How far a point stands from the lines from ``start`` to each of the points."""
    dx, dy = x - start[0], y - start[1]
    share = ((point[0] - start[0]) * dx + (point[1] - start[1]) * dy) / np.maximum(dx**2 + dy**2, 1e-9)
    share = np.clip(share, 0.0, 1.0)
    return np.asarray(np.hypot(start[0] + share * dx - point[0], start[1] + share * dy - point[1]))


def _to_line(x: Floats, y: Floats, start: Px, end: Px) -> Floats:
    """How far each of the points stands from the line from ``start`` to ``end``."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    share = np.clip(((x - start[0]) * dx + (y - start[1]) * dy) / max(dx**2 + dy**2, 1e-9), 0.0, 1.0)
    return np.asarray(np.hypot(start[0] + share * dx - x, start[1] + share * dy - y))


def _leader_costs(spot: Spot, x: Floats, y: Floats, radius: float, worth: Worth, paper: Paper) -> Floats:
    """What the leaders to these centres run over, between the spot's rim and the ring."""
    far = np.maximum(np.hypot(x - spot.at[0], y - spot.at[1]), 1e-6)
    first, last = np.minimum(spot.radius / far, 1.0), np.maximum(1 - radius / far, 0.0)
    share = first[:, None] + np.linspace(0, 1, _LEADER_SAMPLES)[None, :] * (last - first)[:, None]
    along_x = spot.at[0] + share * (x - spot.at[0])[:, None]
    along_y = spot.at[1] + share * (y - spot.at[1])[:, None]
    length = np.abs(last - first) * far
    rows, columns = worth.cells_at(along_x, along_y)
    high, wide = paper.taken.shape
    fine_rows = np.clip(along_y // FINE_PX, 0, high - 1).astype(np.int64)
    fine_columns = np.clip(along_x // FINE_PX, 0, wide - 1).astype(np.int64)
    work = 2.0 * worth.cells[rows, columns].mean(axis=1) / CELL_PX
    marks = 30.0 * paper.taken[fine_rows, fine_columns].mean(axis=1)
    return np.asarray((work + marks) * length)


def _crossed(at: Px, x: Floats, y: Floats, start: Px, end: Px) -> npt.NDArray[np.bool_]:
    """Which of the lines from ``at`` to the points cross the line from ``start`` to ``end``."""

    def side(px: Floats, py: Floats, qx: Floats, qy: Floats, rx: Floats, ry: Floats) -> Floats:
        return (qx - px) * (ry - py) - (qy - py) * (rx - px)

    one, two, three = (np.full_like(x, v) for v in (at[0], start[0], end[0]))
    one_y, two_y, three_y = (np.full_like(y, v) for v in (at[1], start[1], end[1]))
    apart = side(one, one_y, x, y, two, two_y) * side(one, one_y, x, y, three, three_y)
    over = side(two, two_y, three, three_y, one, one_y) * side(two, two_y, three, three_y, x, y)
    return np.asarray((apart <= 0) & (over <= 0))


def between(start: Px, end: Px, off_start: float, off_end: float) -> tuple[Px, Px]:
    """The part of a line outside a circle at either end."""
    far = max(math.dist(start, end), 1e-6)
    a, b = min(off_start / far, 1.0), max(1 - off_end / far, 0.0)
    dx, dy = end[0] - start[0], end[1] - start[1]
    return (start[0] + a * dx, start[1] + a * dy), (start[0] + b * dx, start[1] + b * dy)


def _coarse(paper: Paper, worth: Worth) -> npt.NDArray[np.bool_]:
    """What is taken, in the cells of the panel."""
    rows = (worth.panel.top + (np.arange(worth.cells.shape[0]) + 0.5) * CELL_PX) // FINE_PX
    columns = (worth.panel.left + (np.arange(worth.cells.shape[1]) + 0.5) * CELL_PX) // FINE_PX
    high, wide = paper.taken.shape
    near = np.ix_(np.clip(rows, 0, high - 1).astype(np.int64), np.clip(columns, 0, wide - 1).astype(np.int64))
    return np.asarray(paper.taken[near])


def place_label(
    size: tuple[float, float],
    tip: Px,
    worth: Worth,
    paper: Paper,
    lines: Sequence[tuple[Px, Px]] = (),
    reach: tuple[float, ...] = _REACH_PX,
) -> Box:
    """A free rectangle for a label near ``tip``: in rings round it first, then anywhere in the panel.

    Never over what is taken on ``paper``; of the free places, the one that covers and crosses the least, near
    the tip; its leader crosses one of the ``lines`` only where it cannot be helped. Raises ValueError when there is no
    free place at all.
    """
    best: tuple[float, Box] | None = None
    for candidates in (_round(size, tip, reach), _everywhere(size, worth.panel)):
        found = _priced(candidates, size, tip, worth, paper, lines)
        best = min((best, *found) if best is not None else found, key=lambda each: each[0], default=None)
        if best is not None and best[0] < _CROSSED:
            break
    if best is None:
        raise ValueError(f"no free place for a label of {size[0]:.0f} x {size[1]:.0f} pixels")
    return best[1]


def label_places(
    size: tuple[float, float],
    tip: Px,
    worth: Worth,
    paper: Paper,
    lines: Sequence[tuple[Px, Px]] = (),
    fine: bool = False,
) -> list[tuple[float, Box]]:
    """Free rectangles for a label in rings round ``tip``, or, ``fine``, on a grid about it, each with its cost, the
    cheapest first; none whose leader crosses one of the ``lines``.
    """
    candidates = _about(size, tip) if fine else _round(size, tip, _REACH_PX)
    found = _priced(candidates, size, tip, worth, paper, lines)
    return sorted(((cost, box) for cost, box in found if cost < _CROSSED), key=lambda each: each[0])


def _priced(
    candidates: Iterable[Box],
    size: tuple[float, float],
    tip: Px,
    worth: Worth,
    paper: Paper,
    lines: Sequence[tuple[Px, Px]],
) -> list[tuple[float, Box]]:
    """The free ones of some rectangles, each with what it and its leader cover and cross, and how far off it is."""
    found = []
    for option in candidates:
        if not paper.free(option.grown(4.0)):
            continue
        far = math.dist(option.middle, tip)
        leader = between(option.middle, tip, _to_rim(size, option.middle, tip) + 6, 18.0)
        cost = 0.35 * (far - min(size) / 2) + worth.under(option) + 0.5 * worth.along(*leader)
        cost += 60.0 * paper.along_px(*leader)
        cost += _CROSSED * sum(crossing((option.middle, tip), line) for line in lines)
        found.append((cost, option))
    return found


def _to_rim(size: tuple[float, float], middle: Px, tip: Px) -> float:
    """From a rectangle's middle to its rim, on the way to ``tip``."""
    dx, dy, far = abs(tip[0] - middle[0]), abs(tip[1] - middle[1]), math.dist(middle, tip)
    return min(far * size[0] / 2 / max(dx, 1e-9), far * size[1] / 2 / max(dy, 1e-9))


def _round(size: tuple[float, float], tip: Px, reach: tuple[float, ...]) -> Iterator[Box]:
    for far in reach:
        for k in range(24):
            angle = math.radians(15 * k)
            ex, ey = math.cos(angle), math.sin(angle)
            hug = min(size[0] / 2 / max(abs(ex), 1e-9), size[1] / 2 / max(abs(ey), 1e-9))
            x, y = tip[0] + ex * (far + hug), tip[1] + ey * (far + hug)
            yield Box(left=x - size[0] / 2, top=y - size[1] / 2, width=size[0], height=size[1])


def _about(size: tuple[float, float], tip: Px) -> Iterator[Box]:
    reach = np.arange(-_ABOUT_PX, _ABOUT_PX + 1.0, 10.0)
    for x in reach:
        for y in reach:
            left, top = tip[0] + float(x) - size[0] / 2, tip[1] + float(y) - size[1] / 2
            yield Box(left=left, top=top, width=size[0], height=size[1])


def _everywhere(size: tuple[float, float], panel: Box) -> Iterator[Box]:
    for left in np.arange(panel.left + 8, panel.right - size[0] - 8, 12):
        for top in np.arange(panel.top + 8, panel.bottom - size[1] - 8, 12):
            yield Box(left=float(left), top=float(top), width=size[0], height=size[1])
