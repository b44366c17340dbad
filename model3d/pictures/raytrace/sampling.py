"""Repeatable draws: hashed numbers, even point sets, and directions about a normal."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

F32 = npt.NDArray[np.float32]
I32 = npt.NDArray[np.int32]
U32 = npt.NDArray[np.uint32]

RANKS = 64
"""Points fall into this many groups; points of one group share one set of directions, neighbours have different ones."""

_G1 = 0.7548776662466927
_G2 = 0.5698402909980532


def hashed(*keys: npt.NDArray[np.integer] | int) -> U32:
    """A well mixed 32-bit number for each tuple of whole numbers (arrays broadcast). Integer finaliser after Wellons."""
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


def draws(x: I32, y: I32) -> I32:
    """Draw of the grid point (x, y): its rank, modulo RANKS, is met once in every 8 by 8 block; each block adds its
    own multiple of RANKS, so that neighbouring blocks turn their sets differently."""
    block = (hashed(np.asarray(x) >> 3, np.asarray(y) >> 3) >> np.uint32(16)).astype(np.int32)
    return np.asarray(_rank(x, y) + RANKS * block, np.int32)


def _rank(x: I32, y: I32) -> I32:
    x, y = np.asarray(x), np.asarray(y)
    a, b = x & 7, (x ^ y) & 7
    mixed = ((b & 1) << 5) | ((a & 1) << 4) | ((b & 2) << 2) | ((a & 2) << 1) | ((b & 4) >> 1) | ((a & 4) >> 2)
    return np.asarray(mixed, np.int32)


def cosine_sets(rays: int, seed: int) -> F32:
    """Directions (RANKS, rays, 3) about +z, cosine-weighted: each set even, and all sets together even."""
    jitter = even_square(RANKS, seed)
    sets = np.empty((RANKS, rays, 3), np.float32)
    lattice = even_square(rays)
    for rank in range(RANKS):
        p = (lattice + jitter[rank]) % 1.0
        radius, turn = np.sqrt(p[:, 0]), 2 * math.pi * p[:, 1]
        sets[rank] = np.stack([radius * np.cos(turn), radius * np.sin(turn), np.sqrt(1 - p[:, 0])], axis=1)
    return sets


def disc_sets(rays: int, seed: int) -> F32:
    """Points (RANKS, rays, 2) of the unit disc, even over its area."""
    jitter = even_square(RANKS, seed)
    lattice = even_square(rays)
    p = (lattice[None] + jitter[:, None]) % 1.0
    radius, turn = np.sqrt(p[..., 0]), 2 * math.pi * p[..., 1]
    return np.stack([radius * np.cos(turn), radius * np.sin(turn)], axis=-1).astype(np.float32)


def cell_shifts(rays: int, seed: int) -> F32:
    """Shifts (RANKS, rays, 2) of half a unit either way, even over all sets together."""
    rank, ray = np.divmod(np.arange(RANKS * rays), rays)
    lattice = even_square(RANKS * rays, seed + 4)
    mixed = np.argsort(hashed(rank, ray, seed), kind="stable")
    return (lattice[mixed] - 0.5).astype(np.float32).reshape(RANKS, rays, 2)


def frames(normals: F32, turn: F32 | None = None) -> F32:
    """Axes (n, 3, 3) with rows tangent, bitangent, normal, after Duff and others 2017; turned about the normal by
    ``turn`` (n,) whole turns."""
    x, y, z = normals[:, 0], normals[:, 1], normals[:, 2]
    sign = np.where(z >= 0, np.float32(1), np.float32(-1))
    a = np.float32(-1) / (sign + z)
    b = x * y * a
    out = np.empty((len(normals), 3, 3), np.float32)
    out[:, 0] = np.stack([1 + sign * x * x * a, sign * b, -sign * x], axis=1)
    out[:, 1] = np.stack([b, sign + y * y * a, -y], axis=1)
    out[:, 2] = normals
    if turn is not None:
        c, s = (f(turn * np.float32(2 * math.pi))[:, None] for f in (np.cos, np.sin))
        first = out[:, 0] * c + out[:, 1] * s
        out[:, 1] = out[:, 1] * c - out[:, 0] * s
        out[:, 0] = first
    return out


def turned(directions: F32, axes: F32) -> F32:
    """Every direction (k, 3) in every frame (n, 3, 3): (k, n, 3)."""
    n = len(axes)
    flat = np.ascontiguousarray(axes.transpose(1, 0, 2)).reshape(3, n * 3)
    return np.asarray((directions @ flat).reshape(len(directions), n, 3), np.float32)
