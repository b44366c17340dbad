"""The readings as equations in the corners' coordinates: how far each is off, and how that changes.

Everything is divided by the readings' standard errors, so that an equation's misfit is in standard errors.
Numpy is loaded when first used.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from model3d.survey.readings import AngleReading, LengthReading, Reading

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Whole = NDArray[np.int_]


def computed(points: Floats, reading: Reading) -> float:
    """What the reading would be between corners at ``points`` (n x 2, mm): mm, or degrees within half a turn of it."""
    if isinstance(reading, LengthReading):
        return math.dist(points[reading.first], points[reading.second])
    back, toward = (_bearing(points, reading.corner, there) for there in (reading.back, reading.toward))
    turn = math.degrees(back - toward)
    return reading.value_deg + (turn - reading.value_deg + 180.0) % 360.0 - 180.0


def misfits(points: Floats, readings: Sequence[Reading]) -> Floats:
    """(computed - read) / sigma of each reading."""
    import numpy as np

    return np.array([(computed(points, r) - r.value) / r.sigma for r in readings])


def slopes(points: Floats, readings: Sequence[Reading]) -> Floats:
    """The derivatives of the misfits by the coordinates x0, y0, x1, y1, ...; readings x 2n."""
    import numpy as np

    found = np.zeros((len(readings), 2 * len(points)))
    for row, reading in zip(found, readings, strict=True):
        if isinstance(reading, LengthReading):
            _add_length(row, points, reading)
        else:
            per_sigma = math.degrees(1.0) / reading.sigma_deg
            _add_bearing(row, points, reading, reading.back, per_sigma)
            _add_bearing(row, points, reading, reading.toward, -per_sigma)
    return found


def _bearing(points: Floats, here: int, there: int) -> float:
    dx, dy = points[there] - points[here]
    return math.atan2(dy, dx)


def _add_length(row: Floats, points: Floats, reading: LengthReading) -> None:
    way = points[reading.second] - points[reading.first]
    unit = way / (math.hypot(*way) * reading.sigma_mm)
    row[2 * reading.second : 2 * reading.second + 2] += unit
    row[2 * reading.first : 2 * reading.first + 2] -= unit


def _add_bearing(row: Floats, points: Floats, reading: AngleReading, there: int, factor: float) -> None:
    dx, dy = points[there] - points[reading.corner]
    square = dx * dx + dy * dy
    for place, by_x, by_y in ((there, -dy / square, dx / square), (reading.corner, dy / square, -dx / square)):
        row[2 * place] += factor * by_x
        row[2 * place + 1] += factor * by_y
