"""Least squares adjustment of a network of readings.

Gauss-Newton on the observation equations, from a trust-region solution; the theory is that of any textbook of
adjustment computations. SciPy and numpy are loaded when first used.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from model3d.geometry.placement import Vec2
from model3d.survey.network import misfits, slopes
from model3d.survey.readings import Reading

if TYPE_CHECKING:
    from model3d.survey.network import Floats, Whole

HELD = frozenset({0, 1, 3})  # the first corner, and the second one's y: the room's frame
_MOST_STEPS = 20
_SINGULAR = 1e-7  # of the greatest singular value: the equations leave a corner free to move


class NotFixed(ValueError):
    """The readings do not fix every corner; ``corners`` are the numbers of those that can still move."""

    def __init__(self, corners: tuple[int, ...]) -> None:
        self.corners = corners
        super().__init__(f"the readings leave corners {corners} free to move")


@dataclass(frozen=True, slots=True, kw_only=True)
class Adjustment:
    """An adjusted network, as arrays: ``points`` (n x 2, mm), the covariance of all 2n coordinates (0 for those
    held), misfits in standard errors and the cofactors of the misfits (readings x readings; its diagonal is each
    reading's redundancy number).
    """

    points: Floats
    covariance: Floats
    misfit: Floats
    cofactor: Floats
    redundancy: int

    @property
    def squares(self) -> float:
        """Sum of squared misfits, v'Pv."""
        return float(self.misfit @ self.misfit)


def adjust(start: Sequence[Vec2], readings: Sequence[Reading], held: frozenset[int] = HELD) -> Adjustment:
    """The corners that fit the readings best, from corners roughly right.

    ``held`` are the coordinates (0 is x of corner 0, 1 its y, 2 x of corner 1, ...) that stay as they are: by default
    the first corner, and the second one's y. Raises NotFixed when the readings do not fix the others.
    """
    import numpy as np
    from scipy.optimize import least_squares

    points = np.array(start, dtype=float)
    free = np.array([i for i in range(points.size) if i not in held], dtype=int)

    def placed(unknown: Floats) -> Floats:
        flat = points.reshape(-1).copy()
        flat[free] = unknown
        return flat.reshape(-1, 2)

    _refuse_unfixed(slopes(points, readings)[:, free], free)
    solved = least_squares(
        lambda u: misfits(placed(u), readings),
        points.reshape(-1)[free],
        jac=lambda u: slopes(placed(u), readings)[:, free],
        x_scale="jac",
        xtol=1e-10,
        ftol=1e-10,
        gtol=None,
    )
    unknown = solved.x
    for _ in range(_MOST_STEPS):
        off = misfits(placed(unknown), readings)
        step = np.linalg.lstsq(slopes(placed(unknown), readings)[:, free], -off, rcond=None)[0]
        after = misfits(placed(unknown + step), readings)
        if after @ after > off @ off + 1e-9:
            break
        unknown = unknown + step
        if np.max(np.abs(step), initial=0.0) < 1e-9:
            break
    return _judged(placed(unknown), readings, free)


def _judged(points: Floats, readings: Sequence[Reading], free: Whole) -> Adjustment:
    import numpy as np

    left, sizes, right = np.linalg.svd(slopes(points, readings)[:, free], full_matrices=False)
    sizes = np.maximum(sizes, _SINGULAR * sizes.max(initial=1.0))
    inner = (right.T / sizes**2) @ right
    covariance = np.zeros((points.size, points.size))
    covariance[np.ix_(free, free)] = inner
    return Adjustment(
        points=points,
        covariance=covariance,
        misfit=misfits(points, readings),
        cofactor=np.eye(len(readings)) - left @ left.T,
        redundancy=len(readings) - len(free),
    )


def _refuse_unfixed(across: Floats, free: Whole) -> None:
    """Raises NotFixed, with the corners that the weakest directions move."""
    import numpy as np

    _, sizes, right = np.linalg.svd(across, full_matrices=True)
    lacking = len(free) - int(np.sum(sizes > _SINGULAR * sizes[0])) if len(sizes) else len(free)
    if not lacking:
        return
    moved = np.abs(right[-lacking:]).max(axis=0)
    corners = sorted({int(i) // 2 for i, m in zip(free, moved, strict=True) if m > 1e-3 * moved.max()})
    raise NotFixed(tuple(corners))
