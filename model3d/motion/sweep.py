"""The first contact of a moving mesh with a standing one, over one straight or turning step.

For a straight step every point moves along one vector and contact of two closed meshes begins in one of three ways: a
point of the mover meets a face, a face of the mover meets a point, an edge meets an edge. Each is a ray or a segment
against triangles, so nothing is sampled. A turning step is cut so fine that its arcs differ from their chords by less
than the skin.
"""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from model3d.geometry.placement import Placement, Vec3
from model3d.motion.mesh import MotionMesh, Points, RayFaces, sheets
from model3d.motion.surface import gap

HALVINGS = 14
TOUCH_MM = 1e-3
PROBE = np.array([0.5773491, 0.5773508, 0.5773509])  # a direction along no likely edge


def rows(placement: Placement) -> tuple[Points, Points]:
    """A placement as rows of axes (3, 3) and origin (3,): outer = own @ axes + origin."""
    return np.array([placement.x_axis, placement.y_axis, placement.z_axis]), np.array(placement.origin_mm)


def placed(points: Points, placement: Placement) -> Points:
    """Points of a frame in the outer frame."""
    axes, origin = rows(placement)
    return np.asarray(points @ axes + origin)


def is_straight(start: Placement, end: Placement) -> bool:
    """Whether a step only moves, without turning."""
    return start.x_axis == end.x_axis and start.y_axis == end.y_axis


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
    a0, a1 = placed(a.points, start_in_b), placed(a.points, end_in_b)
    if _clear_of(a0, a1, b.box):
        return False
    if np.isfinite(b.faces.nearest(a0, a1 - a0)[0]).any():
        return True
    b_before, b_after = placed(b.points, start_in_b.inverse()), placed(b.points, end_in_b.inverse())
    if np.isfinite(a.faces.nearest(b_before, b_after - b_before)[0]).any():
        return True
    starts, ends = b.edges.T
    if is_straight(start_in_b, end_in_b):
        swept = a.swept_edges(_own_way(start_in_b, end_in_b))
        starts, ends = b_before[starts], b_before[ends]
    else:
        swept = RayFaces(_sheets_near(a.edges, a0, a1, b.box))
        starts, ends = b.points[starts], b.points[ends]
    return bool(len(starts) and np.isfinite(swept.nearest(starts, ends - starts)[0]).any())


def _clear_of(before: Points, after: Points, box: Points) -> bool:
    """Whether points on straight ways stay off a box."""
    low, high = (f(before, after) for f in (np.minimum, np.maximum))
    return bool(np.any((low.min(axis=0) > box[1] + TOUCH_MM) | (high.max(axis=0) < box[0] - TOUCH_MM)))


def _sheets_near(edges: npt.NDArray[np.int64], before: Points, after: Points, box: Points) -> Points:
    """What the edges sweep that come near a box."""
    low, high = np.minimum(before, after), np.maximum(before, after)
    i, j = edges.T
    near = np.all((np.minimum(low[i], low[j]) <= box[1] + TOUCH_MM), axis=1)
    near &= np.all((np.maximum(high[i], high[j]) >= box[0] - TOUCH_MM), axis=1)
    return sheets(edges[near], before, after)


def first_contact(
    a: MotionMesh, start: Placement, end: Placement, b: MotionMesh, b_at: Placement, *, begun: bool = False
) -> float | None:
    """The share of the way from ``start`` to ``end`` (room frame) done at the first contact, to a sixteen-thousandth:
    0 when they share room from the start, None when there is no contact.

    ``begun`` says that the start is the end of a step known to be free.
    """
    back = b_at.inverse()
    if not begun and stands_in(a, back @ start, b):
        return 0.0
    if not meets(a, back @ start, back @ end, b):
        return None
    low, high = 0.0, 1.0
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        if meets(a, back @ between(start, end, low), back @ between(start, end, middle), b):
            high = middle
        else:
            low = middle
    return low


def contact_place(a: MotionMesh, at: Placement, b: MotionMesh, b_at: Placement) -> Vec3:
    """About where two that touch do so, room frame: midway between their nearest points; of two that share room, the
    middle of what their boxes share.
    """
    one, other = placed(a.points, at), placed(b.points, b_at)
    near = None
    if not stands_in(a, b_at.inverse() @ at, b):
        reach = float(np.linalg.norm(one.max(axis=0) - one.min(axis=0)))
        near = gap(a.surface, b.surface, at.inverse() @ b_at, within_mm=reach)
    if near is not None:
        return at.point(near.place_mm)
    low = np.maximum(one.min(axis=0), other.min(axis=0))
    high = np.minimum(one.max(axis=0), other.max(axis=0))
    x, y, z = ((low + high) / 2.0).tolist()
    return (x, y, z)


def least_gap(
    a: MotionMesh, start: Placement, end: Placement, b: MotionMesh, b_at: Placement, *, within_mm: float
) -> tuple[float, Vec3] | None:
    """How near a mover comes to ``b`` on its way, where that is less than ``within_mm``, and where (room frame).

    Exact for a straight step: the distance to the outside of all it sweeps; for one that turns, to that of its chords.
    Only for a step that does not meet b.
    """
    if is_straight(start, end):
        way = _own_way(start, end)
        swept, along = a.swept_surface(way), way
    else:
        swept, along = a.swept_surface(np.zeros(3), placed(placed(a.points, end), start.inverse())), None
    found = gap(swept, b.surface, start.inverse() @ b_at, within_mm=within_mm, along=along)
    return None if found is None else (found.distance_mm, start.point(found.place_mm))


def _own_way(start: Placement, end: Placement) -> Points:
    """The way of a straight step in the mover's own frame."""
    return np.asarray(np.subtract(end.origin_mm, start.origin_mm) @ rows(start)[0].T)


def between(start: Placement, end: Placement, share: float) -> Placement:
    """The placement a share of the way on: moved evenly, turned evenly about the upright."""
    origin = tuple(a + share * (b - a) for a, b in zip(start.origin_mm, end.origin_mm, strict=True))
    where = (origin[0], origin[1], origin[2])
    if is_straight(start, end):
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
