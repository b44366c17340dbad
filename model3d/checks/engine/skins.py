"""Triangle skins by which a pair of solids is cleared for sure.

A kernel mesh has its points on the true faces; a round face bulges past its triangles. Here every point is
moved out until the triangles stand clear of the bulge, within the plane of any flat face that it also belongs
to; and then in again by less than half of what counts as contact. A ball that fits in what two solids share
has, when it is wider than contact, a ball about the same centre in what the skins share: where skins share
nothing, solids only touch. Parts that lie flat on one another have skins apart.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

import manifold3d
import numpy as np
import numpy.typing as npt
from OCP.Bnd import Bnd_Box
from OCP.BRepBndLib import BRepBndLib
from OCP.TopoDS import TopoDS_Shape

from model3d.checks.engine.facets import Facets, Points, facets, joined, welded

SAFETY = 1.15  # on the bulge of a triangle, which is reckoned to the second order
LEAST_SPREAD = 0.01  # determinant of the products of a point's face directions: under it they count as dependent
ANGLE_RAD = 0.35
TANGENT = 0.94  # cosine of the angle up to which two faces are taken to run on smoothly into one another


@dataclass(frozen=True, slots=True, kw_only=True)
class Skin:
    """A closed skin round a solid in its own frame, mm.

    ``hull`` (k, 3), the corners of its convex hull; ``manifold``, the skin for mesh booleans, None when the
    kernel's mesh does not close; ``slack_mm``, how far at most it stands off the solid where it is refined,
    everywhere when it is not; ``name``, the number its triangles go by in what booleans make of it;
    ``triangle_count``; ``bows_mm``, see ``count_at``.
    """

    hull: Points
    manifold: manifold3d.Manifold | None
    slack_mm: float
    name: int
    triangle_count: int
    bows_mm: tuple[Points, ...]

    def count_at(self, faces: Collection[int], deflection_mm: float) -> float:
        """About how many triangles the skin would have with some faces refined to a deflection: one bowed one
        way is cut in as many as the root of how much its bow is greater, one bowed both ways in as many as
        that itself.
        """
        bows = np.concatenate([np.zeros((2, 0)), *(self.bows_mm[k] for k in faces)], axis=1)
        least, most = np.maximum(bows / deflection_mm, 1.0)
        return self.triangle_count + float((np.sqrt(least * most) - 1.0).sum())


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bulges:
    """For each point of a mesh: how far the true face stands out past its triangles, ``rise_mm`` (n,); and
    ``slide_mm`` (n, 3), the way along a flat face that runs on into this one, from where they meet to where
    the tangent half-way along the first chord comes through.
    """

    rise_mm: Points
    slide_mm: Points
    bows_mm: Points


def meshed(shape: TopoDS_Shape, *, deflection_mm: float) -> tuple[Facets, ...] | None:
    """The kernel's mesh of a solid, face by face, for its skins; None when the kernel cannot mesh it."""
    try:
        return facets(shape, deflection_mm=deflection_mm, angle_rad=ANGLE_RAD)
    except ValueError:
        return None


def skin(
    shape: TopoDS_Shape,
    mesh: Sequence[Facets] | None = None,
    *,
    inset_mm: float,
    deflection_mm: float,
    refined: Collection[int] = (),
    refined_mm: float = 0.0,
) -> Skin:
    """The skin of a solid drawn in by ``inset_mm``, from a kernel mesh of that deflection, the one given if it is
    known; the faces numbered in ``refined`` get ``refined_mm``.

    A solid that the kernel cannot mesh has the corners of its box for a hull, and no manifold.
    """
    known = meshed(shape, deflection_mm=deflection_mm) if mesh is None else mesh
    if known is None:
        return _boxed(shape)
    if not refined:
        return _skin(known, inset_mm, (), deflection_mm)
    for before in (known, ()):  # where what is known does not fit the rest, all is meshed anew
        try:
            faces = facets(
                shape,
                deflection_mm=deflection_mm,
                angle_rad=ANGLE_RAD,
                refined=refined,
                refined_mm=refined_mm,
                known=before,
            )
        except ValueError:
            return _boxed(shape)
        found = _skin(faces, inset_mm, refined, refined_mm)
        if found.manifold is not None:
            break
    return found


def _boxed(shape: TopoDS_Shape) -> Skin:
    box = Bnd_Box()
    BRepBndLib.Add_s(shape, box, False)
    low, high = np.array(box.Get()).reshape(2, 3)
    corners = np.array([(x, y, z) for x in (low[0], high[0]) for y in (low[1], high[1]) for z in (low[2], high[2])])
    return Skin(hull=corners, manifold=None, slack_mm=0.0, name=0, triangle_count=0, bows_mm=())


