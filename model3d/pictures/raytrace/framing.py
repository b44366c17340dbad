"""A view that holds given points: seen from a given side, filling the picture to a margin, centred."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from model3d.geometry.placement import Vec3
from model3d.pictures.raytrace.view import View

F64 = npt.NDArray[np.float64]

_TURNS = 24


def framed(
    points: Sequence[Vec3],
    *,
    toward_eye: Vec3,
    field_of_view_deg: float,
    size_px: tuple[int, int],
    least_margin: float = 0.06,
) -> View:
    """The view from the direction ``toward_eye`` in which the points just fill the picture, less ``least_margin`` of
    its width or height on each side, with the points' extent in the middle. Raises ValueError without a point."""
    if len(points) == 0:
        raise ValueError("there is nothing to frame")
    cloud = np.asarray(points, np.float64)
    back = np.asarray(toward_eye, np.float64)
    back /= np.linalg.norm(back)
    target = (cloud.min(axis=0) + cloud.max(axis=0)) / 2
    distance = 3.0 * float(np.linalg.norm(cloud - target, axis=1).max()) + 1.0
    width, height = size_px
    for _ in range(_TURNS):
        view = _view(target, back, distance, field_of_view_deg, size_px)
        axes = view.axes()
        at = view.project(cloud)
        low, high = at[:, :2].min(axis=0), at[:, :2].max(axis=0)
        scale = 2 * view.half_width() * distance / width
        shift = (low + high) / 2 - np.array([width, height]) / 2
        target = target + axes[0] * shift[0] * scale - axes[1] * shift[1] * scale
        fill = float(((high - low) / (np.array([width, height]) * (1 - 2 * least_margin))).max())
        nearest = float(((cloud - target) @ back).max())
        distance = max(nearest + 1.0, nearest + (distance - nearest) * fill)
    return _view(target, back, distance, field_of_view_deg, size_px)


def _view(target: F64, back: F64, distance: float, field_of_view_deg: float, size_px: tuple[int, int]) -> View:
    eye = target + back * distance
    return View(
        eye_mm=(float(eye[0]), float(eye[1]), float(eye[2])),
        target_mm=(float(target[0]), float(target[1]), float(target[2])),
        field_of_view_deg=field_of_view_deg,
        size_px=size_px,
    )
