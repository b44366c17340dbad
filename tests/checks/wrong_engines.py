"""Engines that are wrong in a known way, to show that the known answers can tell."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

import cadquery as cq
import manifold3d
import numpy as np
import numpy.typing as npt

from model3d.geometry.placement import Placement
from model3d.solids.mesh import solid_mesh
from model3d.solids.placing import located

Points = npt.NDArray[np.float64]
Engine = Callable[[cq.Solid, Placement, cq.Solid, Placement], float]
"""Two placed solids in, the volume they share out, mm3; 0 when it sees none."""


def boxes_only(a: cq.Solid, a_at: Placement, b: cq.Solid, b_at: Placement) -> float:
    """The boxes round the bodies instead of the bodies."""
    boxes = [located(s, at).BoundingBox() for s, at in ((a, a_at), (b, b_at))]
    sides = [
        min(getattr(x, f"{k}max") for x in boxes) - max(getattr(x, f"{k}min") for x in boxes) for k in "xyz"
    ]
    return math.prod(sides) if min(sides) > 1e-3 else 0.0


def surfaces_crossing(a: cq.Solid, a_at: Placement, b: cq.Solid, b_at: Placement) -> float:
    """A mesh's surfaces that cross; nothing where they do not, be one inside the other."""
    one, other = (_mesh(s, at, 0.1) for s, at in ((a, a_at), (b, b_at)))
    if not (_pierced(one, other) or _pierced(other, one)):
        return 0.0
    return _shared(one, other)


def coarse_mesh(a: cq.Solid, a_at: Placement, b: cq.Solid, b_at: Placement) -> float:
    """Meshes a tenth of a millimetre off, taken at their word."""
    return _shared(*(_mesh(s, at, 0.1) for s, at in ((a, a_at), (b, b_at))))


def corners_inside(a: cq.Solid, a_at: Placement, b: cq.Solid, b_at: Placement) -> float:
    """Only asks whether a corner of one is inside the other."""
    one, other = (_mesh(s, at, 0.1) for s, at in ((a, a_at), (b, b_at)))
    if not any(_holds(x, p) for x, y in ((one, other), (other, one)) for p in _in_box(y[0], x[0])):
        return 0.0
    return _shared(one, other)


WRONG: Mapping[str, Engine] = {
    "boxes only": boxes_only,
    "surfaces crossing": surfaces_crossing,
    "coarse mesh": coarse_mesh,
    "corners inside": corners_inside,
}

Mesh = tuple[Points, npt.NDArray[np.int64]]


def _mesh(solid: cq.Solid, at: Placement, deflection_mm: float) -> Mesh:
    found = solid_mesh(solid.wrapped, "body", deflection_mm=deflection_mm, angle_deg=40.0).placed(at)
    return np.asarray(found.vertices_mm), np.asarray(found.triangles, dtype=np.int64)


def _shared(one: Mesh, other: Mesh) -> float:
    middle = one[0].mean(axis=0)
    made = [
        manifold3d.Manifold(manifold3d.Mesh64(vert_properties=p - middle, tri_verts=t.astype(np.uint64)))
        for p, t in (one, other)
    ]
    return float((made[0] ^ made[1]).volume())


def _in_box(points: Points, others: Points) -> Points:
    """Those points that stand in the box round others."""
    return points[np.all((points >= others.min(axis=0)) & (points <= others.max(axis=0)), axis=1)]


def _pierced(one: Mesh, other: Mesh) -> bool:
    """Whether an edge of one goes through a triangle of the other (Moller and Trumbore's test, from memory)."""
    points, triangles = one
    edges = np.unique(
        np.sort(np.concatenate([triangles[:, k] for k in ((0, 1), (1, 2), (2, 0))]), axis=1), axis=0
    )
    ends, low, high = points[edges], other[0].min(axis=0), other[0].max(axis=0)
    edges = edges[np.all((ends.min(axis=1) <= high) & (ends.max(axis=1) >= low), axis=1)]
    starts, ways = points[edges[:, 0]], points[edges[:, 1]] - points[edges[:, 0]]
    a, ab, ac = (
        other[0][other[1][:, 0]],
        *(other[0][other[1][:, k]] - other[0][other[1][:, 0]] for k in (1, 2)),
    )
    for start, way in zip(starts, ways, strict=True):
        across = np.cross(way, ac)
        det = np.einsum("ij,ij->i", ab, across)
        safe = np.where(np.abs(det) > 1e-9, det, 1.0)
        off = start - a
        u = np.einsum("ij,ij->i", off, across) / safe
        q = np.cross(off, ab)
        v, t = q @ way / safe, np.einsum("ij,ij->i", ac, q) / safe
        if np.any((np.abs(det) > 1e-9) & (u > 0) & (v > 0) & (u + v < 1) & (t > 1e-9) & (t < 1 - 1e-9)):
            return True
    return False


def _holds(mesh: Mesh, place: Points) -> bool:
    """Whether a place is well inside a mesh, by the solid angle it is seen under."""
    a, b, c = (mesh[0][mesh[1][:, k]] - place for k in range(3))
    la, lb, lc = (np.linalg.norm(x, axis=1) for x in (a, b, c))
    if min(la.min(), lb.min(), lc.min()) < 1e-9:
        return False
    turns = np.einsum("ij,ij->i", a, np.cross(b, c))
    rest = (
        la * lb * lc
        + np.einsum("ij,ij->i", a, b) * lc
        + np.einsum("ij,ij->i", b, c) * la
        + np.einsum("ij,ij->i", c, a) * lb
    )
    return 2 * float(np.arctan2(turns, rest).sum()) > 2.2 * math.pi
