"""Boxes, rods, rings and prisms by closed forms: where they end in a direction, how far a place is from them; and the
kernel's solid of each.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Protocol

import cadquery as cq
import numpy as np
import numpy.typing as npt

from tests.checks.known_solids import middle_box, prism, ring, rod

Points = npt.NDArray[np.float64]


class Plain(Protocol):
    """A body about the origin of its own frame, mm."""

    @property
    def reach_mm(self) -> float:
        """No point of it is further from the origin."""

    def solid(self) -> cq.Solid:
        """The kernel's solid."""

    def signed_mm(self, places: Points) -> Points:
        """How far places (n, 3) are outside of it; negative inside, by how far it is to the surface; (n,)."""


class Convex(Plain, Protocol):
    """One that holds the straight way between any two of its points."""

    def furthest(self, way: Points) -> Points:
        """The point (3,) of it that is furthest in a direction."""


@dataclass(frozen=True, kw_only=True)
class PlainBox:
    """A box by half its sides."""

    half_mm: tuple[float, float, float]

    @property
    def reach_mm(self) -> float:
        """See ``Plain``."""
        return math.hypot(*self.half_mm)

    def solid(self) -> cq.Solid:
        """See ``Plain``."""
        x, y, z = self.half_mm
        return middle_box(2.0 * x, 2.0 * y, 2.0 * z)

    def furthest(self, way: Points) -> Points:
        """See ``Convex``."""
        return np.where(way >= 0.0, self.half_mm, np.negative(self.half_mm))

    def signed_mm(self, places: Points) -> Points:
        """See ``Plain``."""
        return _of_sides(np.abs(places) - self.half_mm)


@dataclass(frozen=True, kw_only=True)
class PlainRod:
    """A cylinder along z."""

    radius_mm: float
    half_mm: float

    @property
    def reach_mm(self) -> float:
        """See ``Plain``."""
        return math.hypot(self.radius_mm, self.half_mm)

    def solid(self) -> cq.Solid:
        """See ``Plain``."""
        return rod(self.radius_mm, 2.0 * self.half_mm, -self.half_mm)

    def furthest(self, way: Points) -> Points:
        """See ``Convex``."""
        across = math.hypot(way[0], way[1])
        x, y = way[:2] * (self.radius_mm / across) if across > 0.0 else (self.radius_mm, 0.0)
        return np.array([x, y, math.copysign(self.half_mm, way[2])])

    def signed_mm(self, places: Points) -> Points:
        """See ``Plain``."""
        round_it = np.hypot(places[:, 0], places[:, 1]) - self.radius_mm
        return _of_sides(np.stack([round_it, np.abs(places[:, 2]) - self.half_mm], axis=1))


@dataclass(frozen=True, kw_only=True)
class PlainPrism:
    """A convex outline, its ``corners_mm`` anticlockwise, carried along z."""

    corners_mm: tuple[tuple[float, float], ...]
    half_mm: float

    @property
    def reach_mm(self) -> float:
        """See ``Plain``."""
        return math.hypot(max(math.hypot(*corner) for corner in self.corners_mm), self.half_mm)

    def solid(self) -> cq.Solid:
        """See ``Plain``."""
        return prism(list(self.corners_mm), 2.0 * self.half_mm, -self.half_mm)

    def furthest(self, way: Points) -> Points:
        """See ``Convex``."""
        corners = np.array(self.corners_mm)
        return np.array([*corners[int(np.argmax(corners @ way[:2]))], math.copysign(self.half_mm, way[2])])

    def signed_mm(self, places: Points) -> Points:
        """See ``Plain``."""
        a = np.array(self.corners_mm)
        sides = np.roll(a, -1, axis=0) - a
        lengths = np.linalg.norm(sides, axis=1)
        off = places[:, None, :2] - a
        past = (off[:, :, 0] * sides[:, 1] - off[:, :, 1] * sides[:, 0]) / lengths  # out of each side's line
        share = np.clip(np.einsum("ijk,jk->ij", off, sides) / lengths**2, 0.0, 1.0)
        far = np.linalg.norm(off - share[:, :, None] * sides, axis=2).min(axis=1)
        inside = past.max(axis=1)
        outline = np.where(inside > 0.0, far, inside)
        return _of_sides(np.stack([outline, np.abs(places[:, 2]) - self.half_mm], axis=1))


@dataclass(frozen=True, kw_only=True)
class PlainRing:
    """A torus round z."""

    major_mm: float
    minor_mm: float

    @property
    def reach_mm(self) -> float:
        """See ``Plain``."""
        return self.major_mm + self.minor_mm

    def solid(self) -> cq.Solid:
        """See ``Plain``."""
        return ring(self.major_mm, self.minor_mm)

    def middle(self, turns: Points) -> Points:
        """Points (n, 3) of the circle in its middle, by angle in radians."""
        return np.stack([self.major_mm * np.cos(turns), self.major_mm * np.sin(turns), np.zeros_like(turns)], axis=1)

    def signed_mm(self, places: Points) -> Points:
        """See ``Plain``."""
        across = np.hypot(places[:, 0], places[:, 1]) - self.major_mm
        return np.asarray(np.hypot(across, places[:, 2]) - self.minor_mm)


def _of_sides(past: Points) -> Points:
    """Distance to what is within all of some square sides, by how far a place is past each."""
    return np.asarray(np.linalg.norm(np.maximum(past, 0.0), axis=1) + np.minimum(past.max(axis=1), 0.0))
