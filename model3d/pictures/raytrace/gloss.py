"""Sheen: how much a surface mirrors, how blurred, and the light that its mirror picks up."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from model3d.pictures.raytrace.gather import Lighting, by_rank
from model3d.pictures.raytrace.patches import from_behind
from model3d.pictures.raytrace.portals import Points
from model3d.pictures.raytrace.sampling import cell_shifts, disc_sets, frames
from model3d.pictures.raytrace.surface import Surface
from model3d.pictures.raytrace.work import each
from model3d.pictures.raytrace.world import START_MM

F32 = npt.NDArray[np.float32]

ROUGHNESS = {
    "matt": 1.0,
    "satin": 0.34,
    "wood-floor": 0.36,
    "herringbone": 0.36,
    "tiles": 0.26,
    "carpet": 1.0,
    "wood": 0.5,
    "fabric": 1.0,
    "glass": 0.02,
    "metal": 0.28,
}
MIRRORED_HEAD_ON = {
    "satin": 0.04,
    "wood-floor": 0.036,
    "herringbone": 0.036,
    "tiles": 0.04,
    "wood": 0.035,
    "metal": 0.75,
}


@dataclass(frozen=True, slots=True)
class Sheens:
    """Per mesh: roughness (0 a mirror, 1 dull) and the share mirrored head-on (0 for none)."""

    rough: F32
    head_on: F32


def sheens(surfaces: list[Surface]) -> Sheens:
    """The sheen of every surface; a surface's own ``gloss`` sets its roughness."""
    rough = [ROUGHNESS[s.kind] if s.gloss is None else 1.0 - s.gloss for s in surfaces]
    head_on = [MIRRORED_HEAD_ON.get(s.kind, 0.0) for s in surfaces]
    return Sheens(np.clip(np.array(rough, np.float32), 0.02, 1), np.array(head_on, np.float32))


def mirrored_share(facing: F32, head_on: F32 | np.float32, rough: F32 | np.float32) -> F32:
    """Share of light mirrored toward the eye: Schlick's form, its rise at grazing sight damped by roughness."""
    most = np.maximum(1 - rough, head_on)
    return np.asarray(head_on + (most - head_on) * (1 - np.clip(facing, 0, 1)) ** 5, np.float32)


def sun_glint(sight: F32, normal: F32, toward_sun: F32, rough: F32) -> F32:
    """Brightness of the sun's own blurred image (n,), per unit of sun: a GGX lobe with Smith-like shadowing."""
    half = toward_sun - sight
    half = half / np.sqrt(np.einsum("ij,ij->i", half, half))[:, None]
    to_sun = np.maximum(normal @ toward_sun, np.float32(0))
    to_eye = np.maximum(-np.einsum("ij,ij->i", normal, sight), np.float32(0.05))
    spread = np.maximum(rough * rough, np.float32(0.06)) ** 2
    lean = np.maximum(np.einsum("ij,ij->i", normal, half), 0)
    lobe = spread / (math.pi * (lean * lean * (spread - 1) + 1) ** 2)
    k = (rough + 1) ** 2 / 8
    shade = 1 / ((to_sun * (1 - k) + k) * (to_eye * (1 - k) + k))
    return np.asarray(lobe * shade * to_sun * np.float32(math.pi / 4), np.float32)


def mirrored(lighting: Lighting, points: Points, sight: F32, rough: F32, rays: int) -> F32:
    """Light (n, 3) that comes along the mirrored sight, blurred by roughness, ``rays`` rays each."""
    received = np.zeros((len(points), 3), np.float32)
    disc = disc_sets(rays, lighting.seed + 3)
    shift = cell_shifts(rays, lighting.seed)
    world, patches = lighting.world, lighting.patches

    def one(chosen: npt.NDArray[np.intp]) -> None:
        here = points.some(chosen)
        along = np.einsum("ij,ij->i", sight[chosen], here.normal)
        straight = sight[chosen] - 2 * along[:, None] * here.normal
        axes = frames(straight)
        start = here.place + here.flat * np.float32(START_MM)
        blur = (rough[chosen] * rough[chosen] * np.float32(1.6))[:, None]
        for ray in range(rays):
            x, y = disc[here.rank, ray]
            toward = straight + blur * (x * axes[:, 0] + y * axes[:, 1])
            dip = np.minimum(np.einsum("ij,ij->i", toward, here.flat) - np.float32(0.01), 0)
            toward = toward - 2 * dip[:, None] * here.flat
            toward /= np.sqrt(np.einsum("ij,ij->i", toward, toward))[:, None]
            hits = world.light.hits(np.ascontiguousarray(start), np.ascontiguousarray(toward))
            moved = np.broadcast_to(shift[here.rank, ray], (len(chosen), 2))
            coming = patches.sent[patches.cells.of(hits, from_behind(world, hits, toward), moved)]
            missed = np.flatnonzero(hits.triangle < 0)
            coming[missed] = lighting.sky.radiance(toward[missed])
            received[chosen] += coming / np.float32(rays)

    each(one, by_rank(points, 100_000), lighting.threads)
    return received
