"""From CadQuery solids to meshes for motion."""

from __future__ import annotations

from typing import Any

import manifold3d
import numpy as np

from model3d.motion.mesh import MotionMesh, Points, Triangles
from model3d.solids.mesh import solid_mesh

DEFLECTION_MM, ANGLE_DEG = 0.03, 12.0


def mesh_of(
    solid: Any, name: str = "solid", *, deflection_mm: float = DEFLECTION_MM, angle_deg: float = ANGLE_DEG
) -> MotionMesh:
    """A CadQuery solid (or anything with a kernel shape as ``wrapped``) as a closed mesh in its own frame, mm.

    No triangle stands off a curved face by more than about ``deflection_mm``. Raises ValueError, naming the solid, when
    its mesh is not closed.
    """
    made = solid_mesh(solid.wrapped, name, deflection_mm=deflection_mm, angle_deg=angle_deg)
    return MotionMesh(points=made.vertices_mm, triangles=made.triangles.astype(np.int64))


def part_above(mesh: MotionMesh, height_mm: float) -> MotionMesh | None:
    """What of a mesh stands above a height in its own frame, closed; None when nothing does."""
    return _trimmed(mesh, (0.0, 0.0, 1.0), height_mm)


def part_below(mesh: MotionMesh, height_mm: float) -> MotionMesh | None:
    """What of a mesh stands below a height in its own frame, closed; None when nothing does."""
    return _trimmed(mesh, (0.0, 0.0, -1.0), -height_mm)


def as_manifold(points: Points, triangles: Triangles) -> manifold3d.Manifold:
    """A closed mesh for mesh booleans. Raises ValueError when it is not closed."""
    mesh = manifold3d.Mesh64(
        vert_properties=np.array(points, order="C"), tri_verts=triangles.astype(np.uint64, order="C")
    )
    made = manifold3d.Manifold(mesh)
    if made.status() != manifold3d.Error.NoError:
        raise ValueError(f"not a closed mesh: {made.status().name}")
    return made


def _trimmed(mesh: MotionMesh, normal: tuple[float, float, float], offset_mm: float) -> MotionMesh | None:
    left = as_manifold(mesh.points, mesh.triangles).trim_by_plane(normal, offset_mm)
    if left.is_empty():
        return None
    made = left.to_mesh64()
    points = np.asarray(made.vert_properties)[:, :3]
    return MotionMesh(points=points, triangles=np.asarray(made.tri_verts).astype(np.int64))
