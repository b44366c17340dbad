"""Triangle meshes of the shapes that furniture is made of: vertices (n, 3) mm and triangles (m, 3), in numpy.

Each mesh stands in the shape's own frame. Closed but for leaves and turned bodies with an open end.
"""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from model3d.scene.furniture.shapes import Block, Cushion, Leaf, Rod, Shape, Turned

F64 = npt.NDArray[np.float64]
I32 = npt.NDArray[np.int32]
Mesh = tuple[F64, I32]

ROUND_STEPS, AROUND, ROD_AROUND, LEAF_STEPS = 4, 48, 12, 9


def shape_mesh(shape: Shape) -> Mesh:
    """The mesh of any shape."""
    match shape:
        case Block():
            return block_mesh(shape)
        case Cushion():
            return cushion_mesh(shape)
        case Turned():
            return turned_mesh(shape)
        case Rod():
            return rod_mesh(shape)
        case Leaf():
            return leaf_mesh(shape)


def _grid(rows: int, columns: int, *, round_about: bool) -> I32:
    """Triangles of a grid of vertices; the last column joins the first where it goes round about."""
    r, c = np.meshgrid(np.arange(rows - 1), np.arange(columns if round_about else columns - 1), indexing="ij")
    right = (c + 1) % columns
    a, b, d, e = r * columns + c, r * columns + right, (r + 1) * columns + c, (r + 1) * columns + right
    two = np.stack([np.stack([a, b, e], axis=-1), np.stack([a, e, d], axis=-1)], axis=2)
    return two.reshape(-1, 3).astype(np.int32)


def _cap(first: int, columns: int, *, up: bool) -> I32:
    """A fan over a ring of vertices, seen from above anticlockwise (``up``) or from below."""
    k = np.arange(1, columns - 1)
    fan = np.stack([np.full_like(k, first), first + k, first + k + 1], axis=1)
    return (fan if up else fan[:, ::-1]).astype(np.int32)


def block_mesh(block: Block) -> Mesh:
    """A box with rounded edges: a ball cut in eight, its parts drawn apart. Rounded no more than it is thick."""
    half = np.asarray(block.size_mm, np.float64) / 2
    r = min(block.round_mm, float(half.min()) * 0.98)
    steps = ROUND_STEPS if r > 0.3 else 0
    quarter = np.linspace(0.0, math.pi / 2, steps + 1)
    rise = np.concatenate([quarter - math.pi / 2, quarter])
    turn = np.concatenate([quarter + k * math.pi / 2 for k in range(4)])
    side_x = np.repeat([1.0, -1.0, -1.0, 1.0], steps + 1)
    side_y = np.repeat([1.0, 1.0, -1.0, -1.0], steps + 1)
    inner = half - r
    flat = r * np.cos(rise)[:, None]
    x = side_x * inner[0] + flat * np.cos(turn)
    y = side_y * inner[1] + flat * np.sin(turn)
    z = np.sign(np.concatenate([-np.ones(steps + 1), np.ones(steps + 1)])) * inner[2] + r * np.sin(rise)
    if steps == 0:
        x, y = np.broadcast_to(side_x * half[0], (2, 4)), np.broadcast_to(side_y * half[1], (2, 4))
        z = np.array([-half[2], half[2]])
    rows, columns = x.shape
    points = np.stack([x, y, np.repeat(z[:, None], columns, axis=1)], axis=-1).reshape(-1, 3)
    if block.taper:
        points[:, :2] *= 1 - block.taper * (points[:, 2:] + half[2]) / (2 * half[2])
    faces = [_grid(rows, columns, round_about=True)]
    faces += [_cap(0, columns, up=False), _cap((rows - 1) * columns, columns, up=True)]
    return points + half, np.concatenate(faces)


def cushion_mesh(cushion: Cushion) -> Mesh:
    """A superellipsoid: a ball drawn toward its box, softer where ``square`` is less."""
    half = np.asarray(cushion.size_mm, np.float64) / 2
    power = 1.0 - 0.92 * cushion.square
    rows, columns = 29, 80
    rise = _spread_toward_corners(np.linspace(-math.pi / 2, math.pi / 2, rows), power)
    turn = _spread_toward_corners(np.linspace(-math.pi, math.pi, columns + 1)[:-1], power)
    across = _signed_power(np.cos(rise), power)[:, None]
    x = half[0] * across * _signed_power(np.cos(turn), power)
    y = half[1] * across * _signed_power(np.sin(turn), power)
    z = np.repeat(half[2] * _signed_power(np.sin(rise), power)[:, None], columns, axis=1)
    points = np.stack([x, y, z], axis=-1).reshape(-1, 3)
    return points + half, _grid(rows, columns, round_about=True)


