"""Lines cut off at the rim of a picture, and in front of the viewer."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from model3d.illustrations.camera import Camera, Points, Window
from model3d.illustrations.shapes import Line

NEAREST_MM = 60.0  # nothing nearer to the eye is drawn


def clipped(line: Line, camera: Camera, window: Window) -> Iterator[Line]:
    """The stretches of a line within the window and in front of the eye of a camera in perspective. Raises ValueError
    for one in parallel.
    """
    inside = _inside(line.points_mm, camera, window)
    if (inside >= 0.0).all():
        yield line
        return
    if (inside < 0.0).all(axis=0).any():
        return
    kept: list[tuple[float, float]] = []
    for k, (a, b) in enumerate(pairwise(inside)):
        low, high = _share(a, b)
        if low >= high:
            continue
        if kept and low == 0.0 and kept[-1][1] == float(k):
            kept[-1] = (kept[-1][0], k + high)
        else:
            kept.append((k + low, k + high))
    for start, end in kept:
        yield _stretch(line, start, end)


def _inside(points_mm: Points, camera: Camera, window: Window) -> Points:
    """(n, 5) how far inside each plane of the picture's pyramid points are; linear along any straight line."""
    if camera.distance_mm is None:
        raise ValueError("a parallel view has no eye to stand before")
    local = camera.local(points_mm)
    ahead = camera.distance_mm - local[:, 2]
    grown = camera.scale * camera.distance_mm
    x, y = local[:, 0] * grown, -local[:, 1] * grown
    left, top = (window.left - camera.middle_mm[0]) * ahead, (window.top - camera.middle_mm[1]) * ahead
    right, bottom = left + window.width * ahead, top + window.height * ahead
    return np.column_stack([x - left, right - x, y - top, bottom - y, ahead - NEAREST_MM])


def _share(a: Points, b: Points) -> tuple[float, float]:
    """From where to where of a straight part both ends of which are known no plane cuts it off (Liang and Barsky)."""
    low, high = 0.0, 1.0
    for one, other in zip(a.tolist(), b.tolist(), strict=True):
        if one < 0.0 and other < 0.0:
            return 1.0, 0.0
        if one < 0.0:
            low = max(low, one / (one - other))
        elif other < 0.0:
            high = min(high, one / (one - other))
    return low, high


def _stretch(line: Line, start: float, end: float) -> Line:
    """The line from one place to another, counted in its points."""
    inner = np.arange(int(np.floor(start)) + 1, int(np.ceil(end)))
    at = np.concatenate([[start], inner, [end]])
    first = np.minimum(at.astype(int), len(line.points_mm) - 2)
    share = (at - first)[:, None]
    points = line.points_mm[first] * (1 - share) + line.points_mm[first + 1] * share
    sides = line.sides[:, first] * (1 - share) + line.sides[:, first + 1] * share
    return Line(points_mm=points, sides=sides, bend=line.bend, fine=line.fine)
