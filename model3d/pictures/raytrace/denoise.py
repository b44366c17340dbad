"""Edge-stopped smoothing of light: neighbours count by mesh, facing, plane and likeness of light.

An a-trous filter (Dammertz and others 2010) whose likeness is judged against the noise expected (Schied and others
2017): it smooths what is noise and keeps what is shadow.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from model3d.pictures.raytrace.patches import LUMINANCE

F32 = npt.NDArray[np.float32]
I32 = npt.NDArray[np.int32]


@dataclass(frozen=True, slots=True)
class Guide:
    """What stops the smoothing, per point of the grid: mesh (h, w), place and unit normal (h, w, 3), and the size
    (h, w) mm of one grid step on the surface as seen straight on."""

    mesh: I32
    place: F32
    normal: F32
    step_mm: F32


def affinity(mesh_a: I32, mesh_b: I32, normal_a: F32, normal_b: F32, apart: F32, slack_mm: F32) -> F32:
    """How alike two surface points are, 0 to 1: same mesh, same facing, and in one plane within ``slack_mm``."""
    facing = np.einsum("...i,...i->...", normal_a, normal_b)
    bent = np.clip((facing - np.float32(0.93)) / np.float32(0.07), 0, 1)
    off = np.abs(np.einsum("...i,...i->...", normal_a, apart)) + np.abs(np.einsum("...i,...i->...", normal_b, apart))
    off /= slack_mm
    return np.asarray((mesh_a == mesh_b) * bent * bent / (1 + off * off) ** 2, np.float32)


def _pairs(step: int, shape: tuple[int, ...]) -> list[tuple[tuple[slice, slice], tuple[slice, slice], float]]:
    """Grid slices of points and their neighbours ``step`` away, one of each opposite pair, with the kernel's weight."""
    found = []
    for dy, dx, weight in ((0, 1, 0.5), (1, 0, 0.5), (1, 1, 0.25), (1, -1, 0.25)):
        y, x = dy * step, dx * step
        if y >= shape[0] or abs(x) >= shape[1]:
            continue
        rows_a, rows_b = slice(0, shape[0] - y), slice(y, shape[0])
        columns_a = slice(max(0, -x), shape[1] - max(0, x))
        columns_b = slice(max(0, x), shape[1] - max(0, -x))
        found.append(((rows_a, columns_a), (rows_b, columns_b), weight))
    return found


def smooth(values: F32, variance: F32, guide: Guide, passes: int, *, likeness: float = 3.0) -> F32:
    """The values (h, w, c) smoothed in ``passes`` rings of growing reach; the first three channels are light.

    ``variance`` (h, w) is that of the light's luminance at each point. ``likeness`` is how many times the expected
    noise two points may differ and still be averaged.
    """
    values, variance = values.copy(), variance.copy()
    for turn in range(passes):
        step = 1 << turn
        total, weight_sum, spread = values.copy(), np.ones_like(variance), variance.copy()
        luminance = values[..., :3] @ LUMINANCE
        expected = _blurred(variance) * np.float32(likeness**2) + np.float32(1e-7)
        for a, b, weight in _pairs(step, variance.shape):
            apart = guide.place[a] - guide.place[b]
            slack = np.float32(0.25 + 0.5 * step) * (guide.step_mm[a] + guide.step_mm[b])
            w = affinity(guide.mesh[a], guide.mesh[b], guide.normal[a], guide.normal[b], apart, slack)
            unlike = (luminance[a] - luminance[b]) ** 2 / (expected[a] + expected[b])
            w *= np.float32(weight) / (1 + unlike) ** 2
            total[a] += w[..., None] * values[b]
            total[b] += w[..., None] * values[a]
            weight_sum[a] += w
            weight_sum[b] += w
            spread[a] += w * w * variance[b]
            spread[b] += w * w * variance[a]
        values = total / weight_sum[..., None]
        variance = spread / (weight_sum * weight_sum)
    return values


def _blurred(values: F32) -> F32:
    """A 3 by 3 binomial blur that keeps the size."""
    padded = np.pad(values, 1, mode="edge")
    rows = padded[:-2] + 2 * padded[1:-1] + padded[2:]
    return np.asarray((rows[:, :-2] + 2 * rows[:, 1:-1] + rows[:, 2:]) / 16, np.float32)