def _skin(faces: Sequence[Facets], inset_mm: float, refined: Collection[int], deflection_mm: float) -> Skin:
    """The skin of a solid from the meshes of its faces."""
    mesh = joined(faces)
    bulge = _bulges(mesh)
    kept, number, whole = welded(mesh)
    held = mesh.points[kept] + _moves(mesh, bulge, number, len(kept), inset_mm)
    triangles = number[mesh.triangles[whole]]
    owner = np.repeat(np.arange(len(faces)), [len(f.triangles) for f in faces])[whole]
    made, name = _manifold(held, triangles, owner)
    sound = made.status() == manifold3d.Error.NoError and not made.is_empty() and made.volume() > 0.0
    corners = np.asarray(manifold3d.Manifold.hull_points(held).to_mesh64().vert_properties)[:, :3]
    rises = np.maximum.reduceat(bulge.rise_mm, np.cumsum([0, *(len(f.points) for f in faces[:-1])]))
    bows = np.split(bulge.bows_mm, np.cumsum([len(f.triangles) for f in faces[:-1]]), axis=1)
    return Skin(
        hull=corners if len(corners) else held,
        manifold=made if sound else None,
        slack_mm=float(rises[list(refined) or slice(None)].max()) + (0.0 if mesh.flat.all() else deflection_mm),
        name=name,
        triangle_count=len(triangles),
        bows_mm=tuple(bows),
    )


def _manifold(
    points: Points, triangles: npt.NDArray[np.int64], owner: npt.NDArray[np.int64]
) -> tuple[manifold3d.Manifold, int]:
    """The skin for mesh booleans, whose triangles remember the face they came from, and the number by which
    its own are told from others'.
    """
    name = manifold3d.Manifold.reserve_ids(1)
    mesh = manifold3d.Mesh64(
        vert_properties=points,
        tri_verts=triangles.astype(np.uint64),
        run_original_id=np.array([name], dtype=np.uint32),
        run_index=np.array([0, 3 * len(triangles)], dtype=np.uint64),
        face_id=owner.astype(np.uint64),
    )
    return manifold3d.Manifold(mesh), name


def faces_of(shared: manifold3d.Manifold, owner: Skin) -> tuple[int, ...]:
    """Which faces of a solid bound what its skin shares with another."""
    mesh = shared.to_mesh64()
    runs, faces = np.asarray(mesh.run_index) // 3, np.asarray(mesh.face_id)
    own = [
        faces[runs[k] : runs[k + 1]] for k, name in enumerate(np.asarray(mesh.run_original_id)) if name == owner.name
    ]
    return tuple(np.unique(np.concatenate(own)).tolist()) if own else ()


def _bulges(face: Facets) -> _Bulges:
    """Bulges of smooth faces, each with points of its own; all 0 where one is flat or hollow.

    Over an edge with ends p, q and normals m, n an arc rises (n - m).(q - p)/8 above its chord; over a
    triangle whose edges rise by a >= b >= c, at most a + c/3 (the greatest value of the quadratic). The slide
    is a quarter of the chord, r tan(w/4) for an arc of sweep w.
    """
    count = len(face.points)
    found, slides = np.zeros(count), np.zeros((count, 3))
    if face.flat.all():
        return _Bulges(rise_mm=found, slide_mm=slides, bows_mm=np.zeros((2, len(face.triangles))))
    bows, steepest = np.zeros((3, len(face.triangles))), np.zeros(count)
    for k, (i, j) in enumerate(((0, 1), (1, 2), (2, 0))):
        p, q = face.triangles[:, i], face.triangles[:, j]
        turn, way = face.normals[q] - face.normals[p], face.points[q] - face.points[p]
        along, size = np.einsum("ij,ij->i", turn, way), np.einsum("ij,ij->i", turn, turn)
        bows[k] = along / 8.0
        quarter = turn * np.divide(along, 4.0 * size, out=np.zeros_like(along), where=size > 1e-12)[:, None]
        for ends, sign in ((p, 1.0), (q, -1.0)):
            best = steepest.copy()
            np.maximum.at(best, ends, bows[k])
            wins = (bows[k] > steepest[ends]) & (bows[k] == best[ends])
            slides[ends[wins]], steepest = sign * quarter[wins], best
    rises, either = np.maximum(bows, 0.0), np.sort(np.abs(bows), axis=0)
    rise = rises.max(axis=0) + rises.min(axis=0) / 3.0
    for k in range(3):
        np.maximum.at(found, face.triangles[:, k], rise * SAFETY)
    return _Bulges(rise_mm=found, slide_mm=slides * SAFETY, bows_mm=either[[0, 2]])


