"""Normals for shading: smooth on curves, sharp on creases."""

from __future__ import annotations

import manifold3d as m3
import numpy as np

from model3d.pictures.shading import shaded
from model3d.pictures.stage import Mesh


def mesh_of(solid: m3.Manifold) -> Mesh:
    """The triangles of a closed solid on shared vertices."""
    made = solid.to_mesh64()
    return Mesh(
        vertices_mm=np.asarray(made.vert_properties)[:, :3].copy(),
        triangles=np.asarray(made.tri_verts, dtype=np.int64),
    )


def test_a_cube_keeps_its_creases() -> None:
    """A cube's eight corners become twenty-four, each with the normal of its own face."""
    made = shaded(mesh_of(m3.Manifold.cube((10, 10, 10), True)))
    assert len(made.vertices_mm) == 24
    assert np.abs(made.normals).max(axis=1).tolist() == [1.0] * 24
    a, b, c = (made.vertices_mm[made.triangles[:, k]] for k in range(3))
    across = np.cross(b - a, c - a)
    faces = across / np.linalg.norm(across, axis=1, keepdims=True)
    for k in range(3):
        np.testing.assert_allclose(made.normals[made.triangles[:, k]], faces, atol=1e-12)


def test_a_cylinder_is_smooth_round_and_sharp_at_its_rims() -> None:
    """On a cylinder of 48 sides the round face's normals point away from the axis, the ends' along it."""
    made = shaded(mesh_of(m3.Manifold.cylinder(50, 20, 20, 48)))
    ends = np.abs(made.normals[:, 2]) > 0.5
    assert ends.sum() == 96
    np.testing.assert_allclose(np.abs(made.normals[ends, 2]), 1.0, atol=1e-9)
    radial = made.vertices_mm[~ends][:, :2] / 20
    np.testing.assert_allclose(made.normals[~ends][:, :2], radial, atol=2e-3)
    assert (~ends).sum() == 96


def test_triangles_keep_their_order() -> None:
    """Shading moves no triangle: corner by corner they stand where they stood."""
    mesh = mesh_of(m3.Manifold.sphere(30, 32))
    made = shaded(mesh)
    np.testing.assert_array_equal(made.vertices_mm[made.triangles], mesh.vertices_mm[mesh.triangles])
    np.testing.assert_allclose(made.normals, made.vertices_mm / 30, atol=0.03)
