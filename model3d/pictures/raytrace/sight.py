"""What each camera ray sees: mesh, place, facing; the ground under the room; panes looked through."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np
import numpy.typing as npt

from model3d.pictures.raytrace.surface import TraceMesh
from model3d.pictures.raytrace.view import View
from model3d.pictures.raytrace.world import Hits, RayScene, World, build_world

F32 = npt.NDArray[np.float32]
I32 = npt.NDArray[np.int32]

NOTHING = -1
GROUND = -2


@dataclass(frozen=True, slots=True)
class Seen:
    """For each camera ray (n): mesh number (NOTHING, GROUND or from 0), triangle with barycentric u, v, place (n, 3),
    shading and flat normals (n, 3) toward the eye, unit direction of sight (n, 3), depth along the ray mm, and the
    mesh number of the first pane looked through (NOTHING without one) with the pane's facing to the ray."""

    mesh: I32
    triangle: I32
    place: F32
    normal: F32
    flat: F32
    sight: F32
    depth: F32
    pane: I32
    pane_facing: F32
    pane_height: F32

    def some(self, chosen: npt.NDArray[np.intp] | slice) -> Seen:
        """The rays with the numbers chosen."""
        return Seen(*(getattr(self, field.name)[chosen] for field in fields(self)))

    def __len__(self) -> int:
        return len(self.mesh)


def joined(parts: Sequence[Seen]) -> Seen:
    """The rays of all parts in order."""
    return Seen(*(np.concatenate([getattr(p, field.name) for p in parts]) for field in fields(Seen)))


@dataclass(frozen=True, slots=True)
class Camera:
    """A view in the world's own (centred) frame: eye (3,), unit rows right, up, forward, and one pixel's width at a
    distance of one; ``middle_y`` is the picture row straight ahead of the eye."""

    eye: F32
    axes: F32
    pixel: float
    width: int
    height: int
    middle_y: float

    def sights(self, x: F32, y: F32) -> F32:
        """Unit directions (n, 3) through picture points; a pixel's centre is at half numbers."""
        ahead = np.stack(
            [
                (x - np.float32(self.width / 2)) * np.float32(self.pixel),
                (np.float32(self.middle_y) - y) * np.float32(self.pixel),
                np.ones_like(x),
            ],
            axis=1,
        )
        ahead = ahead @ self.axes
        return np.asarray(ahead / np.sqrt(np.einsum("ij,ij->i", ahead, ahead))[:, None], np.float32)

    def footprint(self, seen: Seen) -> F32:
        """How far the place moves for one pixel to the right and one up, (n, 2, 3) mm, on the flat surface."""
        facing = np.minimum(np.einsum("ij,ij->i", seen.sight, seen.flat), np.float32(-0.06))
        out = np.empty((len(seen), 2, 3), np.float32)
        for k in (0, 1):
            along = (seen.flat @ self.axes[k]) / facing
            out[:, k] = self.axes[k] - seen.sight * along[:, None]
        out *= (seen.depth * np.float32(self.pixel))[:, None, None]
        return out


def camera_of(view: View, world: World) -> Camera:
    """The camera of a view."""
    width, height = view.size_px
    return Camera(
        eye=(np.asarray(view.eye_mm) - world.centre_mm).astype(np.float32),
        axes=view.axes().astype(np.float32),
        pixel=2 * view.half_width() / width,
        width=width,
        height=height,
        middle_y=(0.5 + view.shift) * height,
    )


def pixel_centres(camera: Camera) -> tuple[F32, F32]:
    """Picture points x, y (width*height,) of every pixel's centre, row by row."""
    x = np.arange(camera.width, dtype=np.float32) + np.float32(0.5)
    y = np.arange(camera.height, dtype=np.float32) + np.float32(0.5)
    return np.tile(x, camera.height), np.repeat(y, camera.width)


def cast(scene: RayScene, camera: Camera, sights: F32) -> Hits:
    """The first thing each sight meets."""
    return scene.hits(np.ascontiguousarray(np.broadcast_to(camera.eye, sights.shape)), sights)


