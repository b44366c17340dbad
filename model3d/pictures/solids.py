"""Meshes made ready to draw: put in their place, cut open by a plane, their sharp edges found."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

import manifold3d
import numpy as np
import numpy.typing as npt

from model3d.geometry.placement import Placement, Vec3
from model3d.pictures.stage import Actor, Look, Mesh, Points, Triangles

SHARP_DEG = 25.0
_WELD_MM = 1e-4


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlacedMesh:
    """An actor's mesh in the room frame. ``cut`` marks the triangles that a cutting plane laid bare."""

    id: str
    look: Look
    vertices_mm: Points
    triangles: Triangles
    edges_mm: tuple[Points, ...]
    cut: npt.NDArray[np.bool_]
    facing: Vec3 | None = None


def moved(points_mm: Points, placement: Placement) -> Points:
    """(n, 3) points of a part's frame in the room frame."""
    turn = np.array([placement.x_axis, placement.y_axis, placement.z_axis])
    return np.asarray(points_mm @ turn + np.asarray(placement.origin_mm))


def placed(actors: Iterable[Actor], meshes: Mapping[str, Mesh]) -> tuple[PlacedMesh, ...]:
    """Every actor's mesh where it stands; sharp edges are found once for each mesh."""
    actors = tuple(actors)
    edges = {key: edge_lines(meshes[key]) for key in {actor.mesh_key for actor in actors}}
    return tuple(
        PlacedMesh(
            id=actor.id,
            look=actor.look,
            facing=actor.facing,
            triangles=meshes[actor.mesh_key].triangles,
            vertices_mm=moved(meshes[actor.mesh_key].vertices_mm, actor.placement),
            edges_mm=tuple(moved(line, actor.placement) for line in edges[actor.mesh_key]),
            cut=np.zeros(len(meshes[actor.mesh_key].triangles), dtype=bool),
        )
        for actor in actors
    )


def edge_lines(mesh: Mesh) -> tuple[Points, ...]:
    """The mesh's own lines, or, when it brings none, its sharp edges found from the triangles."""
    return mesh.edges_mm if mesh.edges_mm is not None else sharp_edges(mesh.vertices_mm, mesh.triangles)


def welded(vertices_mm: Points, triangles: Triangles) -> tuple[Points, Triangles]:
    """The same triangles on vertices that are shared, not repeated; triangles that fall to a line are left
    out.
    """
    _, first, back = np.unique(np.round(vertices_mm / _WELD_MM), axis=0, return_index=True, return_inverse=True)
    joined = back.reshape(-1)[triangles]
    full = (joined[:, 0] != joined[:, 1]) & (joined[:, 1] != joined[:, 2]) & (joined[:, 2] != joined[:, 0])
    return vertices_mm[first], joined[full]


def sharp_edges(vertices_mm: Points, triangles: Triangles, angle_deg: float = SHARP_DEG) -> tuple[Points, ...]:
    """Edges where two faces meet at ``angle_deg`` or more, and open edges, each as a line of two points (2,
    3).
    """
    points, faces = welded(vertices_mm, triangles)
    normals = _normals(points, faces)
    pairs = np.sort(faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    owner = np.repeat(np.arange(len(faces)), 3)
    order = np.lexsort((pairs[:, 1], pairs[:, 0]))
    pairs, owner = pairs[order], owner[order]
    edges, start, count = np.unique(pairs, axis=0, return_index=True, return_counts=True)
    other = np.where(count > 1, start + 1, start)
    cosine = np.einsum("ij,ij->i", normals[owner[start]], normals[owner[other]])
    sharp = (count != 2) | (cosine <= np.cos(np.radians(angle_deg)))
    return tuple(points[edge] for edge in edges[sharp])


def _normals(points: Points, faces: Triangles) -> Points:
    across = np.cross(points[faces[:, 1]] - points[faces[:, 0]], points[faces[:, 2]] - points[faces[:, 0]])
    return np.asarray(across / np.maximum(np.linalg.norm(across, axis=1, keepdims=True), 1e-300))


def cut_away(solid: PlacedMesh, at_mm: Vec3, normal: Vec3) -> PlacedMesh | None:
    """What is left of a closed mesh when the side of ``normal`` is taken away; the cut is closed by a flat
    face.

    None when nothing is left. The same object comes back when the plane passes it by. Raises ValueError when
    the mesh is not closed, naming the actor.
    """
    away = np.asarray(normal) / np.linalg.norm(normal)
    level = float(away @ np.asarray(at_mm))
    heights = solid.vertices_mm @ away - level
    if heights.max() <= _WELD_MM:
        return solid
    if heights.min() >= -_WELD_MM:
        return None
    points, faces = welded(solid.vertices_mm, solid.triangles)
    body = manifold3d.Manifold(manifold3d.Mesh64(points, faces.astype(np.uint64)))
    if body.status() != manifold3d.Error.NoError or body.is_empty():
        raise ValueError(f"{solid.id} cannot be cut: its mesh is not closed")
    kept = body.trim_by_plane([float(-c) for c in away], -level).to_mesh64()
    vertices = np.asarray(kept.vert_properties, dtype=float)[:, :3].copy()
    triangles = np.asarray(kept.tri_verts, dtype=np.int64).copy()
    flat = np.abs(vertices[triangles] @ away - level).max(axis=1) < 10 * _WELD_MM
    return replace(
        solid, vertices_mm=vertices, triangles=triangles, edges_mm=sharp_edges(vertices, triangles), cut=flat
    )
