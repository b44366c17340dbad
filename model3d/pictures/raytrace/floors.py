"""Patterns of floor coverings besides plain boards: herringbone, tiles and carpet, in the room's own frame.

Each gives factors (n, 3) about one for a surface's colour at places (n, 3) mm; ``footprint`` (n, 2, 3) is a pixel's
size on the surface, and what is finer than it is blended out.
"""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from model3d.pictures.raytrace.sampling import fractions
from model3d.pictures.raytrace.surface import Boards
from model3d.pictures.raytrace.texture import grain, line_cover, seen_share, value_noise

F32 = npt.NDArray[np.float32]

BLOCK_MM, BLOCKS_LONG = 90.0, 6
"""Width of a herringbone block, and its length in widths (common practice, no source)."""

_JOINT_MM, _GROUT_MM = 1.2, 4.0


def _axes(turn_deg: float) -> tuple[F32, F32]:
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    return np.array([c, s, 0], np.float32), np.array([-s, c, 0], np.float32)


def herringbone(place: F32, footprint: F32, boards: Boards) -> F32:
    """Blocks laid in a zigzag: each block's end meets its neighbour's side, at half a right angle to the axis."""
    along, across = _axes(boards.turn_deg + 45.0)
    x, y = place @ along / np.float32(BLOCK_MM), place @ across / np.float32(BLOCK_MM)
    size_x, size_y = (np.abs(footprint @ axis).sum(axis=1) for axis in (along, across))
    i, j = np.floor(x).astype(np.int32), np.floor(y).astype(np.int32)
    n = BLOCKS_LONG
    step = np.mod(i - j, 2 * n)  # along a row: n cells of a lying block, then one cell each of n standing ones
    lying = step < n
    start = np.where(lying, i - step, j - (2 * n - 1 - step))
    lengthwise = np.where(lying, x - start, y - start) * np.float32(BLOCK_MM)
    crosswise = np.where(lying, y - j, x - i) * np.float32(BLOCK_MM)
    size_across = np.where(lying, size_y, size_x).astype(np.float32)
    size_along = np.where(lying, size_x, size_y).astype(np.float32)
    block = (start * 7919 + np.where(lying, j, i) * 104729 + lying * 31).astype(np.int32)
    figure = grain(lengthwise + fractions(block, 6) * 5000, crosswise + fractions(block, 5) * 4000, block, size_across)
    light = fractions(block, boards.seed, 2) + fractions(block, boards.seed, 3) - 1
    warm = fractions(block, boards.seed, 4) - np.float32(0.5)
    side = np.where(lying, np.float32(0.018), np.float32(-0.018))  # the way the fibres run catches the light
    tone = 1 + np.float32(boards.tint) * light + np.float32(0.16) * figure + side
    to_side = np.minimum(crosswise, BLOCK_MM - crosswise)
    to_end = np.minimum(lengthwise, n * BLOCK_MM - lengthwise)
    joint = np.maximum(line_cover(to_side, _JOINT_MM, size_across), line_cover(to_end, _JOINT_MM, size_along))
    factors = np.stack([tone, tone, tone * (1 - 0.14 * warm + 0.05 * figure)], axis=1)
    return np.asarray(factors * (1 - 0.55 * joint)[:, None], np.float32)


def tiles(place: F32, footprint: F32, boards: Boards) -> F32:
    """Square tiles, each a little lighter or darker, clouded, with grout between."""
    along, across = _axes(boards.turn_deg)
    x, y, wide = place @ along, place @ across, np.float32(boards.width_mm)
    size_x, size_y = (np.abs(footprint @ axis).sum(axis=1) for axis in (along, across))
    i, j = np.floor(x / wide).astype(np.int32), np.floor(y / wide).astype(np.int32)
    tile = (i * 7919 + j * 104729).astype(np.int32)
    light = fractions(tile, boards.seed, 2) - np.float32(0.5)
    cloud = value_noise(x / 160 + fractions(tile, 3) * 40, y / 160, tile) + 0.5 * value_noise(x / 45, y / 45, tile + 5)
    tone = 1 + np.float32(0.5 * boards.tint) * light + np.float32(0.035) * cloud
    in_x, in_y = x - i * wide, y - j * wide
    grout = np.maximum(
        line_cover(np.minimum(in_x, wide - in_x), _GROUT_MM, size_x),
        line_cover(np.minimum(in_y, wide - in_y), _GROUT_MM, size_y),
    )
    return np.asarray(np.repeat((tone * (1 - 0.34 * grout))[:, None], 3, axis=1), np.float32)


def carpet(place: F32, footprint: F32, boards: Boards) -> F32:
    """Cut pile: tufts seen close to, over a faint unevenness as of footsteps."""
    size = np.sqrt(np.einsum("nij,nij->n", footprint, footprint))
    x, y = place[:, 0], place[:, 1]
    broad = value_noise(x / 420, y / 420, boards.seed) + 0.6 * value_noise(x / 130, y / 130, boards.seed + 3)
    tuft = value_noise(x / 5.5, y / 5.5, boards.seed + 7) * seen_share(11.0, size)
    fine = value_noise(x / 2.3, y / 2.3, boards.seed + 9) * seen_share(5.0, size)
    tone = 1 + np.float32(0.030) * broad + np.float32(0.11) * tuft + np.float32(0.08) * fine
    return np.asarray(np.repeat(tone[:, None], 3, axis=1), np.float32)
