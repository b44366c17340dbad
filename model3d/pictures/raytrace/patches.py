"""Light sent on by every surface, kept in patches: the bounce that ambient rays pick up where they land.

Triangles are cut into cells of about ``CELL_MM``, larger where there would be too many; cells of one mesh that lie
together and face alike share a patch. A patch is lit by sky, sun and the other patches; its rays are traced once,
each further bounce only looks up.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from model3d.pictures.raytrace.sampling import RANKS, cosine_sets, even_square, fractions, frames
from model3d.pictures.raytrace.sky import Sky
from model3d.pictures.raytrace.work import each, spans
from model3d.pictures.raytrace.world import START_MM, Hits, World

F32 = npt.NDArray[np.float32]
I32 = npt.NDArray[np.int32]
Bool = npt.NDArray[np.bool_]

LUMINANCE = np.array([0.2126, 0.7152, 0.0722], np.float32)
"""Weights of linear red, green and blue in lightness (IEC 61966-2-1 primaries)."""

CELL_MM = 140.0
_MOST_CELLS = 60_000
_OFF_EDGE = 0.002
_RAYS = 64
_AT_ONCE = 2000


@dataclass(frozen=True, slots=True)
class Cells:
    """How triangles are cut: per triangle the first cell's number, cells along the longest edge and across it, and
    how far along that edge (0 to 1) the third corner stands; per cell the patch; per triangle what to add to the
    patch number where it is met from behind; per patch its neighbours ``near`` (patches, 6), itself where it has none.
    """

    first: I32
    along: I32
    across: I32
    lean: F32
    patch: I32
    back: I32
    near: I32
    patches: int

    def of(self, hits: Hits, behind: Bool, shift: F32) -> I32:
        """Patch number (n,) of each hit; ``patches`` for a miss.

        ``shift`` (n, 2), within half a cell either way, moves each hit before it is looked up: over many rays the
        steps between patches blend.
        """
        triangle = np.where(hits.triangle < 0, 0, hits.triangle)
        along, across = self.along[triangle], self.across[triangle]
        row = _cell(hits.v * across + shift[:, 1], across)
        column = _cell((hits.u + self.lean[triangle] * hits.v) * along + shift[:, 0], along)
        patch = self.patch[self.first[triangle] + row * along + column] + np.where(behind, self.back[triangle], 0)
        return np.where(hits.triangle < 0, np.int32(self.patches), patch).astype(np.int32)


def _cell(at: F32, count: I32) -> I32:
    return np.asarray(np.clip(at, 0, count - np.float32(0.5)).astype(np.int32))


@dataclass(frozen=True, slots=True)
class Patches:
    """The cells, and what each patch sends on (patches + 1, 3); the last row, for a miss, is dark."""

    cells: Cells
    sent: F32


@dataclass(frozen=True, slots=True)
class _Members:
    """The cells of each patch, sorted by patch: triangle, row and column of each cell, the sum of shares up to and
    with it within its patch (0 to 1), and where each patch's cells begin."""

    triangle: I32
    row: I32
    column: I32
    share: F32
    begin: I32


