"""Where the words of a bench picture stand: in rows above and below the parts, with leaders that do not cross."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from model3d.geometry.placement import Vec3
from model3d.pictures.paper import Box, Mask, Px, crossing, from_line_px, within
from model3d.pictures.sight import NOTHING, RayScene
from model3d.pictures.solids import PlacedMesh
from model3d.pictures.stage import Camera
from model3d.pictures.views import project

GAP_PX = 14.0
_CROSSED = 1e5
_HIDDEN = 3e5
_TOUCHED = 5e4
DOT_PX = 8.0  # a leader's dot and what must stay clear round it
_SPILT = 1e6
_RIM_PX = 8.0  # a dot goes so much further off for each cell that it stands further inside


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """A label's box and the end of its leader on that box."""

    box: Box
    foot: Px


class SeenMap:
    """What is seen where on a picture, on a map of half its size."""

    def __init__(self, solids: Sequence[PlacedMesh], camera: Camera, size_px: tuple[int, int]) -> None:
        self._scene, self._camera = RayScene(solids), camera
        self._half = size_px[0] // 2, size_px[1] // 2
        self._ids = self._scene.id_map(camera, self._half)

    def point(self, on: Sequence[str], at_mm: Vec3) -> Px | None:
        """The pixel of what is seen of the solids ``on`` that lies nearest to ``at_mm``, a little inside where that is
        not much further off; None where nothing of them is seen.
        """
        own = np.isin(self._ids, self._scene.numbers(on)) & (self._ids != NOTHING)
        x, y, _ = project(self._camera, np.array([at_mm]), *self._half)[0]
        best: tuple[float, Px] | None = None
        for outward, inside in enumerate((_shrunk(_shrunk(own)), _shrunk(own), own)):
            rows, columns = np.nonzero(inside)
            if len(rows):
                away = np.hypot(columns + 0.5 - x, rows + 0.5 - y)
                k = int(np.argmin(away))
                cost = 2.0 * float(away[k]) + _RIM_PX * outward
                if best is None or cost < best[0]:
                    best = cost, (2 * (float(columns[k]) + 0.5), 2 * (float(rows[k]) + 0.5))
        return best[1] if best is not None else None

    def is_on(self, on: Sequence[str], at: Px, near_px: float) -> bool:
        """Whether any of the solids ``on`` is seen within so many pixels of a pixel."""
        own = np.isin(self._ids, self._scene.numbers(on)) & (self._ids != NOTHING)
        rows, columns = np.nonzero(own)
        return bool(np.any(np.hypot(2 * columns + 1.0 - at[0], 2 * rows + 1.0 - at[1]) <= near_px))


def _shrunk(mask: Mask) -> Mask:
    """The mask less its rim of one cell."""
    kept = mask.copy()
    kept[1:] &= mask[:-1]
    kept[:-1] &= mask[1:]
    kept[:, 1:] &= mask[:, :-1]
    kept[:, :-1] &= mask[:, 1:]
    return kept


def seated(sizes: Sequence[tuple[float, float]], tips: Sequence[Px], frame: Box) -> list[Seat]:
    """A seat for each label: in a row along the frame's top or bottom, so that leaders are short and do not cross.

    All divisions and orders are tried; there are at most five labels a picture.
    """
    best: tuple[float, list[Seat]] | None = None
    for rows in itertools.product((0, 1), repeat=len(sizes)):
        for orders in itertools.product(*(_orders(rows, row) for row in (0, 1))):
            seats = _row_seats(sizes, tips, frame, orders)
            cost = _cost(seats, tips, frame)
            if best is None or cost < best[0]:
                best = cost, seats
    return best[1] if best is not None else []


def _orders(rows: Sequence[int], row: int) -> list[tuple[int, ...]]:
    return list(itertools.permutations([k for k, r in enumerate(rows) if r == row]))


def _row_seats(
    sizes: Sequence[tuple[float, float]], tips: Sequence[Px], frame: Box, orders: Sequence[Sequence[int]]
) -> list[Seat]:
    seats: dict[int, Seat] = {}
    for row, order in enumerate(orders):
        wide = sum(sizes[k][0] for k in order) + GAP_PX * max(len(order) - 1, 0)
        least = frame.left
        for place, k in enumerate(order):
            width, height = sizes[k]
            rest = sum(sizes[j][0] + GAP_PX for j in order[place + 1 :])
            left = min(max(tips[k][0] - width / 2, least), frame.right - width - rest)
            left = max(left, least) if wide <= frame.width else left
            top = frame.top if row == 0 else frame.bottom - height
            box = Box(left=left, top=top, width=width, height=height)
            foot_x = min(max(tips[k][0], left + 16), left + width - 16)
            seats[k] = Seat(box=box, foot=(foot_x, box.bottom if row == 0 else box.top))
            least = left + width + GAP_PX
    return [seats[k] for k in range(len(sizes))]


def _cost(seats: Sequence[Seat], tips: Sequence[Px], frame: Box) -> float:
    lines = [(seat.foot, tip) for seat, tip in zip(seats, tips, strict=True)]
    cost = sum(math.dist(*line) for line in lines)
    cost += sum(_CROSSED for one, other in itertools.combinations(lines, 2) if crossing(one, other))
    pairs = [(line, tip) for line, tip in itertools.product(lines, tips) if line[1] != tip]
    cost += sum(_TOUCHED for line, tip in pairs if from_line_px(tip, line) < DOT_PX)
    cost += sum(_HIDDEN for seat, tip in itertools.product(seats, tips) if within(tip, seat.box))
    for seat in seats:
        cost += _SPILT * max(frame.left - seat.box.left, 0.0) + _SPILT * max(seat.box.right - frame.right, 0.0)
    for one, other in itertools.combinations(seats, 2):
        across = min(one.box.right, other.box.right) - max(one.box.left, other.box.left)
        if one.box.top == other.box.top and across > 0:
            cost += _SPILT * across
    return cost

