"""Light over the whole picture: gathered on a coarse grid, smoothed, and carried to every point that is like."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from model3d.pictures.raytrace.denoise import Guide, affinity, smooth
from model3d.pictures.raytrace.gather import Lighting, ambient, sunlight
from model3d.pictures.raytrace.gloss import Sheens, mirrored
from model3d.pictures.raytrace.patches import LUMINANCE
from model3d.pictures.raytrace.portals import Points
from model3d.pictures.raytrace.sampling import RANKS, hashed, ranks
from model3d.pictures.raytrace.shade import AMBIENT, CHANNELS, MIRRORED, SUN
from model3d.pictures.raytrace.sight import NOTHING, Camera, Seen
from model3d.pictures.raytrace.view import Settings
from model3d.pictures.raytrace.work import each, spans

F32 = npt.NDArray[np.float32]
I32 = npt.NDArray[np.int32]
Chosen = npt.NDArray[np.intp]

_LIKE_ENOUGH = 0.3
_STEEP = 0.16
_PIECE = 60_000
_RING = [(dy, dx, np.float32(1 if dx and dy else 2)) for dy in (-1, 0, 1) for dx in (-1, 0, 1) if (dy, dx) != (0, 0)]
"""The eight neighbours and their weights, against four for the point itself."""


def _points(seen: Seen, rank: I32) -> Points:
    return Points(seen.place, seen.normal, seen.flat, rank)


def _glossy(sheens: Sheens, seen: Seen) -> Chosen:
    mesh = np.maximum(seen.mesh, 0)
    return np.flatnonzero((seen.mesh >= 0) & (sheens.head_on[mesh] > 0))


def direct_light(lighting: Lighting, sheens: Sheens, seen: Seen, rank: I32, rays: int, mirror_rays: int) -> F32:
    """Ambient and mirrored light (n, 6) of points by rays of their own, and the variance of the ambient mean (n,)
    as a seventh column."""
    out = np.zeros((len(seen), 7), np.float32)
    lit = np.flatnonzero(seen.mesh != NOTHING)
    found = ambient(lighting, _points(seen, rank).some(lit), rays)
    out[lit, :3], out[lit, 6] = found.received, found.variance / np.float32(rays)
    at = _glossy(sheens, seen)
    if mirror_rays and len(at):
        rough = sheens.rough[seen.mesh[at]]
        out[at, 3:6] = mirrored(lighting, _points(seen, rank).some(at), seen.sight[at], rough, mirror_rays)
    return out


class Field:
    """Light at every pixel's centre, (height * width, CHANNELS), with what is seen there, to look up from."""

    def __init__(self, camera: Camera, seen: Seen, light: F32) -> None:
        self.camera, self.seen, self.light = camera, seen, light

    def at(self, seen: Seen, x: F32, y: F32) -> tuple[F32, Chosen]:
        """Light (n, CHANNELS) at points seen through picture points x, y, and the numbers of points unlike all the
        pixels about them, whose light is not to be used."""
        column, row = np.floor(x - 0.5).astype(np.int32), np.floor(y - 0.5).astype(np.int32)
        weight, best = np.full(len(x), 1e-6, np.float32), np.zeros(len(x), np.float32)
        light = np.zeros((len(x), self.light.shape[1]), np.float32)
        everyone = np.arange(len(x))
        for dy in (0, 1):
            for dx in (0, 1):
                self._add(seen, (x, y), (column + dx, row + dy), everyone, light, weight, best)
        left = np.flatnonzero(best < 0.6)
        column, row = x.astype(np.int32), y.astype(np.int32)
        for dy in (-1, 0, 1):
            for dx in (-1, 0, 1):
                self._add(seen, (x, y), (column + dx, row + dy), left, light, weight, best)
        unlike = np.flatnonzero((best < _LIKE_ENOUGH) & (seen.mesh != NOTHING))
        return np.asarray(light / np.maximum(weight, np.float32(1e-6))[:, None], np.float32), unlike

    def _add(
        self,
        seen: Seen,
        at: tuple[F32, F32],
        pixel: tuple[I32, I32],
        chosen: Chosen,
        light: F32,
        weight: F32,
        best: F32,
    ) -> None:
        """Add one pixel's light, as far as it is like and near, to the points chosen."""
        camera = self.camera
        c = np.clip(pixel[0][chosen], 0, camera.width - 1)
        r = np.clip(pixel[1][chosen], 0, camera.height - 1)
        near = (r * camera.width + c).astype(np.intp)
        some = seen if len(chosen) == len(seen) else seen.some(chosen)
        w = self._like(some, near, camera)
        best[chosen] = np.maximum(best[chosen], w)
        x, y = at[0][chosen], at[1][chosen]
        w = w * (np.float32(0.04) + np.maximum(1 - np.abs(x - c - 0.5), 0) * np.maximum(1 - np.abs(y - r - 0.5), 0))
        light[chosen] += self.light[near] * w[:, None]
        weight[chosen] += w

    def _like(self, seen: Seen, near: Chosen, camera: Camera) -> F32:
        other = self.seen
        slack = seen.depth * np.float32(2 * camera.pixel)
        return affinity(
            seen.mesh,
            other.mesh[near],
            seen.normal,
            other.normal[near],
            seen.place - other.place[near],
            slack,
        )