def _cut(world: World) -> tuple[Cells, _Members]:
    a, b, c = (world.corners[:, k].astype(np.float64) for k in range(3))
    edge = b - a
    length = np.linalg.norm(edge, axis=1)
    lean = np.einsum("ij,ij->i", c - a, edge) / np.maximum(length**2, 1e-12)
    area = np.linalg.norm(np.cross(edge, c - a), axis=1) / 2
    cell = max(CELL_MM, float(np.sqrt(area.sum() / _MOST_CELLS)))
    along = np.maximum(np.ceil(length / cell), 1).astype(np.int32)
    across = np.maximum(np.ceil(2 * area / np.maximum(length, 1e-9) / cell), 1).astype(np.int32)
    count = along * across
    first = np.cumsum(count) - count
    triangle = np.repeat(np.arange(len(count), dtype=np.int32), count)
    row, column = np.divmod(np.arange(len(triangle)) - first[triangle], along[triangle])
    v = (row + 0.5) / across[triangle]
    u = np.clip((column + 0.5) / along[triangle] - lean[triangle] * v, 0, 1 - v)
    centre = world.points(triangle, u.astype(np.float32), v.astype(np.float32))
    patch, near = _grouped(world, triangle, centre, cell)
    patches = len(near)
    two_sided = bool(world.open.any())
    near = np.concatenate([near, near + patches]) if two_sided else near
    cells = Cells(
        first=first.astype(np.int32),
        along=along,
        across=across,
        lean=lean.astype(np.float32),
        patch=patch,
        back=np.where(world.open, patches, 0).astype(np.int32),
        near=near.astype(np.int32),
        patches=patches * (2 if two_sided else 1),
    )
    order = np.argsort(patch, kind="stable")
    weight = (area / count)[triangle[order]] + 1e-9
    total = np.cumsum(weight)
    begin = np.searchsorted(patch[order], np.arange(patches))
    before = np.concatenate([[0.0], total])[begin][patch[order]]
    whole = np.bincount(patch, weights=(area / count)[triangle] + 1e-9)[patch[order]]
    share = ((total - before) / whole).astype(np.float32)
    members = _Members(triangle[order], row[order], column[order], share, begin.astype(np.int32))
    return cells, members


def _grouped(world: World, triangle: I32, centre: F32, cell: float) -> tuple[I32, I32]:
    """Patch number of each cell, same mesh, same colour, same block of space, same facing; and each patch's
    neighbours (patches, 6) in the blocks next to its own, itself where there is none."""
    key = np.concatenate(
        [
            world.mesh[triangle, None].astype(np.int64),
            np.round(world.flat[triangle] * 1.5).astype(np.int64),
            np.round(world.albedo[triangle, :1] * 64).astype(np.int64),
            np.floor(centre / np.float32(cell)).astype(np.int64),
        ],
        axis=1,
    )
    key -= key.min(axis=0)
    span = key.max(axis=0) + 3
    scale = np.append(np.cumprod(span[::-1])[::-1][1:], 1)
    names, patch = np.unique(key @ scale, return_inverse=True)
    near = np.empty((len(names), 6), np.int64)
    for column, step in enumerate(np.concatenate([scale[-3:], -scale[-3:]])):
        at = np.minimum(np.searchsorted(names, names + step), len(names) - 1)
        near[:, column] = np.where(names[at] == names + step, at, np.arange(len(names)))
    return np.asarray(patch.reshape(-1), np.int32), np.asarray(near, np.int32)


def _spread(cells: Cells, members: _Members, patch: I32, seed: int) -> tuple[I32, F32, F32]:
    """Points (n * _RAYS) spread over each of the patches (n,) by area: triangle, u, v."""
    even = even_square(_RAYS)
    n = len(patch)
    draw = ((np.arange(_RAYS) + 0.5) / _RAYS + fractions(patch, seed, 5)[:, None]) % 1.0
    keyed = members.share + np.repeat(
        np.arange(len(members.begin)), np.diff(np.append(members.begin, len(members.share)))
    )
    cell = np.searchsorted(keyed, (patch[:, None] + draw * 0.9999).reshape(-1))
    cell = np.minimum(cell, len(members.share) - 1)
    triangle = members.triangle[cell]
    shift = np.stack([fractions(patch, seed, 7), fractions(patch, seed, 8)], axis=1)
    p = ((even[None] + shift[:, None]) % 1.0).reshape(n * _RAYS, 2)
    v = np.minimum((members.row[cell] + p[:, 1]) / cells.across[triangle], 0.999)
    u = np.clip((members.column[cell] + p[:, 0]) / cells.along[triangle] - cells.lean[triangle] * v, 0, 1 - v)
    u, v = ((1 - _OFF_EDGE) * w + _OFF_EDGE / 3 for w in (u, v))  # a ray from an edge may slip out between two faces
    return triangle, u.astype(np.float32), v.astype(np.float32)


