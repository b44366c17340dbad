"""Perspective in plain numbers: where a point of the room falls on the picture, and where to stand to see a
set of points.

Pixels count right and down from the picture's top left corner; depth is the distance along the line of
sight, mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from model3d.geometry.placement import Vec3
from model3d.pictures.stage import Camera, Points


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """Pixels to keep free at the four sides of a picture when it is framed."""

    left: float = 0.0
    top: float = 0.0
    right: float = 0.0
    bottom: float = 0.0


def axes(camera: Camera) -> Points:
    """Rows: unit right, up and forward directions of the viewer. Raises ValueError for a view straight
    along ``up``.
    """
    forward = np.subtract(camera.target_mm, camera.eye_mm)
    right = np.cross(forward, camera.up)
    if np.linalg.norm(right) < 1e-9 * max(float(np.linalg.norm(forward)), 1e-9):
        raise ValueError("the line of sight must not lie along the camera's up")
    forward = forward / np.linalg.norm(forward)
    right = right / np.linalg.norm(right)
    return np.array([right, np.cross(right, forward), forward])


def project(camera: Camera, points_mm: Points, width_px: int, height_px: int) -> Points:
    """(n, 3) room points as (n, 3): pixel right, pixel down, depth. A point behind the viewer has depth <=
    0.
    """
    local = (np.asarray(points_mm, dtype=float).reshape(-1, 3) - np.asarray(camera.eye_mm)) @ axes(camera).T
    half = math.tan(math.radians(camera.field_deg / 2))
    depth = local[:, 2]
    safe = np.where(np.abs(depth) < 1e-9, 1e-9, depth)
    scale = height_px / 2 / half / safe
    return np.column_stack([width_px / 2 + local[:, 0] * scale, height_px / 2 - local[:, 1] * scale, depth])


def pixels_per_mm(camera: Camera, at_mm: Vec3, height_px: int) -> float:
    """How many pixels one millimetre square to the line of sight takes at a point."""
    depth = float(np.dot(np.subtract(at_mm, camera.eye_mm), axes(camera)[2]))
    return height_px / 2 / math.tan(math.radians(camera.field_deg / 2)) / max(depth, 1e-9)


def direction(facing: Vec3, azimuth_deg: float, elevation_deg: float) -> Vec3:
    """Unit direction to a viewer: ``facing`` (level) turned by the azimuth, anticlockwise from above, and
    lifted.
    """
    a, e = math.radians(azimuth_deg), math.radians(elevation_deg)
    long = math.hypot(facing[0], facing[1])
    fx, fy = facing[0] / long, facing[1] / long
    x, y = fx * math.cos(a) - fy * math.sin(a), fx * math.sin(a) + fy * math.cos(a)
    return x * math.cos(e), y * math.cos(e), math.sin(e)


def framed(points_mm: Points, toward: Vec3, field_deg: float, size_px: tuple[int, int], room: Room) -> Camera:
    """The nearest camera in direction ``toward`` that keeps every point inside the picture less ``room``.

    Exact: each side of the picture is a plane through the eye; the tightest pair sets the distance, the
    other pair is centred. Raises ValueError when nothing is left between the margins.
    """
    width, height = size_px
    half = math.tan(math.radians(field_deg / 2))
    sight = axes(Camera(eye_mm=toward, target_mm=(0.0, 0.0, 0.0)))
    x, y, z = (np.asarray(points_mm, dtype=float) @ sight.T).T
    unit = 2 * half / height
    sides = (
        (x, (room.left - width / 2) * unit, (width / 2 - room.right) * unit),
        (y, (room.bottom - height / 2) * unit, (height / 2 - room.top) * unit),
    )
    if any(high - low <= 0 for _, low, high in sides):
        raise ValueError(f"margins {room} leave nothing of a picture of {width} x {height}")
    depth = min(float((np.min(c - low * z) - np.max(c - high * z)) / (high - low)) for c, low, high in sides)
    depth = min(depth, float(z.min()) - 1.0)
    across = [
        float(np.min(c - low * z) + low * depth + np.max(c - high * z) + high * depth) / 2 for c, low, high in sides
    ]
    eye = np.array([across[0], across[1], depth]) @ sight
    target = eye + sight[2] * (float(z.mean()) - depth)
    return Camera(eye_mm=_vec(eye), target_mm=_vec(target), field_deg=field_deg)


def _vec(row: Points) -> Vec3:
    return float(row[0]), float(row[1]), float(row[2])
