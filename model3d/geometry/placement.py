"""Rigid placements in plain numbers: where a part's own frame stands in the room.

Room frame: x, y on the floor plan, z up from the finished floor, millimetres, right-handed.
A placement is proper: parts are turned and moved, never reflected.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

Vec2 = tuple[float, float]
Vec3 = tuple[float, float, float]

_UNIT_SLACK = 1e-9


def add(a: Vec3, b: Vec3) -> Vec3:
    """Sum of two vectors, mm."""
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def subtract(a: Vec3, b: Vec3) -> Vec3:
    """Difference a - b, mm."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def scale(a: Vec3, factor: float) -> Vec3:
    """Vector times a number."""
    return (a[0] * factor, a[1] * factor, a[2] * factor)


def dot(a: Vec3, b: Vec3) -> float:
    """Inner product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vec3, b: Vec3) -> Vec3:
    """Vector product a x b."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def length(a: Vec3) -> float:
    """Euclidean length, mm."""
    return math.sqrt(dot(a, a))


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """A part's own frame, given in the frame of what it is placed in.

    ``origin_mm`` is where the part's datum stands; ``x_axis``, ``y_axis`` and ``z_axis`` are the unit directions of
    its axes. Raises ValueError when the axes are not a right-handed orthonormal set.
    """

    origin_mm: Vec3 = (0.0, 0.0, 0.0)
    x_axis: Vec3 = (1.0, 0.0, 0.0)
    y_axis: Vec3 = (0.0, 1.0, 0.0)
    z_axis: Vec3 = (0.0, 0.0, 1.0)

    def __post_init__(self) -> None:
        x, y, z = self.x_axis, self.y_axis, self.z_axis
        off = max(
            abs(dot(x, x) - 1), abs(dot(y, y) - 1), abs(dot(x, y)), length(subtract(cross(x, y), z)),
        )
        if off > _UNIT_SLACK:
            raise ValueError(f"a placement needs right-handed perpendicular unit axes, not {x}, {y}, {z}")

    def vector(self, local: Vec3) -> Vec3:
        """A direction given in the part's frame, in the outer frame."""
        return add(add(scale(self.x_axis, local[0]), scale(self.y_axis, local[1])), scale(self.z_axis, local[2]))

    def point(self, local_mm: Vec3) -> Vec3:
        """A point given in the part's frame, in the outer frame, mm."""
        return add(self.origin_mm, self.vector(local_mm))

    def __matmul__(self, inner: Placement) -> Placement:
        """``outer @ inner``: the placement of what stands at ``inner`` within ``outer``."""
        return Placement(
            origin_mm=self.point(inner.origin_mm),
            x_axis=self.vector(inner.x_axis),
            y_axis=self.vector(inner.y_axis),
            z_axis=self.vector(inner.z_axis),
        )

    def inverse(self) -> Placement:
        """The placement that undoes this one."""
        x, y, z = self.x_axis, self.y_axis, self.z_axis
        rows = ((x[0], y[0], z[0]), (x[1], y[1], z[1]), (x[2], y[2], z[2]))
        back = scale((dot(x, self.origin_mm), dot(y, self.origin_mm), dot(z, self.origin_mm)), -1.0)
        return Placement(origin_mm=back, x_axis=rows[0], y_axis=rows[1], z_axis=rows[2])

    def moved(self, by_mm: Vec3) -> Placement:
        """The same frame, shifted by a vector of the outer frame, mm."""
        return Placement(
            origin_mm=add(self.origin_mm, by_mm), x_axis=self.x_axis, y_axis=self.y_axis, z_axis=self.z_axis
        )


def at(x_mm: float, y_mm: float, z_mm: float) -> Placement:
    """A placement that only moves."""
    return Placement(origin_mm=(x_mm, y_mm, z_mm))


def turned_about_z(turn_deg: float, origin_mm: Vec3 = (0.0, 0.0, 0.0)) -> Placement:
    """A placement turned about the upright axis, counter-clockwise seen from above, then moved to ``origin_mm``."""
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    return Placement(origin_mm=origin_mm, x_axis=(c, s, 0.0), y_axis=(-s, c, 0.0))
