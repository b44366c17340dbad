"""Placed meshes made ready for rays: joined arrays, surface tables and the embree scenes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt
from embreex.mesh_construction import TriangleMesh
from embreex.rtcore_scene import EmbreeScene

from model3d.pictures.raytrace.normals import (
    corner_normals,
    face_vectors,
    is_closed,
    is_inside_out,
    unit,
    welded,
)
from model3d.pictures.raytrace.surface import KINDS, TraceMesh

F32 = npt.NDArray[np.float32]
F64 = npt.NDArray[np.float64]
I32 = npt.NDArray[np.int32]
Bool = npt.NDArray[np.bool_]

START_MM = 0.05
"""How far off a surface a ray starts, so that it does not meet the surface it leaves (float32 at 10 m: .001 mm)."""

_CAP_SLACK_MM = 0.5
_FAR = np.float32(1e9)


@dataclass(frozen=True, slots=True)
class Hits:
    """What rays met: triangle number (n,), -1 for none, its barycentric u and v (n,), and the distance mm (n,)."""

    triangle: I32
    u: F32
    v: F32
    distance: F32


class RayScene:
    """Some of the world's triangles, ready for rays. ``hits`` and ``blocked`` take (n, 3) float32 arrays."""

    def __init__(self, corners: F32, chosen: I32) -> None:
        self._chosen = chosen
        self._scene: Any = None
        if len(chosen):
            self._scene = EmbreeScene(robust=True)
            vertices = np.ascontiguousarray(corners[chosen].reshape(-1, 3))
            TriangleMesh(self._scene, vertices, np.arange(len(vertices), dtype=np.int32).reshape(-1, 3))
            self._scene.run(np.zeros((1, 3), np.float32), np.array([[0, 0, 1]], np.float32))

    def hits(self, origins: F32, directions: F32) -> Hits:
        """The first triangle each ray meets, from either side."""
        n = len(origins)
        if self._scene is None or n == 0:
            zero = np.zeros(n, np.float32)
            return Hits(np.full(n, -1, np.int32), zero, zero, np.full(n, _FAR, np.float32))
        found = self._scene.run(origins, directions, output=1)
        prim = found["primID"]
        triangle = self._chosen[np.where(prim < 0, 0, prim)]
        return Hits(np.where(prim < 0, np.int32(-1), triangle), found["u"], found["v"], found["tfar"])

    def blocked(self, origins: F32, directions: F32) -> Bool:
        """Whether anything stands along each ray."""
        if self._scene is None or len(origins) == 0:
            return np.zeros(len(origins), np.bool_)
        return np.asarray(self._scene.run(origins, directions, query="OCCLUDED") >= 0, np.bool_)


@dataclass(frozen=True, slots=True)
class World:
    """All meshes joined, moved so that ``centre_mm`` is the origin (float32 stays fine far from the room's origin).

    Per triangle: ``corners`` (m, 3, 3), the longest edge first, flat normals ``flat`` (m, 3), corner normals
    ``rounded`` (m, 3, 3), mesh number, ``albedo`` (m, 3), ``open`` where the mesh has a rim and is lit on both sides.
    Per mesh: ``kind``, and ``glow`` (k, 3), light of its own.
    ``least`` and ``greatest`` are the corners of the box round everything seen.
    """

    meshes: tuple[TraceMesh, ...]
    centre_mm: F64
    corners: F32
    flat: F32
    rounded: F32
    mesh: I32
    albedo: F32
    open: Bool
    kind: I32
    glow: F32
    seen: RayScene
    behind_glass: RayScene | None
    light: RayScene
    lit: Bool
    least: F64
    greatest: F64

    def points(self, triangle: I32, u: F32, v: F32) -> F32:
        """Points (n, 3) on the triangles at barycentric u, v."""
        return _blend(self.corners[triangle], u, v)

    def shading_normals(self, triangle: I32, u: F32, v: F32) -> F32:
        """Unit normals (n, 3), rounded where the mesh is smooth."""
        normal = _blend(self.rounded[triangle], u, v)
        normal /= np.maximum(np.sqrt(np.einsum("ij,ij->i", normal, normal)), np.float32(1e-6))[:, None]
        return normal


