"""Triangle meshes made ready for swept contact: faces for rays, the edges that can touch first, skins drawn in."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

import numpy as np
import numpy.typing as npt
from embreex import rtcore_scene
from embreex.mesh_construction import TriangleMesh

Points = npt.NDArray[np.float64]
Triangles = npt.NDArray[np.int64]

FLAT_COSINE = 1.0 - 1e-9  # neighbours nearer to flat than this share no edge that could touch before a face does
NORMAL_COSINE = 0.9998  # face directions at a point nearer than this count as one
LONGEST_DRAW = 4.0  # a point is drawn in by no more than this many times the skin


@dataclass(frozen=True, eq=False, kw_only=True)
class MotionMesh:
    """A closed mesh in its own frame, mm: ``points`` (n, 3), ``triangles`` (m, 3) anticlockwise from outside."""

    points: Points
    triangles: Triangles
    _kept: dict[Any, Any] = field(default_factory=dict)

    @cached_property
    def edges(self) -> npt.NDArray[np.int64]:
        """Edges (k, 2) between triangles that do not lie flat on one another."""
        sides = np.concatenate([self.triangles[:, pair] for pair in ((0, 1), (1, 2), (2, 0))])
        owner = np.tile(np.arange(len(self.triangles)), 3)
        ordered = np.sort(sides, axis=1)
        order = np.lexsort((ordered[:, 1], ordered[:, 0]))
        ordered, owner = ordered[order], owner[order]
        pairs = np.all(ordered[1:] == ordered[:-1], axis=1)
        first = np.flatnonzero(pairs)
        normals = self.normals
        bent = np.einsum("ij,ij->i", normals[owner[first]], normals[owner[first + 1]]) < FLAT_COSINE
        return np.asarray(ordered[first[bent]])

    @cached_property
    def normals(self) -> Points:
        """Unit normals of the triangles (m, 3), outward."""
        a, b, c = (self.points[self.triangles[:, k]] for k in range(3))
        found = np.cross(b - a, c - a)
        return np.asarray(found / np.maximum(np.linalg.norm(found, axis=1, keepdims=True), 1e-300))

    @cached_property
    def box(self) -> Points:
        """Low and high corner (2, 3)."""
        return np.stack([self.points.min(axis=0), self.points.max(axis=0)])

    @cached_property
    def faces(self) -> RayFaces:
        """The triangles ready for rays, in the mesh's own frame."""
        return RayFaces(self.points[self.triangles])

    def swept_edges(self, way_mm: Points, ends: Points | None = None) -> RayFaces:
        """The sheets that the edges sweep: by one way (3,), or to ``ends`` (n, 3), where the points arrive; ways are
        kept.
        """
        if ends is None:
            key = tuple(np.round(way_mm, 9).tolist())
            if key not in self._kept:
                self._kept[key] = RayFaces(self._sheets(self.points + way_mm))
            return self._kept[key]  # type: ignore[no-any-return]
        return RayFaces(self._sheets(ends))

    def _sheets(self, ends: Points) -> Points:
        i, j = self.edges.T
        one = np.stack([self.points[i], self.points[j], ends[j]], axis=1)
        other = np.stack([self.points[i], ends[j], ends[i]], axis=1)
        return np.concatenate([one, other])


class RayFaces:
    """Triangles (m, 3, 3) ready for rays."""

    def __init__(self, corners: Points) -> None:
        self.count = len(corners)
        self._scene = rtcore_scene.EmbreeScene(robust=True)
        if self.count:
            self._mesh = TriangleMesh(self._scene, np.ascontiguousarray(corners, dtype=np.float32))

    def nearest(self, starts: Points, ways: Points) -> tuple[Points, npt.NDArray[np.int64]]:
        """For segments from ``starts`` along ``ways`` (not unit): how far along, 0 to 1, the first triangle is met
        (inf: none), and which one (-1).
        """
        lengths = np.linalg.norm(ways, axis=1)
        shares = np.full(len(starts), np.inf)
        which = np.full(len(starts), -1, dtype=np.int64)
        going = lengths > 1e-12
        if not self.count or not going.any():
            return shares, which
        unit = ways[going] / lengths[going, None]
        found = self._scene.run(
            np.ascontiguousarray(starts[going], dtype=np.float32),
            np.ascontiguousarray(unit, dtype=np.float32),
            output=True,
        )
        share = np.where(found["primID"] >= 0, found["tfar"] / lengths[going], np.inf)
        met = share <= 1.0
        shares[going] = np.where(met, share, np.inf)
        which[going] = np.where(met, found["primID"], -1)
        return shares, which


def drawn_in(mesh: MotionMesh, skin_mm: float) -> MotionMesh:
    """The mesh with every face drawn in by ``skin_mm``: parts that only touch then stand clear of each other.

    Each point moves so that every distinct face at it moves in by the skin (least squares where more than three meet).
    """
    if skin_mm == 0.0:
        return mesh
    moved = mesh.points.copy()
    order = np.argsort(mesh.triangles.ravel(), kind="stable")
    owners = np.repeat(np.arange(len(mesh.triangles)), 3)[order]
    starts = np.searchsorted(mesh.triangles.ravel()[order], np.arange(len(mesh.points) + 1))
    for point in range(len(mesh.points)):
        normals = _distinct(mesh.normals[owners[starts[point] : starts[point + 1]]])
        if len(normals):
            by = np.linalg.lstsq(normals, np.full(len(normals), -skin_mm), rcond=1e-3)[0]
            size = float(np.linalg.norm(by))
            moved[point] += by * min(1.0, LONGEST_DRAW * skin_mm / size) if size > 0 else 0.0
    return MotionMesh(points=moved, triangles=mesh.triangles)


def _distinct(normals: Points) -> Points:
    kept: list[Points] = []
    for normal in normals:
        if not any(float(normal @ other) > NORMAL_COSINE for other in kept):
            kept.append(normal)
    return np.array(kept)
