"""Light received at points: from sky and surfaces around them, and from the sun with a soft edge."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from model3d.pictures.raytrace.patches import LUMINANCE, Patches, from_behind
from model3d.pictures.raytrace.portals import Ambient, Points, PortalHere, by_portal
from model3d.pictures.raytrace.sampling import RANKS, cell_shifts, cosine_sets, disc_sets, frames, turned
from model3d.pictures.raytrace.sky import Sky
from model3d.pictures.raytrace.work import each
from model3d.pictures.raytrace.world import START_MM, World

F32 = npt.NDArray[np.float32]
I32 = npt.NDArray[np.int32]

_RAYS_AT_ONCE = 160_000


@dataclass(frozen=True, slots=True)
class Lighting:
    """All that light is gathered from."""

    world: World
    sky: Sky
    patches: Patches
    seed: int
    threads: int
    portals: tuple[PortalHere, ...] = ()


def by_rank(points: Points, most: int) -> list[npt.NDArray[np.intp]]:
    """Point numbers in pieces of one rank each, none longer than ``most``."""
    order = np.argsort(points.ranks, kind="stable")
    ends = np.cumsum(np.bincount(points.ranks, minlength=RANKS))
    pieces = []
    for begin, end in zip([0, *ends[:-1]], ends, strict=True):
        for at in range(begin, end, most):
            pieces.append(order[at : min(at + most, end)])
    return pieces


def _above(directions: F32, flat: F32) -> F32:
    """Directions (k, n, 3) that dip under the flat surface turned up over it."""
    dip = np.minimum(np.einsum("kij,ij->ki", directions, flat), np.float32(0))
    if not dip.any():
        return directions
    return np.asarray(directions - 2 * dip[..., None] * flat, np.float32)


def ambient(lighting: Lighting, points: Points, rays: int) -> Ambient:
    """Light from sky and surfaces at the points, ``rays`` cosine-weighted rays each."""
    sets = cosine_sets(rays, lighting.seed)
    shift = cell_shifts(rays, lighting.seed)
    received = np.zeros((len(points), 3), np.float32)
    variance = np.zeros(len(points), np.float32)
    world, patches = lighting.world, lighting.patches

    def one(chosen: npt.NDArray[np.intp]) -> None:
        here = points.some(chosen)
        directions = turned(sets[here.rank], frames(here.normal))
        directions = _above(directions, here.flat).reshape(-1, 3)
        start = here.place + here.flat * np.float32(START_MM)
        origins = np.broadcast_to(start, (rays, *start.shape)).reshape(-1, 3)
        hits = world.light.hits(np.ascontiguousarray(origins), np.ascontiguousarray(directions))
        moved = np.repeat(shift[here.rank], len(here), axis=0)
        coming = patches.sent[patches.cells.of(hits, from_behind(world, hits, directions), moved)]
        missed = np.flatnonzero(hits.triangle < 0)
        coming[missed] = 0 if lighting.portals else lighting.sky.radiance(directions[missed])
        coming = coming.reshape(rays, -1, 3)
        mean = coming.mean(axis=0)
        received[chosen] = mean
        if rays > 1:
            variance[chosen] = (coming @ LUMINANCE).var(axis=0)
        for portal in lighting.portals:
            through = by_portal(world, lighting.sky, portal, here, max(2, rays // 4), lighting.seed)
            received[chosen] += through.received
            variance[chosen] += through.variance * np.float32(rays / max(2, rays // 4))

    each(one, by_rank(points, max(1, _RAYS_AT_ONCE // rays)), lighting.threads)
    return Ambient(received, variance)


def sunlight(lighting: Lighting, points: Points, rays: int, reach: F32 | None = None) -> F32:
    """How much of the sun's disc each point sees, 0 to 1, times nothing else.

    ``reach`` (n, 2, 3) spreads the rays' starting points over the area each point stands for, so that the edge of a
    hard shadow is smooth too.
    """
    sky, world = lighting.sky, lighting.world
    disc = disc_sets(rays, lighting.seed + 1)
    jitter = disc_sets(rays, lighting.seed + 2)[:, ::-1]
    axes = frames(sky.toward_sun[None])[0]
    width = np.float32(np.tan(sky.half_width))
    visible = np.zeros(len(points), np.float32)

    def one(chosen: npt.NDArray[np.intp]) -> None:
        here = points.some(chosen)
        toward = sky.toward_sun + (disc[here.rank] * width) @ axes[:2]
        toward = (toward / np.linalg.norm(toward, axis=1, keepdims=True)).astype(np.float32)
        start = here.place + here.flat * np.float32(START_MM)
        origins = np.repeat(start[None], rays, axis=0)
        if reach is not None:
            origins += np.einsum("ka,nac->knc", jitter[here.rank], reach[chosen])
        directions = np.repeat(toward, len(chosen), axis=0)
        clear = ~world.light.blocked(origins.reshape(-1, 3), np.ascontiguousarray(directions))
        visible[chosen] = clear.reshape(rays, -1).mean(axis=0)

    facing = np.flatnonzero((points.flat @ sky.toward_sun > 0) & (points.normal @ sky.toward_sun > 0))
    pieces = [facing[p] for p in by_rank(points.some(facing), max(1, _RAYS_AT_ONCE // rays))]
    each(one, pieces, lighting.threads)
    return visible