def _signed_power(values: F64, power: float) -> F64:
    return np.asarray(np.sign(values) * np.abs(np.where(np.abs(values) < 1e-12, 0.0, values)) ** power, np.float64)


def _spread_toward_corners(angles: F64, power: float) -> F64:
    """Angles bunched so that the points of a superellipse lie close together where it bends, midway of each quarter."""
    quarter = math.pi / 2
    base = np.floor(angles / quarter + 1e-9) * quarter
    even = 2 * np.clip((angles - base) / quarter, 0, 1) - 1
    t = (1 + np.sign(even) * np.abs(even) ** (1.0 + 1.2 * (1 - power))) / 2
    a, b = np.sin(t * quarter), np.cos(t * quarter)
    a, b = a ** (1 / power), b ** (1 / power)
    return np.asarray(base + np.arctan2(a, b), np.float64)


def turned_mesh(turned: Turned) -> Mesh:
    """The outline turned about z."""
    outline = np.asarray(turned.outline_mm, np.float64)
    turn = np.linspace(0.0, 2 * math.pi, AROUND, endpoint=False)
    radius, height = outline[:, 0:1], outline[:, 1:2]
    points = np.stack([radius * np.cos(turn), radius * np.sin(turn), np.repeat(height, AROUND, axis=1)], axis=-1)
    return points.reshape(-1, 3), _grid(len(outline), AROUND, round_about=True)


def rod_mesh(rod: Rod) -> Mesh:
    """A tube through the points, mitred at each, with flat ends."""
    points = np.asarray(rod.points_mm, np.float64)
    step = np.diff(points, axis=0)
    step /= np.linalg.norm(step, axis=1, keepdims=True)
    along = np.concatenate([step[:1], (step[:-1] + step[1:]) / 2, step[-1:]])
    along /= np.linalg.norm(along, axis=1, keepdims=True)
    side = np.cross(along[0], [0.0, 0.0, 1.0] if abs(along[0][2]) < 0.9 else [1.0, 0.0, 0.0])
    end = rod.radius_mm if rod.end_radius_mm is None else rod.end_radius_mm
    radius = np.linspace(rod.radius_mm, end, len(points))
    turn = np.linspace(0.0, 2 * math.pi, ROD_AROUND, endpoint=False)
    rings = []
    for point, toward, r in zip(points, along, radius, strict=True):
        side = side - toward * float(side @ toward)
        side = side / np.linalg.norm(side)
        other = np.cross(toward, side)
        rings.append(point + r * (np.cos(turn)[:, None] * side + np.sin(turn)[:, None] * other))
    last = (len(points) - 1) * ROD_AROUND
    faces = [_grid(len(points), ROD_AROUND, round_about=True)]
    faces += [_cap(0, ROD_AROUND, up=False), _cap(last, ROD_AROUND, up=True)]
    return np.concatenate(rings), np.concatenate(faces)


def leaf_mesh(leaf: Leaf) -> Mesh:
    """A blade of two halves along a bent rib."""
    t = np.linspace(0.0, 1.0, LEAF_STEPS)
    bend = np.radians(leaf.rise_deg - leaf.droop_deg * t**1.3)
    stride = leaf.length_mm / (LEAF_STEPS - 1)
    middle = (bend[:-1] + bend[1:]) / 2
    x = np.concatenate([[0.0], np.cumsum(np.cos(middle))]) * stride
    z = np.concatenate([[0.0], np.cumsum(np.sin(middle))]) * stride
    peak = leaf.widest
    shape = (t / peak) ** peak * ((1 - t) / (1 - peak)) ** (1 - peak)
    half = leaf.width_mm / 2 * np.maximum(shape, 0.02)
    fold = math.radians(leaf.fold_deg)
    out, up = half * math.cos(fold), half * math.sin(fold)
    lift = np.stack([-np.sin(bend), np.zeros_like(t), np.cos(bend)], axis=1) * up[:, None]
    rib = np.stack([x, np.zeros_like(t), z], axis=1)
    side = np.stack([np.zeros_like(t), out, np.zeros_like(t)], axis=1)
    points = np.stack(
        [rib - side + lift, rib - 0.5 * side + 0.4 * lift, rib, rib + 0.5 * side + 0.4 * lift, rib + side + lift],
        axis=1,
    )
    return points.reshape(-1, 3), _grid(LEAF_STEPS, 5, round_about=False)[:, ::-1].copy()
