"""Triangle meshes made ready for swept contact: faces for rays, the edges that can touch first, skins drawn in."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
import numpy.typing as npt
from embreex import rtcore_scene
from embreex.mesh_construction import TriangleMesh

from model3d.motion.surface import Surface

Points = npt.NDArray[np.float64]
Triangles = npt.NDArray[np.int64]

FLAT_COSINE = 1.0 - 1e-9  # neighbours nearer to flat than this share no edge that could touch before a face does
LONGEST_DRAW = 4.0  # a point is drawn in by no more than this many times the skin
SPREAD = 1e-6  # directions in which the faces at a point differ by less than this (squared, of the whole) are left


@dataclass(frozen=True, eq=False, kw_only=True)
class MotionMesh:
    """A closed mesh in its own frame, mm: ``points`` (n, 3), ``triangles`` (m, 3) anticlockwise from outside."""

    points: Points
    triangles: Triangles
    _drawn: dict[float, MotionMesh] = field(default_factory=dict)
    _rays: dict[tuple[float, ...], RayFaces] = field(default_factory=dict)
    _surfaces: dict[tuple[float, ...], Surface] = field(default_factory=dict)

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

    @cached_property
    def surface(self) -> Surface:
        """The triangles ready for distances, in the mesh's own frame."""
        return Surface(self.points[self.triangles])

    def drawn(self, skin_mm: float) -> MotionMesh:
        """The mesh drawn in by a skin, see ``drawn_in``; kept."""
        if skin_mm == 0.0:
            return self
        if skin_mm not in self._drawn:
            self._drawn[skin_mm] = drawn_in(self, skin_mm)
        return self._drawn[skin_mm]

    def swept_edges(self, way_mm: Points) -> RayFaces:
        """The sheets that the edges sweep by one way (3,), in the mesh's own frame; kept."""
        key = _way_key(way_mm)
        if key not in self._rays:
            self._rays[key] = RayFaces(sheets(self.edges, self.points, self.points + way_mm))
        return self._rays[key]

    def swept_surface(self, way_mm: Points, ends: Points | None = None) -> Surface:
        """The outside of all that the mesh sweeps: where it starts, where it ends, and the sheets of its edges between;
        by one way (3,), kept, or to ``ends`` (n, 3).
        """
        if ends is not None:
            return self._swept(ends)
        key = _way_key(way_mm)
        if key not in self._surfaces:
            self._surfaces[key] = self._swept(self.points + way_mm)
        return self._surfaces[key]

    def _swept(self, ends: Points) -> Surface:
        parts = [self.points[self.triangles], ends[self.triangles], sheets(self.edges, self.points, ends)]
        return Surface(np.concatenate(parts))


def sheets(edges: npt.NDArray[np.int64], before: Points, after: Points) -> Points:
    """The triangles (2k, 3, 3) that edges (k, 2) sweep as their points go straight from before to after."""
    i, j = edges.T
    one = np.stack([before[i], before[j], after[j]], axis=1)
    other = np.stack([before[i], after[j], after[i]], axis=1)
    return np.concatenate([one, other])


def _way_key(way_mm: Points) -> tuple[float, ...]:
    x, y, z = np.round(way_mm, 9).tolist()
    return (x, y, z)


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

    Each point moves by the least that brings every distinct face at it in by the skin (least squares where more than
    three meet).
    """
    normals = mesh.normals
    spread, pull = np.zeros((len(mesh.points), 3, 3)), np.zeros((len(mesh.points), 3))
    for corner in range(3):
        at = mesh.triangles[:, corner]
        np.add.at(spread, at, normals[:, :, None] * normals[:, None, :])
        np.add.at(pull, at, normals)
    moves = -skin_mm * np.einsum("nij,nj->ni", np.linalg.pinv(spread, rcond=SPREAD, hermitian=True), pull)
    sizes = np.linalg.norm(moves, axis=1, keepdims=True)
    moves *= np.minimum(1.0, LONGEST_DRAW * skin_mm / np.maximum(sizes, 1e-300))
    return MotionMesh(points=mesh.points + moves, triangles=mesh.triangles)
