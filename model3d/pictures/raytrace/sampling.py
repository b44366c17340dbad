"""Repeatable draws: hashed numbers, even point sets, and directions about a normal."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

F32 = npt.NDArray[np.float32]
I32 = npt.NDArray[np.int32]
U32 = npt.NDArray[np.uint32]

RANKS = 256
"""Points fall into this many groups; those of one group share one set of directions, neighbours differ."""

_G1 = 0.7548776662466927
_G2 = 0.5698402909980532


def hashed(*keys: npt.NDArray[np.integer] | int) -> U32:
    """A well mixed 32-bit number for each tuple of whole numbers (arrays broadcast), by Wellons' lowbias32."""
    with np.errstate(over="ignore"):
        state = np.asarray(0x9E3779B9, np.uint32)
        for key in keys:
            state = state ^ np.asarray(key).astype(np.int64).astype(np.uint32)
            state = (state ^ (state >> np.uint32(16))) * np.uint32(0x7FEB352D)
            state = (state ^ (state >> np.uint32(15))) * np.uint32(0x846CA68B)
            state = state ^ (state >> np.uint32(16))
    return np.asarray(state, np.uint32)


def fractions(*keys: npt.NDArray[np.integer] | int) -> F32:
    """Hashed numbers as fractions, 0 to below 1."""
    return np.asarray((hashed(*keys) >> np.uint32(8)).astype(np.float32) * np.float32(2.0**-24), np.float32)


def even_square(count: int, seed: int = 0) -> npt.NDArray[np.float64]:
    """``count`` points (count, 2) spread evenly over the unit square: an R2 lattice, shifted by the seed's draw."""
    i = np.arange(count, dtype=np.float64)
    shift = [float(fractions(seed, axis)) for axis in (0, 1)]
    return np.stack([(0.5 + shift[0] + i * _G1) % 1.0, (0.5 + shift[1] + i * _G2) % 1.0], axis=1)


def sobol(count: int, seed: int) -> npt.NDArray[np.float64]:
    """``count`` points (count, 2) of the unit square: Sobol's first two dimensions, digits scrambled by the seed.
    Every aligned block of 2^k points is even, and so is every block of such blocks."""
    number = np.arange(count, dtype=np.uint32)
    first, second = np.zeros(count, np.uint32), np.zeros(count, np.uint32)
    plain, twisted = np.uint32(1 << 31), np.uint32(1 << 31)
    for bit in range(max(1, int(count - 1).bit_length())):
        on = (number >> np.uint32(bit)) & np.uint32(1)
        first ^= on * plain
        second ^= on * twisted
        plain = np.uint32(plain >> np.uint32(1))
        twisted = np.uint32(twisted ^ (twisted >> np.uint32(1)))
    points = np.stack([first ^ hashed(seed, 1), second ^ hashed(seed, 2)], axis=1)
    return (points.astype(np.float64) + 0.5) * 2.0**-32


def ranks(x: I32, y: I32) -> I32:
    """Rank of the grid point (x, y), 0 to RANKS-1: each once in every 16 by 16 block, in Morton order, so that the
    sets of every 2 by 2, 4 by 4 and 8 by 8 block make one even set."""
    x, y = np.asarray(x), np.asarray(y)
    mixed = np.zeros(np.broadcast(x, y).shape, np.int32)
    for bit in range(4):
        mixed |= (((x >> bit) & 1) << (2 * bit)) | (((y >> bit) & 1) << (2 * bit + 1))
    return mixed


def cosine_sets(rays: int, seed: int) -> F32:
    """Directions (RANKS, rays, 3) about +z, cosine-weighted: each set even, and all sets together even."""
    p = sobol(RANKS * rays, seed).reshape(RANKS, rays, 2)
    radius, turn = np.sqrt(p[..., 0]), 2 * math.pi * p[..., 1]
    return np.stack([radius * np.cos(turn), radius * np.sin(turn), np.sqrt(1 - p[..., 0])], axis=-1).astype(np.float32)


def disc_sets(rays: int, seed: int) -> F32:
    """Points (RANKS, rays, 2) of the unit disc, even over its area: each set, and all sets together."""
    p = sobol(RANKS * rays, seed).reshape(RANKS, rays, 2)
    radius, turn = np.sqrt(p[..., 0]), 2 * math.pi * p[..., 1]
    return np.stack([radius * np.cos(turn), radius * np.sin(turn)], axis=-1).astype(np.float32)


def square_sets(rays: int, seed: int) -> F32:
    """Points (RANKS, rays, 2) of the unit square: each set even, and all sets together."""
    return sobol(RANKS * rays, seed).reshape(RANKS, rays, 2).astype(np.float32)


def cell_shifts(rays: int, seed: int) -> F32:
    """Shifts (RANKS, rays, 2) of half a unit either way, even over all sets together."""
    rank, ray = np.divmod(np.arange(RANKS * rays), rays)
    lattice = even_square(RANKS * rays, seed + 4)
    mixed = np.argsort(hashed(rank, ray, seed), kind="stable")
    return (lattice[mixed] - 0.5).astype(np.float32).reshape(RANKS, rays, 2)


def frames(normals: F32) -> F32:
    """Axes (n, 3, 3) with rows tangent, bitangent, normal, after Duff and others 2017."""
    x, y, z = normals[:, 0], normals[:, 1], normals[:, 2]
    sign = np.where(z >= 0, np.float32(1), np.float32(-1))
    a = np.float32(-1) / (sign + z)
    b = x * y * a
    out = np.empty((len(normals), 3, 3), np.float32)
    out[:, 0] = np.stack([1 + sign * x * x * a, sign * b, -sign * x], axis=1)
    out[:, 1] = np.stack([b, sign + y * y * a, -y], axis=1)
    out[:, 2] = normals
    return out


def turned(directions: F32, axes: F32) -> F32:
    """Every direction (k, 3) in every frame (n, 3, 3): (k, n, 3)."""
    n = len(axes)
    flat = np.ascontiguousarray(axes.transpose(1, 0, 2)).reshape(3, n * 3)
    return np.asarray((directions @ flat).reshape(len(directions), n, 3), np.float32)