def _grid(camera: Camera, step: int) -> tuple[I32, I32]:
    first = step // 2
    rows = np.arange(min(first, camera.height - 1), camera.height, step, dtype=np.int32)
    columns = np.arange(min(first, camera.width - 1), camera.width, step, dtype=np.int32)
    return rows, columns


def _coarse(
    lighting: Lighting, sheens: Sheens, camera: Camera, seen: Seen, settings: Settings
) -> tuple[I32, I32, Chosen, F32]:
    """Rows and columns of the grid, its pixel numbers, and smoothed light (rows, columns, 6)."""
    rows, columns = _grid(camera, settings.gather_px)
    chosen = (rows[:, None] * np.intp(camera.width) + columns).reshape(-1)
    shape = (len(rows), len(columns))
    here = seen.some(chosen)
    step_rows, step_columns = np.divmod(np.arange(len(chosen)), shape[1])
    rank = ranks(step_columns.astype(np.int32), step_rows.astype(np.int32))
    raw = direct_light(lighting, sheens, here, rank, settings.ambient_rays, settings.reflection_rays)
    guide = Guide(
        mesh=here.mesh.reshape(shape),
        place=here.place.reshape(*shape, 3),
        normal=here.normal.reshape(*shape, 3),
        step_mm=(here.depth * np.float32(camera.pixel * settings.gather_px)).reshape(shape),
    )
    light = raw[:, :6].reshape(*shape, 6)
    if settings.denoise:
        light = smooth(light, raw[:, 6].reshape(shape), guide, settings.denoise)
    return rows, columns, chosen, light.reshape(-1, 6)


def _spread(
    camera: Camera, seen: Seen, step: int, rows: I32, columns: I32, chosen: Chosen, coarse: F32, light: F32
) -> Chosen:
    """Carry the grid's light to every like pixel, into ``light``; returns the pixels unlike all grid points about."""
    width = len(columns)
    best = np.zeros(len(seen), np.float32)
    first_row, first_column = float(rows[0]), float(columns[0])

    def one(span: slice) -> None:
        number = np.arange(span.start, span.stop)
        row, column = np.divmod(number, camera.width)
        y, x = (row - first_row) / step, (column - first_column) / step
        y0 = np.clip(np.floor(y), 0, max(len(rows) - 2, 0)).astype(np.int32)
        x0 = np.clip(np.floor(x), 0, max(width - 2, 0)).astype(np.int32)
        fy, fx = np.clip(y - y0, 0, 1).astype(np.float32), np.clip(x - x0, 0, 1).astype(np.float32)
        mesh, normal, place = seen.mesh[span], seen.normal[span], seen.place[span]
        slack = seen.depth[span] * np.float32(1.5 * camera.pixel * step)
        total = np.zeros((len(number), 6), np.float32)
        weight = np.full(len(number), 1e-6, np.float32)
        for dy in (0, 1):
            for dx in (0, 1):
                r, c = np.minimum(y0 + dy, len(rows) - 1), np.minimum(x0 + dx, width - 1)
                near = chosen[r * width + c]
                w = affinity(mesh, seen.mesh[near], normal, seen.normal[near], place - seen.place[near], slack)
                np.maximum(best[span], w, out=best[span])
                w = w * ((fy if dy else 1 - fy) * (fx if dx else 1 - fx) + np.float32(0.05))
                total += w[:, None] * coarse[r * width + c]
                weight += w
        light[span, :6] = total / weight[:, None]

    each(one, spans(len(seen), _PIECE), 2)
    return np.flatnonzero((best < _LIKE_ENOUGH) & (seen.mesh != NOTHING))


def _steep(camera: Camera, seen: Seen, light: F32) -> Chosen:
    """Pixels about which ambient light changes faster than the coarse grid follows, as where two things touch: by more
    than ``_STEEP`` of itself to a pixel of the same surface close by."""
    shape = (camera.height, camera.width)
    bright, mesh = (light[:, AMBIENT] @ LUMINANCE).reshape(shape), seen.mesh.reshape(shape)
    normal = seen.normal.reshape(*shape, 3)
    marked = np.zeros(shape, np.bool_)
    for dy, dx in ((0, 2), (2, 0), (2, 2), (2, -2), (0, 4), (4, 0)):
        other, other_mesh = np.roll(bright, (dy, dx), axis=(0, 1)), np.roll(mesh, (dy, dx), axis=(0, 1))
        alike = (mesh == other_mesh) & (np.einsum("ijk,ijk->ij", normal, np.roll(normal, (dy, dx), axis=(0, 1))) > 0.97)
        jump = alike & (np.abs(bright - other) > _STEEP * np.maximum(bright, other))
        marked |= jump | np.roll(jump, (-dy, -dx), axis=(0, 1))
    wide = marked | np.roll(marked, 1, axis=0) | np.roll(marked, -1, axis=0)
    wide |= np.roll(wide, 1, axis=1) | np.roll(wide, -1, axis=1)
    return np.flatnonzero(wide.reshape(-1) & (seen.mesh >= 0))


