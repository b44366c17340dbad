"""Points that ask for light, and the daylight that reaches them through openings, sampled there."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from model3d.pictures.raytrace.patches import LUMINANCE
from model3d.pictures.raytrace.sampling import square_sets
from model3d.pictures.raytrace.sky import Sky
from model3d.pictures.raytrace.view import Portal
from model3d.pictures.raytrace.world import START_MM, World

F32 = npt.NDArray[np.float32]
I32 = npt.NDArray[np.int32]


@dataclass(frozen=True, slots=True)
class Points:
    """Where light is asked for: place (n, 3), shading and flat unit normals (n, 3) toward the open side, and the
    rank (n,) of the set of rays each point uses."""

    place: F32
    normal: F32
    flat: F32
    ranks: I32

    def some(self, chosen: npt.NDArray[np.intp]) -> Points:
        """The points with the numbers chosen."""
        return Points(self.place[chosen], self.normal[chosen], self.flat[chosen], self.ranks[chosen])

    @property
    def rank(self) -> int:
        """The rank of points that share one."""
        return int(self.ranks[0])

    def __len__(self) -> int:
        return len(self.place)


@dataclass(frozen=True, slots=True)
class Ambient:
    """Light received from around (n, 3), and the spread of one ray's luminance (n,) as a variance."""

    received: F32
    variance: F32


@dataclass(frozen=True, slots=True)
class PortalHere:
    """A portal in the world's own frame: corner and edges (3,), unit normal (3,) toward the sky, area mm2."""

    corner: F32
    first: F32
    second: F32
    outward: F32
    area: float


def portal_here(portal: Portal, world: World) -> PortalHere:
    """A portal of the light, in the world's frame. Raises ValueError when its edges span no area."""
    first, second = (np.asarray(edge, np.float64) for edge in portal.edges_mm)
    normal = np.cross(first, second)
    area = float(np.linalg.norm(normal))
    if area < 1e-6:
        raise ValueError(f"a portal with the edges {portal.edges_mm} has no area")
    corner = (np.asarray(portal.corner_mm) - world.centre_mm).astype(np.float32)
    return PortalHere(
        corner, first.astype(np.float32), second.astype(np.float32), (normal / area).astype(np.float32), area
    )


def by_portal(world: World, sky: Sky, portal: PortalHere, points: Points, rays: int, seed: int) -> Ambient:
    """Light from the sky through a portal at points of one rank: ``rays`` points of the opening each, as much as the
    solid angle and the slant of each let in, nothing where something stands between."""
    n = len(points)
    sets = square_sets(rays, seed + 6)[points.rank]
    spots = portal.corner + sets[:, :1] * portal.first + sets[:, 1:] * portal.second
    start = points.place + points.flat * np.float32(START_MM)
    toward = spots[:, None, :] - start
    square = np.einsum("kij,kij->ki", toward, toward)
    toward /= np.sqrt(np.maximum(square, np.float32(1)))[..., None]
    falls = np.einsum("kij,ij->ki", toward, points.normal)
    leaves = toward @ portal.outward
    above = np.einsum("kij,ij->ki", toward, points.flat) > 0
    share = np.where(above, np.maximum(falls, 0) * np.maximum(leaves, 0), 0) * np.float32(portal.area / math.pi)
    share /= np.maximum(square, np.float32(portal.area / (4 * rays)))  # close to the opening one ray stands for a patch
    flat = share.reshape(-1)
    reached = np.flatnonzero(flat > 0)
    directions = np.ascontiguousarray(toward.reshape(-1, 3)[reached])
    origins = np.broadcast_to(start, (rays, n, 3)).reshape(-1, 3)[reached]
    clear = ~world.light.blocked(np.ascontiguousarray(origins), directions)
    coming = np.zeros((rays * n, 3), np.float32)
    coming[reached] = sky.radiance(directions) * (flat[reached] * clear)[:, None]
    each = coming.reshape(rays, n, 3)
    return Ambient(each.mean(axis=0), (each @ LUMINANCE).var(axis=0))
