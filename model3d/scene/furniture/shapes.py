"""The few shapes that furniture is made of, and how their surfaces look. Numbers only; pictures make the meshes.

Every shape stands in a frame of its own, in millimetres; an ``Element`` is a shape placed in the frame of what it
belongs to.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal

from model3d.geometry.placement import Placement, Vec3, at

Material = Literal["matt", "satin", "wood", "fabric", "metal", "leaf", "glow"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """A material and its colour, red, green, blue from 0 to 1 (sRGB)."""

    material: Material
    colour: Vec3


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A box with a corner at the datum, ``size_mm`` along x, y, z, its edges rounded by ``round_mm``. Its top is
    smaller than its foot by ``taper`` (0 to 1), about its middle; below 0 it is larger."""

    size_mm: Vec3
    round_mm: float = 0.0
    taper: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Cushion:
    """A stuffed cushion within the box of ``size_mm`` with a corner at the datum. ``square`` is how box-like it is:
    0 an ellipsoid, near 1 a box."""

    size_mm: Vec3
    square: float = 0.6


@dataclass(frozen=True, slots=True, kw_only=True)
class Turned:
    """A body turned about z: its outline as (radius, height) from foot to top, closed where a radius is 0."""

    outline_mm: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rod:
    """A round rod through points, thick at its first and at its last point by the radii given."""

    points_mm: tuple[Vec3, ...]
    radius_mm: float
    end_radius_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaf:
    """A leaf from the datum along x: ``length_mm`` long, ``width_mm`` wide at its widest, ``widest`` of the way along.

    It rises from the level by ``rise_deg`` at its foot and bends down by ``droop_deg`` to its tip; its halves fold up
    along the middle by ``fold_deg``.
    """

    length_mm: float
    width_mm: float
    widest: float = 0.45
    rise_deg: float = 60.0
    droop_deg: float = 70.0
    fold_deg: float = 16.0


Shape = Block | Cushion | Turned | Rod | Leaf


@dataclass(frozen=True, slots=True, kw_only=True)
class Element:
    """A shape with its look, placed."""

    shape: Shape
    look: Look
    placement: Placement = field(default_factory=Placement)

    def within(self, outer: Placement) -> Element:
        """The same element where ``outer`` stands in the room."""
        return replace(self, placement=outer @ self.placement)


def block(
    look: Look, size_mm: Vec3, at_mm: Vec3 = (0.0, 0.0, 0.0), *, round_mm: float = 3.0, taper: float = 0.0
) -> Element:
    """A box, its lower corner at ``at_mm``."""
    return Element(shape=Block(size_mm=size_mm, round_mm=round_mm, taper=taper), look=look, placement=at(*at_mm))


def shade(colour: Vec3, factor: float) -> Vec3:
    """A colour made darker (below 1) or lighter (above), within what can be shown."""
    r, g, b = (min(1.0, c * factor) for c in colour)
    return (r, g, b)