def light_patches(
    world: World, sky: Sky, *, bounces: int, tinge: float, seed: int, threads: int = 1, enclosed: bool = False
) -> Patches:
    """The patches of the world, lit by sky, sun and ``bounces`` bounces between them.

    ``tinge`` is how much of its colour a surface gives to the light it sends on (1 as in nature; less keeps a white
    room white over a yellow floor, as a photographer's white balance does).
    The first guess is that every patch is lit as in the open, so light is never too little, and an enclosure that
    reflects everything under an even sky stays exactly even; where a space is ``enclosed``, it is that a patch is lit
    by what comes in straight.
    """
    cells, members = _cut(world)
    one_side = len(members.begin)
    total = cells.patches
    sets = cosine_sets(_RAYS, seed)
    direct = np.zeros((total, 3), np.float32)
    albedo = np.zeros((total, 3), np.float32)
    own = world.glow[world.mesh[members.triangle[members.begin]]]
    glow = np.concatenate([own, own]) if total > one_side else own
    if bounces == 0:
        return Patches(cells, np.concatenate([glow, np.zeros((1, 3), np.float32)]))
    landed = np.empty((total, _RAYS), np.int32)

    def one(span: slice) -> None:
        number = np.arange(span.start, span.stop, dtype=np.int32)
        triangle, u, v = _spread(cells, members, number % one_side, seed)
        side = np.repeat(np.where(number >= one_side, np.float32(-1), np.float32(1)), _RAYS)
        normal = world.flat[triangle] * side[:, None]
        local = sets[number % RANKS].reshape(-1, 3)
        direction = np.einsum("ij,ijk->ik", local, frames(normal))
        start = world.points(triangle, u, v) + normal * np.float32(START_MM)
        hits = world.light.hits(start, np.ascontiguousarray(direction))
        still = np.zeros((len(start), 2), np.float32)
        landed[span] = cells.of(hits, from_behind(world, hits, direction), still).reshape(-1, _RAYS)
        coming = np.where((hits.triangle < 0)[:, None], sky.radiance(direction), np.float32(0))
        coming += _sun(world, sky, start, normal)
        direct[span] = coming.reshape(-1, _RAYS, 3).mean(axis=1)
        albedo[span] = world.albedo[triangle].reshape(-1, _RAYS, 3).mean(axis=1)

    each(one, spans(total, _AT_ONCE), threads)
    albedo = np.float32(tinge) * albedo + np.float32(1 - tinge) * (albedo @ LUMINANCE)[:, None]
    first = direct if enclosed else sky.open_ground
    sent = np.concatenate([albedo * first + glow, np.zeros((1, 3), np.float32)])
    for _ in range(bounces):
        received = direct.copy()
        for ray in range(_RAYS):
            received += sent[landed[:, ray]] / np.float32(_RAYS)
        received = (2 * received + received[cells.near].sum(axis=1)) / 8
        sent[:-1] = albedo * received + glow
    return Patches(cells, sent)


def from_behind(world: World, hits: Hits, directions: F32) -> Bool:
    """Whether each hit triangle is met from its back; anything for a miss."""
    triangle = np.where(hits.triangle < 0, 0, hits.triangle)
    return np.asarray(np.einsum("ij,ij->i", world.flat[triangle], directions) > 0, np.bool_)


def _sun(world: World, sky: Sky, start: F32, normal: F32) -> F32:
    slope = np.maximum(normal @ sky.toward_sun, np.float32(0))
    turned = slope > 0
    clear = np.zeros(len(start), np.float32)
    toward = np.broadcast_to(sky.toward_sun, (int(turned.sum()), 3))
    clear[turned] = ~world.light.blocked(np.ascontiguousarray(start[turned]), np.ascontiguousarray(toward))
    return np.asarray((slope * clear)[:, None] * sky.sun, np.float32)
