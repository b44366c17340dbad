"""Meshes made ready to draw: put in their place, cut open by a plane, their sharp edges found."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

import manifold3d
import numpy as np
import numpy.typing as npt

from model3d.geometry.placement import Placement, Vec3
from model3d.pictures.stage import Actor, Look, Mesh, Points, Triangles

SHARP_DEG = 25.0
_WELD_MM = 1e-4
_KEPT_MESHES = 512
_KEPT_SOLIDS = 2048


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlacedMesh:
    """An actor's mesh and where it stands: ``vertices_mm`` are in the room frame, those of ``mesh`` in its own.

    ``cut`` marks the triangles that a cutting plane laid bare; None: it is whole.
    """

    id: str
    look: Look
    mesh: Mesh
    placement: Placement
    vertices_mm: Points
    cut: npt.NDArray[np.bool_] | None = None
    facing: Vec3 | None = None

    @property
    def triangles(self) -> Triangles:
        """(m, 3) corners of the triangles."""
        return self.mesh.triangles


def moved(points_mm: Points, placement: Placement) -> Points:
    """(n, 3) points of a part's frame in the room frame."""
    return np.asarray(turned(points_mm, placement) + np.asarray(placement.origin_mm))


def turned(directions: Points, placement: Placement) -> Points:
    """(n, 3) directions of a part's frame in the room frame."""
    return np.asarray(directions @ np.array([placement.x_axis, placement.y_axis, placement.z_axis]))


def placed(actors: Iterable[Actor], meshes: Mapping[str, Mesh]) -> tuple[PlacedMesh, ...]:
    """Every actor's mesh where it stands; the same object for the same actor, as long as it is kept."""
    return tuple(_placed(actor, meshes[actor.mesh_key]) for actor in actors)


@lru_cache(maxsize=_KEPT_SOLIDS)
def _placed(actor: Actor, mesh: Mesh) -> PlacedMesh:
    return PlacedMesh(
        id=actor.id,
        look=actor.look,
        facing=actor.facing,
        mesh=mesh,
        placement=actor.placement,
        vertices_mm=moved(mesh.vertices_mm, actor.placement),
    )


@lru_cache(maxsize=_KEPT_MESHES)
def edge_segments(mesh: Mesh) -> Points:
    """(k, 2, 3) straight lines to draw on a mesh: its own lines, or its sharp edges when it brings none."""
    if mesh.edges_mm is None:
        return sharp_edges(mesh.vertices_mm, mesh.triangles)
    lines = [np.stack([line[:-1], line[1:]], axis=1) for line in mesh.edges_mm if len(line) > 1]
    return np.concatenate(lines) if lines else np.zeros((0, 2, 3))


def welded(vertices_mm: Points, triangles: Triangles) -> tuple[Points, Triangles]:
    """The same triangles on vertices that are shared, not repeated; triangles that fall to a line are left
    out.
    """
    _, first, back = np.unique(np.round(vertices_mm / _WELD_MM), axis=0, return_index=True, return_inverse=True)
    joined = back.reshape(-1)[triangles]
    full = (joined[:, 0] != joined[:, 1]) & (joined[:, 1] != joined[:, 2]) & (joined[:, 2] != joined[:, 0])
    return vertices_mm[first], joined[full]


def sharp_edges(vertices_mm: Points, triangles: Triangles, angle_deg: float = SHARP_DEG) -> Points:
    """(k, 2, 3) ends of the edges where two faces meet at ``angle_deg`` or more, and of open edges."""
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
    return np.asarray(points[edges[sharp]])


def _normals(points: Points, faces: Triangles) -> Points:
    across = np.cross(points[faces[:, 1]] - points[faces[:, 0]], points[faces[:, 2]] - points[faces[:, 0]])
    return np.asarray(across / np.maximum(np.linalg.norm(across, axis=1, keepdims=True), 1e-300))


@lru_cache(maxsize=_KEPT_MESHES)
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
    left = Mesh(vertices_mm=vertices, triangles=triangles)
    return replace(solid, mesh=left, placement=Placement(), vertices_mm=vertices, cut=flat)
