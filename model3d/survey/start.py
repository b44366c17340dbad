"""Corners roughly right, to start an adjustment from: a traverse by the sketch's turns, closed."""

from __future__ import annotations

import math
from collections.abc import Sequence

from model3d.geometry.placement import Vec2

_READ_MM = 20.0  # how far a wall's length may be moved to close the sketch, against
_UNREAD_MM = 5000.0  # one that was not read
_USUAL_MM = 2500.0


def sketched(lengths_mm: Sequence[float | None], turns_deg: Sequence[float]) -> list[Vec2]:
    """Corners from wall lengths (None: not read) and the turn at each wall's end, the first wall along x.

    Whatever the turns lack of a whole turn is shared among them, and the lengths are moved, those not read most, so
    that the walls close.
    """
    import numpy as np

    count = len(lengths_mm)
    share = (360.0 - sum(turns_deg)) / count
    headings = [math.radians(sum(turns_deg[:i]) + i * share) for i in range(count)]
    ways = np.array([[math.cos(h), math.sin(h)] for h in headings]).T
    lengths = np.array([_USUAL_MM if length is None else length for length in lengths_mm])
    freedom = np.array([_UNREAD_MM if length is None else _READ_MM for length in lengths_mm]) ** 2
    normal = (ways * freedom) @ ways.T
    lengths = lengths - freedom * (ways.T @ np.linalg.lstsq(normal, ways @ lengths, rcond=None)[0])
    steps = (ways * lengths).T
    corners = np.vstack([np.zeros(2), np.cumsum(steps, axis=0)[:-1]])
    return [(float(x), float(y)) for x, y in corners]