def _blend(values: F32, u: F32, v: F32) -> F32:
    a, b, c = values[:, 0], values[:, 1], values[:, 2]
    return np.asarray(a + (b - a) * u[:, None] + (c - a) * v[:, None], np.float32)


def kind_number(kind: str) -> int:
    """The number under which ``World.kind`` stores a surface kind."""
    return [str(k) for k in KINDS].index(kind)


@dataclass(frozen=True, slots=True)
class _Prepared:
    corners: F64
    flat: F64
    rounded: F64
    albedo: F64
    open: bool


def _longest_first(vertices: F64, triangles: I32) -> I32:
    """The triangles with their corners turned so that the longest edge runs from the first to the second."""
    edges = vertices[triangles[:, [1, 2, 0]]] - vertices[triangles]
    turn = np.argmax(np.einsum("ijk,ijk->ij", edges, edges), axis=1)
    order = (turn[:, None] + np.arange(3)) % 3
    return np.asarray(np.take_along_axis(triangles, order, axis=1), np.int32)


def _prepared(mesh: TraceMesh) -> _Prepared:
    vertices, triangles = mesh.vertices, _longest_first(mesh.vertices, mesh.triangles)
    area = face_vectors(vertices, triangles)
    kept = np.einsum("ij,ij->i", area, area) > 1e-12
    triangles, area = triangles[kept], area[kept]
    closed = is_closed(welded(vertices, triangles)) if len(triangles) else False
    if closed and is_inside_out(vertices, triangles):
        triangles, area = triangles[:, [1, 0, 2]], -area
    flat = unit(area)
    smooth = corner_normals(vertices, triangles) if mesh.smooth else np.repeat(flat[:, None], 3, axis=1)
    albedo = np.tile(np.asarray(mesh.surface.colour), (len(triangles), 1))
    height = vertices[triangles, 2]
    for cap in mesh.caps_mm:
        top = (np.abs(height - cap) < _CAP_SLACK_MM).all(axis=1) & (flat[:, 2] > 0.99)
        albedo[top] = mesh.surface.cap_colour
    return _Prepared(vertices[triangles], flat, smooth, albedo, not closed)


def build_world(meshes: Sequence[TraceMesh]) -> World:
    """The world of the meshes. Raises ValueError when there is no triangle at all to see."""
    parts = [_prepared(mesh) for mesh in meshes]
    sizes = [len(p.corners) for p in parts]
    if sum(n for n, m in zip(sizes, meshes, strict=True) if m.in_view) == 0:
        raise ValueError("there is no triangle to see: every mesh is empty or not in view")
    number = np.repeat(np.arange(len(parts), dtype=np.int32), sizes)
    corners = np.concatenate([p.corners for p in parts])
    in_view = np.array([m.in_view for m in meshes])[number]
    glass = np.array([m.surface.kind == "glass" for m in meshes])[number]
    in_light = np.array([m.in_light for m in meshes])[number] & ~glass
    seen = corners[in_view].reshape(-1, 3)
    least, greatest = seen.min(axis=0), seen.max(axis=0)
    centre = (least + greatest) / 2
    local = (corners - centre).astype(np.float32)

    def some(chosen: Bool) -> RayScene:
        return RayScene(local, np.flatnonzero(chosen).astype(np.int32))

    return World(
        meshes=tuple(meshes),
        centre_mm=centre,
        corners=local,
        flat=np.concatenate([p.flat for p in parts]).astype(np.float32),
        rounded=np.concatenate([p.rounded for p in parts]).astype(np.float32),
        mesh=number,
        albedo=np.concatenate([p.albedo for p in parts]).astype(np.float32),
        open=np.repeat([p.open for p in parts], sizes),
        kind=np.array([kind_number(m.surface.kind) for m in meshes], np.int32),
        glow=np.array([m.surface.glow for m in meshes], np.float32),
        seen=some(in_view),
        behind_glass=some(in_view & ~glass) if bool((glass & in_view).any()) else None,
        light=some(in_light),
        lit=in_light,
        least=least - centre,
        greatest=greatest - centre,
    )