def look(world: World, camera: Camera, x: F32, y: F32, ground: float, ground_reach: float) -> Seen:
    """What is seen through the picture points x, y (n,).

    ``ground`` is the ground's height in the world's frame; past ``ground_reach`` mm from the world's middle there is
    nothing but background.
    """
    sight = camera.sights(x, y)
    hits = cast(world.seen, camera, sight)
    pane = np.full(len(x), NOTHING, np.int32)
    pane_facing, pane_height = np.zeros(len(x), np.float32), np.zeros(len(x), np.float32)
    if world.behind_glass is not None:
        hits = _through(world, camera, sight, hits, pane, pane_facing, pane_height)
    met = hits.triangle >= 0
    triangle = np.where(met, hits.triangle, 0)
    place = world.points(triangle, hits.u, hits.v)
    normal = world.shading_normals(triangle, hits.u, hits.v)
    flat = world.flat[triangle]
    away = np.where(np.einsum("ij,ij->i", flat, sight) > 0, np.float32(-1), np.float32(1))[:, None]
    mesh = np.where(met, world.mesh[triangle], np.int32(NOTHING)).astype(np.int32)
    seen = Seen(
        mesh,
        triangle,
        place,
        normal * away,
        flat * away,
        sight,
        hits.distance.copy(),
        pane,
        pane_facing,
        pane_height,
    )
    _toward_eye(seen)
    _lay_ground(seen, camera, ground, ground_reach)
    return seen


def _through(
    world: World, camera: Camera, sight: F32, hits: Hits, pane: I32, pane_facing: F32, pane_height: F32
) -> Hits:
    """The hits with panes looked through; marks the panes."""
    first = np.where(hits.triangle < 0, 0, hits.triangle)
    mesh = world.mesh[first]
    is_glass = np.array([m.surface.kind == "glass" for m in world.meshes])
    chosen = np.flatnonzero((hits.triangle >= 0) & is_glass[mesh])
    if len(chosen) == 0 or world.behind_glass is None:
        return hits
    pane[chosen] = mesh[chosen]
    pane_facing[chosen] = np.abs(np.einsum("ij,ij->i", world.flat[first[chosen]], sight[chosen]))
    pane_height[chosen] = world.points(first[chosen], hits.u[chosen], hits.v[chosen])[:, 2]
    beyond = cast(world.behind_glass, camera, sight[chosen])
    out = Hits(hits.triangle.copy(), hits.u.copy(), hits.v.copy(), hits.distance.copy())
    out.triangle[chosen], out.u[chosen], out.v[chosen] = beyond.triangle, beyond.u, beyond.v
    out.distance[chosen] = beyond.distance
    return out


def _toward_eye(seen: Seen) -> None:
    """Bend shading normals that look away from the eye back to the edge of sight, so that rims stay lit."""
    dip = np.einsum("ij,ij->i", seen.normal, seen.sight)
    bent = np.flatnonzero(dip > -0.02)
    if len(bent):
        normal = seen.normal[bent] - seen.sight[bent] * (dip[bent] + np.float32(0.02))[:, None]
        seen.normal[bent] = normal / np.sqrt(np.einsum("ij,ij->i", normal, normal))[:, None]


def _lay_ground(seen: Seen, camera: Camera, ground: float, reach: float) -> None:
    drop = np.float32(ground) - camera.eye[2]
    with np.errstate(divide="ignore", invalid="ignore"):
        distance = drop / seen.sight[:, 2]
        place = camera.eye + seen.sight * distance[:, None]
        near = np.hypot(place[:, 0], place[:, 1]) < reach
    on = np.flatnonzero((seen.mesh == NOTHING) & (distance > 0) & near & (camera.eye[2] > ground))
    seen.mesh[on] = GROUND
    seen.place[on] = place[on]
    seen.depth[on] = distance[on]
    up = np.array([0, 0, 1], np.float32)
    seen.normal[on] = up
    seen.flat[on] = up


def id_map(meshes: Sequence[TraceMesh], view: View) -> I32:
    """Which mesh each pixel shows: (height, width) numbers into ``meshes``, -1 for none; panes are looked through.

    Raises ValueError when no mesh has a triangle in view.
    """
    world = build_world(meshes)
    camera = camera_of(view, world)
    x, y = pixel_centres(camera)
    scene = world.behind_glass or world.seen
    hits = cast(scene, camera, camera.sights(x, y))
    mesh = np.where(hits.triangle < 0, np.int32(-1), world.mesh[np.maximum(hits.triangle, 0)])
    return np.asarray(mesh.reshape(camera.height, camera.width), np.int32)
