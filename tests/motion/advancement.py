"""Conservative advancement alone, to measure the sweep against."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise

import manifold3d
import numpy as np

from model3d.geometry.placement import Placement
from model3d.motion import MotionMesh
from model3d.motion.from_solids import as_manifold
from model3d.motion.sweep import between, placed

TOUCH_MM = 0.02  # nearer than this the two touch
LEAST_MM = 1.0  # in its favour it goes at least so far on, though it may then pass over something thinner
FURTHEST_MM = 60.0  # distances are asked up to this


@lru_cache(maxsize=512)
def solid_of(mesh: MotionMesh) -> manifold3d.Manifold:
    """A mesh for distances, made once."""
    return as_manifold(mesh.points, mesh.triangles)


def first_touch(moving: MotionMesh, poses: Sequence[Placement], still: MotionMesh, at: Placement) -> float | None:
    """Advance by the distance over the greatest way that any point goes, until the two touch or the way is done."""
    back = at.inverse()
    for k, (start, end) in enumerate(pairwise([back @ p for p in poses])):
        farthest = np.linalg.norm(placed(moving.points, end) - placed(moving.points, start), axis=1).max()
        share = 0.0
        while share < 1.0:
            distance = apart_mm(moving, between(start, end, share), still)
            if distance < TOUCH_MM:
                return (k + share) / (len(poses) - 1)
            share += max(distance, LEAST_MM) / float(farthest)
    return None


def apart_mm(moving: MotionMesh, at: Placement, still: MotionMesh) -> float:
    """How far two meshes stand apart, 0 when they share room."""
    there = np.array([at.x_axis, at.y_axis, at.z_axis, at.origin_mm]).T
    return float(solid_of(still).min_gap(solid_of(moving).transform(there), FURTHEST_MM))
