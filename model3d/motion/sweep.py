"""The first contact of a moving mesh with a standing one, over one straight or turning step.

For a straight step every point moves along one vector and contact of two closed meshes begins in one of three ways: a
point of the mover meets a face, a face of the mover meets a point, an edge meets an edge. Each is a ray or a segment
against triangles, so nothing is sampled. A turning step is cut so fine that its arcs differ from their chords by less
than the skin.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from model3d.geometry.placement import Placement, Vec3
from model3d.motion.mesh import MotionMesh, Points

HALVINGS = 14
PROBE = np.array([0.5773491, 0.5773508, 0.5773509])  # a direction along no likely edge


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """Where a step first meets something: ``share`` of the step done (0 when it stands in it from the start), and the
    place, room frame, mm.
    """

    share: float
    place_mm: Vec3


def rows(placement: Placement) -> tuple[Points, Points]:
    """A placement as rows of axes (3, 3) and origin (3,): outer = own @ axes + origin."""
    return np.array([placement.x_axis, placement.y_axis, placement.z_axis]), np.array(placement.origin_mm)


def placed(points: Points, placement: Placement) -> Points:
    """Points of a frame in the outer frame."""
    axes, origin = rows(placement)
    return np.asarray(points @ axes + origin)


def stands_in(a: MotionMesh, a_in_b: Placement, b: MotionMesh) -> bool:
    """Whether two closed meshes share room as they stand: an edge through a face, or one wholly within the other."""
    b_in_a = a_in_b.inverse()
    in_b, in_a = placed(a.points, a_in_b), placed(b.points, b_in_a)
    for mesh, points, other in ((a, in_b, b), (b, in_a, a)):
        starts, ends = points[mesh.edges[:, 0]], points[mesh.edges[:, 1]]
        if len(starts) and np.isfinite(other.faces.nearest(starts, ends - starts)[0]).any():
            return True
    return _within(in_b[:1], b) or _within(in_a[:1], a)


def _within(points: Points, mesh: MotionMesh) -> bool:
    """Whether the point lies inside the closed mesh: the first face on the way out is seen from behind."""
    reach = float(np.linalg.norm(mesh.box[1] - mesh.box[0]) + np.linalg.norm(points - mesh.box[0])) + 1.0
    _, which = mesh.faces.nearest(points, np.tile(PROBE * reach, (len(points), 1)))
    return bool(which[0] >= 0 and mesh.normals[which[0]] @ PROBE > 0)


def meets(a: MotionMesh, start_in_b: Placement, end_in_b: Placement, b: MotionMesh) -> bool:
    """Whether the mover ``a`` meets ``b`` on the way (given in b's frame), beyond what it stands in at the start."""
    straight = start_in_b.x_axis == end_in_b.x_axis and start_in_b.y_axis == end_in_b.y_axis
    a0, a1 = placed(a.points, start_in_b), placed(a.points, end_in_b)
    if np.isfinite(b.faces.nearest(a0, a1 - a0)[0]).any():
        return True
    b_before, b_after = placed(b.points, start_in_b.inverse()), placed(b.points, end_in_b.inverse())
    if np.isfinite(a.faces.nearest(b_before, b_after - b_before)[0]).any():
        return True
    way = np.subtract(end_in_b.origin_mm, start_in_b.origin_mm) @ rows(start_in_b)[0].T
    sheets = a.swept_edges(way) if straight else a.swept_edges(way, placed(a1, start_in_b.inverse()))
    starts, ends = b_before[b.edges[:, 0]], b_before[b.edges[:, 1]]
    return bool(len(starts) and np.isfinite(sheets.nearest(starts, ends - starts)[0]).any())


def first_contact(a: MotionMesh, start: Placement, end: Placement, b: MotionMesh, b_at: Placement) -> Contact | None:
    """The first contact on the way from ``start`` to ``end`` (room frame), to a sixteen-thousandth of it; None when
    there is none.
    """
    back = b_at.inverse()
    if stands_in(a, back @ start, b):
        return Contact(share=0.0, place_mm=_nearest_place(a, start, b, b_at))
    if not meets(a, back @ start, back @ end, b):
        return None
    low, high = 0.0, 1.0
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        if meets(a, back @ between(start, end, low), back @ between(start, end, middle), b):
            high = middle
        else:
            low = middle
    return Contact(share=low, place_mm=_nearest_place(a, between(start, end, high), b, b_at))


def between(start: Placement, end: Placement, share: float) -> Placement:
    """The placement a share of the way on: moved evenly, turned evenly about the upright."""
    origin = tuple(a + share * (b - a) for a, b in zip(start.origin_mm, end.origin_mm, strict=True))
    where = (origin[0], origin[1], origin[2])
    if start.x_axis == end.x_axis and start.y_axis == end.y_axis:
        return Placement(origin_mm=where, x_axis=start.x_axis, y_axis=start.y_axis, z_axis=start.z_axis)
    full = math.atan2(
        start.x_axis[0] * end.x_axis[1] - start.x_axis[1] * end.x_axis[0],
        start.x_axis[0] * end.x_axis[0] + start.x_axis[1] * end.x_axis[1],
    )
    return _turned(start, where, full * share)


def _turned(start: Placement, origin: Vec3, angle: float) -> Placement:
    c, s = math.cos(angle), math.sin(angle)

    def turn(v: Vec3) -> Vec3:
        return (c * v[0] - s * v[1], s * v[0] + c * v[1], v[2])

    return Placement(origin_mm=origin, x_axis=turn(start.x_axis), y_axis=turn(start.y_axis), z_axis=turn(start.z_axis))


def _nearest_place(a: MotionMesh, at: Placement, b: MotionMesh, b_at: Placement) -> Vec3:
    """About where the two stand nearest: the middle of the room their boxes share, or between them."""
    one, other = placed(a.points, at), placed(b.points, b_at)
    low = np.maximum(one.min(axis=0), other.min(axis=0))
    high = np.minimum(one.max(axis=0), other.max(axis=0))
    x, y, z = ((low + high) / 2.0).tolist()
    return (x, y, z)
