"""Patterns in the room's own frame: floor boards with grain, wood along a part, woven cloth.

Each pattern gives factors about one for a surface's colour; what is finer than a pixel is blended out.
"""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from model3d.pictures.raytrace.sampling import fractions
from model3d.pictures.raytrace.surface import Boards

F32 = npt.NDArray[np.float32]
I32 = npt.NDArray[np.int32]
Real = npt.NDArray[np.floating]

_JOINT_MM = 1.6
_RING_MM = 30.0
_FIBRE_MM = 2.6
_PORE_MM = 1.3


def value_noise(x: Real, y: Real, seed: I32 | int) -> F32:
    """Smooth noise (n,) of about -1 to 1 with one wave a unit."""
    ix, iy = np.floor(x), np.floor(y)
    fx, fy = x - ix, y - iy
    fx, fy = fx * fx * (3 - 2 * fx), fy * fy * (3 - 2 * fy)
    i, j = ix.astype(np.int32), iy.astype(np.int32)
    low = fractions(i, j, seed) * (1 - fx) + fractions(i + 1, j, seed) * fx
    high = fractions(i, j + 1, seed) * (1 - fx) + fractions(i + 1, j + 1, seed) * fx
    return np.asarray((low * (1 - fy) + high * fy) * 2 - 1, np.float32)


def seen_share(wave_mm: float, footprint_mm: F32) -> F32:
    """How much of a wave is left when a pixel covers ``footprint_mm`` of it: one when fine, none past half a wave."""
    return np.asarray(np.clip(1.5 - 2.2 * footprint_mm / wave_mm, 0, 1), np.float32)


def grain(x: F32, y: F32, seed: I32, across: F32) -> F32:
    """Wood grain (n,) about zero: x along the fibres, y across, mm; ``across`` is a pixel's size across the fibres.

    Growth rings cut lengthwise, now narrow, now wide and bent into arches, with pores and fibres along them.
    """
    bend = value_noise(x / 1500, y / 210, seed) * 2.6 + value_noise(x / 420, y / 70, seed + 11) * 0.55
    ring = y / _RING_MM * (0.6 + 0.9 * fractions(seed, 13)) + bend
    phase = ring - np.floor(ring)
    late = phase**3 * (1 - np.clip((phase - 0.86) / 0.14, 0, 1))
    strength = np.clip(0.55 + 0.6 * value_noise(x / 800, y / 90, seed + 19), 0.1, 1)
    broad = value_noise(x / 900, y / 60, seed + 23)
    streak = value_noise(x / 380, y / 7.0, seed + 37) * seen_share(7.0, across)
    fibre = value_noise(x / 110, y / _FIBRE_MM, seed + 51) * seen_share(_FIBRE_MM, across)
    pore = np.clip(value_noise(x / 26, y / _PORE_MM, seed + 67) - 0.35, 0, 1) * seen_share(_PORE_MM, across)
    rings = (late - 0.18) * strength * seen_share(_RING_MM, across)
    return np.asarray(-1.5 * rings + 0.40 * broad + 0.42 * streak + 0.40 * fibre - 1.6 * pore, np.float32)


def line_cover(offset: F32, width_mm: float, footprint: F32) -> F32:
    """Share (n,) of a pixel that a line covers, by the distance of the pixel's middle from the line's."""
    half = np.maximum(footprint, 0.05) / 2
    left = np.maximum(offset - half, -width_mm / 2)
    right = np.minimum(offset + half, width_mm / 2)
    return np.asarray(np.clip(right - left, 0, None) / (2 * half), np.float32)


def wood_floor(place: F32, footprint: F32, boards: Boards) -> F32:
    """Factors (n, 3) for floor boards at places (n, 3) mm in the room; ``footprint`` (n, 2, 3) is a pixel's size."""
    c, s = math.cos(math.radians(boards.turn_deg)), math.sin(math.radians(boards.turn_deg))
    along, across = np.array([c, s, 0], np.float32), np.array([-s, c, 0], np.float32)
    x, y = place @ along, place @ across
    size_x, size_y = (np.abs(footprint @ axis).sum(axis=1) for axis in (along, across))
    row = np.floor(y / boards.width_mm).astype(np.int32)
    shifted = x + fractions(row, boards.seed, 1) * np.float32(boards.length_mm)
    column = np.floor(shifted / boards.length_mm).astype(np.int32)
    in_y, in_x = y - row * np.float32(boards.width_mm), shifted - column * np.float32(boards.length_mm)
    board = (row * 7919 + column * 104729).astype(np.int32)
    light = fractions(board, boards.seed, 2) + fractions(board, boards.seed, 3) - 1
    warm = fractions(board, boards.seed, 4) - np.float32(0.5)
    figure = grain(shifted, y + fractions(board, 5) * 4000, board, size_y)
    tone = 1 + np.float32(boards.tint) * light + np.float32(0.17) * figure
    dark = np.float32(0.24) * np.clip(figure, -1, 1) * np.float32(boards.tint) + np.float32(0.10 * 0.6) * warm
    factors = np.stack([tone * (1 + dark * 0.2), tone, tone * (1 - warm * 0.16 + dark + 0.08 * figure)], axis=1)
    to_y = np.minimum(in_y, boards.width_mm - in_y)
    to_x = np.minimum(in_x, boards.length_mm - in_x)
    joint = np.maximum(line_cover(to_y, _JOINT_MM, size_y), line_cover(to_x, _JOINT_MM, size_x))
    soft = np.maximum(np.exp(-to_y / 3.0) * seen_share(8, size_y), np.exp(-to_x / 3.0) * seen_share(8, size_x))
    return np.asarray(factors * (1 - 0.62 * joint - 0.10 * soft)[:, None], np.float32)


def wood_part(place: F32, footprint: F32, least: npt.NDArray[np.float64], size: npt.NDArray[np.float64]) -> F32:
    """Factors (n, 3) for a wooden part: grain along the longest side of its box (corner ``least``, ``size``)."""
    order = np.argsort(-size, kind="stable")
    inside = place - least.astype(np.float32)
    x, y = inside[:, order[0]], inside[:, order[1]] + inside[:, order[2]] * np.float32(0.45)
    across = np.abs(footprint[:, :, order[1]]).sum(axis=1) + np.abs(footprint[:, :, order[2]]).sum(axis=1) * 0.45
    seed = np.full(len(place), int(abs(least).sum()) % 9973, np.int32)
    figure = grain(x, y, seed, np.asarray(across, np.float32))
    tone = 1 + np.float32(0.17) * figure
    return np.asarray(np.stack([tone, tone, tone * (1 + 0.04 * figure)], axis=1), np.float32)


def cloth(place: F32, footprint: F32) -> F32:
    """Factors (n, 3) for woven cloth: a weave of about 5 mm, seen only close to, over a faint unevenness."""
    size = np.sqrt(np.einsum("nij,nij->n", footprint, footprint))
    broad = value_noise(place[:, 0] / 70 + place[:, 2] / 50, place[:, 1] / 70 - place[:, 2] / 40, 3)
    weave = value_noise(place[:, 0] / 2.6 + place[:, 2] / 3.1, place[:, 1] / 2.6 - place[:, 2] / 2.9, 5)
    tone = 1 + np.float32(0.018) * broad + np.float32(0.05) * weave * seen_share(6.0, size)
    return np.asarray(np.repeat(tone[:, None], 3, axis=1), np.float32)
