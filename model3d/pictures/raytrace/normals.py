"""Normals of triangle meshes: flat per triangle, rounded per corner, and which way a closed mesh is wound."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

F32 = npt.NDArray[np.float32]
F64 = npt.NDArray[np.float64]
I32 = npt.NDArray[np.int32]

_WELD_MM = 1e-3


def face_vectors(vertices: F64, triangles: I32) -> F64:
    """Area vectors (m, 3): along the outward normal, as long as twice the triangle's area, mm2."""
    a, b, c = (vertices[triangles[:, k]] for k in range(3))
    return np.asarray(np.cross(b - a, c - a), np.float64)


def unit(vectors: F64) -> F64:
    """The vectors at length one; a vector of no length becomes (0, 0, 1)."""
    size = np.linalg.norm(vectors, axis=-1, keepdims=True)
    safe = np.where(size > 1e-12, size, 1.0)
    return np.where(size > 1e-12, vectors / safe, np.array([0.0, 0.0, 1.0]))


def welded(vertices: F64, triangles: I32) -> I32:
    """Triangles renumbered so that corners within a thousandth of a millimetre share one number."""
    keys = np.round(vertices / _WELD_MM).astype(np.int64)
    _, number = np.unique(keys, axis=0, return_inverse=True)
    return np.asarray(number.reshape(-1)[triangles], np.int32)


def is_closed(triangles: I32) -> bool:
    """Whether every edge of the welded triangles is met once each way: a surface without a rim."""
    if len(triangles) == 0:
        return False
    one = triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2).astype(np.int64)
    one = one[one[:, 0] != one[:, 1]]
    span = int(triangles.max()) + 1
    there = np.sort(one[:, 0] * span + one[:, 1])
    back = np.sort(one[:, 1] * span + one[:, 0])
    return bool(np.array_equal(there, back))


def is_inside_out(vertices: F64, triangles: I32) -> bool:
    """Whether the signed volume of a closed mesh is negative: its triangles go round clockwise from outside."""
    centre = vertices.mean(axis=0)
    a, b, c = (vertices[triangles[:, k]] - centre for k in range(3))
    return float(np.einsum("ij,ij->", a, np.cross(b, c))) < 0.0


def corner_normals(vertices: F64, triangles: I32, crease_deg: float = 35.0) -> F64:
    """Unit normals (m, 3, 3) for every corner of every triangle: the mean of the faces that meet there within the
    crease angle of the triangle itself, weighted by area."""
    area = face_vectors(vertices, triangles)
    flat = unit(area)
    corner = welded(vertices, triangles).reshape(-1)
    order = np.argsort(corner, kind="stable")
    count = np.bincount(corner)
    start = np.concatenate([[0], np.cumsum(count)[:-1]])
    own = corner[order]
    repeats = count[own]
    left = np.repeat(np.arange(len(order)), repeats)
    step = np.arange(len(left)) - np.repeat(np.cumsum(repeats) - repeats, repeats)
    right = start[own[left]] + step
    face_left, face_right = order[left] // 3, order[right] // 3
    near = np.einsum("ij,ij->i", flat[face_left], flat[face_right]) > math.cos(math.radians(crease_deg))
    total = np.zeros((len(order), 3))
    for axis in range(3):
        weight = np.where(near, area[face_right, axis], 0.0)
        total[:, axis] = np.bincount(left, weights=weight, minlength=len(order))
    out = np.empty_like(total)
    out[order] = total
    return unit(out).reshape(-1, 3, 3)