def _moves(mesh: Facets, bulge: _Bulges, number: npt.NDArray[np.int64], count: int, inset_mm: float) -> Points:
    """The least move of each welded point that brings it out past every face it belongs to by that face's
    bulge, and in again by the inset; at corners and edges no further than that, so that a corner that stands
    in something else still does.
    """
    moves, need = np.zeros((count, 3)), bulge.rise_mm - inset_mm
    used = np.bincount(number, minlength=count)
    order = np.argsort(number, kind="stable")
    begins = np.searchsorted(number[order], np.arange(count))
    for faces in (1, 2, 3):
        at = np.flatnonzero(used == faces)
        own = order[begins[at][:, None] + np.arange(faces)]
        normals, rises = mesh.normals[own], need[own]
        spread = np.einsum("ijk,ilk->ijl", normals, normals)
        plain = (np.abs(spread - np.eye(faces)).max(axis=(1, 2)) < TANGENT) & (
            np.abs(np.linalg.det(spread)) > LEAST_SPREAD
        )
        sums = np.stack([rises[plain] + inset_mm, np.full_like(rises[plain], -inset_mm)], axis=2)
        weights = np.linalg.solve(spread[plain], sums)
        out, back = np.moveaxis(np.einsum("ijs,ijk->isk", weights, normals[plain]), 1, 0)
        moves[at[plain]] = out + _no_further(back, inset_mm)
        used[at[plain]] = 0
    smooth = np.flatnonzero(used == 2)
    pairs = order[begins[smooth][:, None] + np.arange(2)]
    alike = np.einsum("ij,ij->i", mesh.normals[pairs[:, 0]], mesh.normals[pairs[:, 1]]) > TANGENT
    smooth, pairs = smooth[alike], pairs[alike]
    out = _smooth_moves(mesh, bulge.slide_mm, pairs, need[pairs] + inset_mm)
    both = _smooth_moves(mesh, bulge.slide_mm, pairs, need[pairs])
    moves[smooth] = out + _no_further(both - out, inset_mm)
    used[smooth] = 0
    for left in np.flatnonzero(used):
        own = order[begins[left] : begins[left] + used[left]]
        sides = mesh.normals[own], mesh.flat[own], bulge.slide_mm[own]
        out = _least_move(sides[0], sides[1], need[own] + inset_mm, sides[2])
        both = _least_move(sides[0], sides[1], need[own], sides[2])
        moves[left] = out + _no_further((both - out)[None], inset_mm)[0]
    return moves


def _smooth_moves(mesh: Facets, slides: Points, pairs: npt.NDArray[np.int64], need: Points) -> Points:
    """What ``_least_move`` says for points that belong to two faces (n, 2) which run on smoothly into one another,
    all at once.
    """
    rows, flat = np.arange(len(pairs)), mesh.flat[pairs]
    first = np.where(flat[:, 0] != flat[:, 1], flat[:, 1], need[:, 1] > need[:, 0]).astype(np.int64)
    one, other = pairs[rows, first], pairs[rows, 1 - first]
    normals, sums, more = mesh.normals[one], need[rows, first], need[rows, 1 - first]
    lean = np.einsum("ij,ij->i", normals, mesh.normals[other])
    round_both = ~flat.any(axis=1)
    sums = np.where(round_both, np.maximum(sums, np.where(more > 0.0, more / lean, more)), sums)
    shift = np.where((flat[rows, first] & ~flat[rows, 1 - first])[:, None], slides[other], 0.0)
    return np.asarray(shift + normals * (sums - np.einsum("ij,ij->i", normals, shift))[:, None])


def _no_further(moves: Points, most_mm: float) -> Points:
    """Moves (n, 3) cut down to a length."""
    size = np.linalg.norm(moves, axis=1)
    return np.asarray(moves * np.minimum(1.0, most_mm / np.maximum(size, 1e-300))[:, None])


def _least_move(normals: Points, flat: npt.NDArray[np.bool_], need: Points, slides: Points) -> Points:
    """A move d with n.d as needed for every face that meets the others at an angle.

    Where a face runs on smoothly from a flat one, d slides along that one instead. Smooth faces that run on
    into one another count as one.
    """
    ways: list[Points] = []
    sums: list[float] = []
    on_flat: list[bool] = []
    shift = np.zeros(3)
    for k in sorted(range(len(need)), key=lambda i: (not flat[i], -need[i])):
        like = [j for j, way in enumerate(ways) if float(normals[k] @ way) > TANGENT]
        if like and not flat[k] and not on_flat[like[0]]:
            lean = float(normals[k] @ ways[like[0]])  # it looks a little another way, so it needs a little more
            sums[like[0]] = max(sums[like[0]], float(need[k]) / lean if need[k] > 0.0 else float(need[k]))
        if not like:
            ways.append(normals[k])
            sums.append(float(need[k]))
            on_flat.append(bool(flat[k]))
        elif not flat[k] and on_flat[like[0]]:
            shift = shift + slides[k]
    rows = np.array(ways)
    return np.asarray(shift + np.linalg.lstsq(rows, np.array(sums) - rows @ shift, rcond=0.05)[0])
