"""Drawings of bodies by themselves: their strokes, seen in parallel projection."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from model3d.geometry.placement import Vec3
from model3d.illustrations.camera import Camera, Window, framed
from model3d.illustrations.contours import Body
from model3d.illustrations.sheet import Stroke
from model3d.illustrations.sight import Sight
from model3d.illustrations.strokes import Shown, strokes

PAGE = Window(left=0.0, top=0.0, width=200.0, height=200.0)


def drawn(
    bodies: Sequence[Body], toward: Vec3, hiding: Sequence[Body] | None = None
) -> tuple[tuple[Stroke, ...], Camera]:
    """The strokes of bodies as large as they go on a page of 200 x 200 mm, and the camera. ``hiding`` are the bodies
    that hide lines: of themselves all of them.
    """
    points = np.concatenate([body.corners_mm.reshape(-1, 3) for body in bodies])
    camera = framed(points, Camera(target_mm=(0.0, 0.0, 0.0), toward=toward), PAGE)
    sight = Sight(list(bodies if hiding is None else hiding), points.mean(axis=0))
    return strokes([Shown(body=body) for body in bodies], sight, camera), camera


def length_mm(found: Sequence[Stroke], camera: Camera) -> float:
    """Length of strokes at full size, mm."""
    total = sum(math.dist(a, b) for s in found for a, b in zip(s.points, s.points[1:], strict=False))
    return total / camera.scale
