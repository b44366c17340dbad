"""Normals for smooth shading, with creases kept sharp."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from model3d.pictures.stage import Mesh, Points, Triangles

CREASE_DEG = 30.0
_WELD_MM = 1e-4
_KEPT_MESHES = 512
_FINE = 1000

Numbers = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shaded:
    """A mesh with a normal at each vertex; vertices on creases are repeated. Triangles keep their order."""

    vertices_mm: Points
    normals: Points
    triangles: Triangles


@lru_cache(maxsize=_KEPT_MESHES)
def shaded(mesh: Mesh) -> Shaded:
    """Each corner's normal averages the faces at its vertex that turn less than 30 degrees from its own face, weighted
    by their angle there.
    """
    a, b, c = (mesh.vertices_mm[mesh.triangles[:, k]] for k in range(3))
    across = np.cross(b - a, c - a)
    faces = across / np.maximum(np.linalg.norm(across, axis=1, keepdims=True), 1e-300)
    _, number = np.unique(np.round(mesh.vertices_mm / _WELD_MM), axis=0, return_inverse=True)
    corner = number.reshape(-1)[mesh.triangles].ravel()
    normals = _averaged(faces, corner, _corner_angles(a, b, c))
    fine = np.round(normals * _FINE).astype(np.int64) + _FINE
    code = corner.astype(np.int64)
    for k in range(3):
        code = code * (2 * _FINE + 1) + fine[:, k]
    _, kept, place = np.unique(code, return_index=True, return_inverse=True)
    points = mesh.vertices_mm[mesh.triangles.ravel()[kept]]
    return Shaded(vertices_mm=points, normals=normals[kept], triangles=place.reshape(-1, 3))


def _averaged(faces: Points, corner: Numbers, angles: Points) -> Points:
    """(3 m, 3) normals of the corners, three for each of the m faces; ``corner`` numbers the vertex each stands at."""
    owner = np.repeat(np.arange(len(faces)), 3)
    first, second = _neighbours(corner)
    near = np.einsum("ij,ij->i", faces[owner[first]], faces[owner[second]]) > np.cos(np.radians(CREASE_DEG))
    first, second = first[near], second[near]
    share = faces[owner[second]] * angles[second][:, None]
    summed = np.column_stack([np.bincount(first, weights=share[:, k], minlength=len(corner)) for k in range(3)])
    lengths = np.linalg.norm(summed, axis=1, keepdims=True)
    return np.asarray(np.where(lengths > 1e-12, summed / np.maximum(lengths, 1e-300), faces[owner]))


def _neighbours(corner: Numbers) -> tuple[Numbers, Numbers]:
    """Every ordered pair of corners that stand at one vertex, each with itself too."""
    order = np.argsort(corner, kind="stable")
    _, start, count = np.unique(corner[order], return_index=True, return_counts=True)
    sizes = np.repeat(count, count)
    ends = np.cumsum(sizes)
    step = np.arange(ends[-1]) - np.repeat(ends - sizes, sizes)
    second = order[np.repeat(np.repeat(start, count), sizes) + step]
    return np.repeat(order, sizes), second


def _corner_angles(a: Points, b: Points, c: Points) -> Points:
    """Angle of each triangle at each of its corners, radians, flat in the order of the corners."""

    def at(here: Points, one: Points, other: Points) -> Points:
        p, q = one - here, other - here
        size = np.maximum(np.linalg.norm(p, axis=1) * np.linalg.norm(q, axis=1), 1e-300)
        return np.asarray(np.arccos(np.clip(np.einsum("ij,ij->i", p, q) / size, -1.0, 1.0)))

    return np.stack([at(a, b, c), at(b, c, a), at(c, a, b)], axis=1).ravel()
