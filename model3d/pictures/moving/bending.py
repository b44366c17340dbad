"""A hose drawn with its later end off its place: its rest line led over to there, its slack taken up or let hang so
that its length stays.
"""

from __future__ import annotations

import math

import numpy as np

from model3d.geometry.placement import Vec3
from model3d.parts.fittings import HoseSpec
from model3d.parts.hose_curve import hose_curve
from model3d.pictures.stage import Mesh, Points

SPACES, SIDES = 40, 18


def bent_line(spec: HoseSpec, by_mm: Vec3) -> Points:
    """(n, 3) points of the centre line in the hose's frame with its end shifted by ``by_mm``.

    Its length is that of the rest line unless the ends stand too far apart for it; then it is drawn taut.
    """
    curve = hose_curve(spec)
    s = np.linspace(0.0, curve.plan_length_mm, SPACES + 1)
    rest = np.array([curve.point(float(x)) for x in s])
    share = np.clip((s - curve.grip_mm) / max(curve.free_length_mm, 1e-9), 0.0, 1.0)
    led = rest + (share * share * (3.0 - 2.0 * share))[:, None] * np.array(by_mm)
    hang = np.sin(math.pi * share) ** 2
    goal = line_length(rest)
    low, high = -2.0 * float(np.ptp(rest[:, 2])) - 20.0, 60.0

    def hung(by: float) -> Points:
        return np.asarray(led - np.column_stack([np.zeros((len(s), 2)), by * hang]))

    least = min(np.linspace(low, high, 81), key=lambda by: line_length(hung(float(by))))
    if line_length(hung(float(least))) >= goal:
        return hung(float(least))
    near, far = float(least), high
    for _ in range(60):
        middle = (near + far) / 2.0
        near, far = (middle, far) if line_length(hung(middle)) < goal else (near, middle)
    return hung((near + far) / 2.0)


def line_length(points: Points) -> float:
    """Length of a polyline, mm."""
    return float(np.linalg.norm(np.diff(points, axis=0), axis=1).sum())


def tube(points: Points, radius_mm: float) -> Mesh:
    """A closed tube round a line, its rings square to it, turned as little as may be from one to the next."""
    tangents = np.gradient(points, axis=0)
    tangents /= np.linalg.norm(tangents, axis=1, keepdims=True)
    side = np.cross(tangents[0], (0.0, 0.0, 1.0))
    angles = np.linspace(0.0, 2.0 * math.pi, SIDES, endpoint=False)
    rings = []
    for tangent, point in zip(tangents, points, strict=True):
        side = side - tangent * float(side @ tangent)
        side = side / np.linalg.norm(side)
        other = np.cross(tangent, side)
        rings.append(point + radius_mm * (np.cos(angles)[:, None] * side + np.sin(angles)[:, None] * other))
    vertices = np.concatenate([*rings, points[:1], points[-1:]])
    return Mesh(vertices_mm=vertices, triangles=_skin(len(points)), edges_mm=())


def _skin(rings: int) -> np.ndarray[tuple[int, int], np.dtype[np.int64]]:
    here = np.arange(SIDES)
    beside = np.roll(here, -1)
    faces = []
    for k in range(rings - 1):
        a, b = k * SIDES, (k + 1) * SIDES
        faces += [
            np.column_stack([a + here, a + beside, b + here]),
            np.column_stack([a + beside, b + beside, b + here]),
        ]
    first, last, end = rings * SIDES, rings * SIDES + 1, (rings - 1) * SIDES
    faces += [
        np.column_stack([np.full(SIDES, first), beside, here]),
        np.column_stack([np.full(SIDES, last), end + here, end + beside]),
    ]
    return np.concatenate(faces).astype(np.int64)