def _sun_share(lighting: Lighting, camera: Camera, seen: Seen, rank: I32, rays: int) -> F32:
    """Share of the sun at every pixel: a few rays each, four times more where a shadow's edge is near."""
    share = np.zeros(len(seen), np.float32)
    lit = np.flatnonzero(seen.mesh != NOTHING)
    share[lit] = sunlight(lighting, _points(seen, rank).some(lit), rays)
    picture = share.reshape(camera.height, camera.width)
    least, greatest = picture.copy(), picture.copy()
    for dy in (-2, -1, 0, 1, 2):
        for dx in (-2, 0, 2) if dy else (-2, -1, 1, 2):
            moved = np.roll(picture, (dy, dx), axis=(0, 1))
            np.minimum(least, moved, out=least)
            np.maximum(greatest, moved, out=greatest)
    edge = np.flatnonzero((greatest - least > 0.01).reshape(-1) & (seen.mesh != NOTHING))
    if len(edge):
        reach = camera.footprint(seen.some(edge)) * np.float32(0.6)
        share[edge] = sunlight(lighting, _points(seen, rank).some(edge), rays * 8, reach)
        share[edge] = _soften(camera, seen, share[:, None], edge, (1, 2))[:, 0]
    return share


def _soften(camera: Camera, seen: Seen, values: F32, chosen: Chosen, steps: tuple[int, ...]) -> F32:
    """The chosen pixels' values (n, c), out of all pixels', averaged with like pixels in rings ``steps`` away."""
    row, column = np.divmod(chosen, camera.width)
    here = seen.some(chosen)
    values = values.copy()
    for step in steps:
        total, weight = values[chosen] * 4, np.full(len(chosen), 4, np.float32)
        slack = here.depth * np.float32(1.5 * step * camera.pixel)
        for dy, dx, kernel in _RING:
            r = np.clip(row + step * dy, 0, camera.height - 1)
            c = np.clip(column + step * dx, 0, camera.width - 1)
            near = r * camera.width + c
            apart = here.place - seen.place[near]
            w = affinity(here.mesh, seen.mesh[near], here.normal, seen.normal[near], apart, slack) * kernel
            total += w[:, None] * values[near]
            weight += w
        values[chosen] = total / weight[:, None]
    return values[chosen]


def light_field(lighting: Lighting, sheens: Sheens, camera: Camera, seen: Seen, settings: Settings) -> Field:
    """The light at every pixel's centre."""
    light = np.zeros((len(seen), CHANNELS), np.float32)
    number = np.arange(len(seen))
    row, column = np.divmod(number, camera.width)
    rank = ranks(column.astype(np.int32), row.astype(np.int32))
    rows, columns, chosen, coarse = _coarse(lighting, sheens, camera, seen, settings)
    alone = _spread(camera, seen, settings.gather_px, rows, columns, chosen, coarse, light)
    if len(alone):
        rays = 2 * settings.ambient_rays
        own = direct_light(lighting, sheens, seen.some(alone), rank[alone], rays, 2 * settings.reflection_rays)
        light[alone, :6] = own[:, :6]
        light[alone, :6] = _soften(camera, seen, light[:, :6], alone, (1, 2, 4, 8))
    steep = np.setdiff1d(_steep(camera, seen, light), alone)
    if len(steep):
        rays = 2 * settings.ambient_rays
        own = direct_light(lighting, sheens, seen.some(steep), rank[steep], rays, settings.reflection_rays)
        light[steep, :6] = own[:, :6]
        light[steep, :6] = _soften(camera, seen, light[:, :6], steep, (1, 2))
    light[:, SUN] = _sun_share(lighting, camera, seen, rank, settings.sun_rays)
    return Field(camera, seen, light)


def fresh_light(lighting: Lighting, sheens: Sheens, seen: Seen, number: I32, settings: Settings) -> F32:
    """Light (n, CHANNELS) of points that no pixel's light suits, by rays of their own."""
    rank = (hashed(number, settings.seed) % np.uint32(RANKS)).astype(np.int32)
    out = np.zeros((len(seen), CHANNELS), np.float32)
    own = direct_light(lighting, sheens, seen, rank, settings.ambient_rays, settings.reflection_rays)
    out[:, AMBIENT], out[:, MIRRORED] = own[:, :3], own[:, 3:6]
    out[:, SUN] = sunlight(lighting, _points(seen, rank), settings.sun_rays * 2)
    return out
