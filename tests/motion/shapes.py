"""Meshes with known answers, by trimesh."""

from __future__ import annotations

import numpy as np
import trimesh

from model3d.geometry.placement import Placement
from model3d.motion.mesh import MotionMesh


def mesh_of(made: trimesh.Trimesh) -> MotionMesh:
    """A trimesh as a motion mesh."""
    return MotionMesh(points=np.array(made.vertices, dtype=float), triangles=np.array(made.faces, dtype=np.int64))


def box(x_mm: float, y_mm: float, z_mm: float) -> MotionMesh:
    """A box centred on its frame's origin."""
    return mesh_of(trimesh.creation.box((x_mm, y_mm, z_mm)))


def rod(radius_mm: float, length_mm: float, sections: int = 96) -> MotionMesh:
    """An upright rod centred on its frame's origin; its points lie on the true circle."""
    return mesh_of(trimesh.creation.cylinder(radius_mm, length_mm, sections=sections))


def bar(length_mm: float, half_width_mm: float, height_mm: float) -> MotionMesh:
    """A flat bar from the origin along +x, centred across."""
    made = trimesh.creation.box((length_mm, 2 * half_width_mm, height_mm))
    made.apply_translation((length_mm / 2, 0, 0))
    return mesh_of(made)


def tube(outer_mm: float, inner_mm: float, length_mm: float) -> MotionMesh:
    """An upright tube centred on its frame's origin."""
    return mesh_of(trimesh.creation.annulus(r_min=inner_mm, r_max=outer_mm, height=length_mm, sections=96))


def here(x_mm: float = 0.0, y_mm: float = 0.0, z_mm: float = 0.0) -> Placement:
    """A placement that only moves."""
    return Placement(origin_mm=(x_mm, y_mm, z_mm))
