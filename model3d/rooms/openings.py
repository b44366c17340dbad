"""Doors and windows, resolved: where they are cut into a wall, in the wall's own frame."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True, kw_only=True)
class Casing:
    """The moulding round a door: ``width_mm`` on the wall each side of the opening, ``depth_mm`` proud of the
    wall.
    """

    width_mm: float
    depth_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Door:
    """A doorway from ``from_mm`` to ``to_mm`` along its wall, from the floor to ``height_mm``.

    ``hinge`` is left or right *as you face the wall* from the room; the wall's first corner is on the right
    then. ``swing`` is ``in`` when the leaf opens into the room; it opens by ``opens_deg`` from shut. A leaf
    as wide as the opening turns about ``hinge_mm`` along the wall.
    """

    id: str
    wall_id: str
    from_mm: float
    to_mm: float
    height_mm: float
    hinge: Literal["left", "right"]
    swing: Literal["in", "out"]
    opens_deg: float
    leaf_thickness_mm: float
    casing: Casing | None

    @property
    def width_mm(self) -> float:
        """Width of the opening."""
        return self.to_mm - self.from_mm

    @property
    def hinge_mm(self) -> float:
        """Where along the wall the hinges stand."""
        return self.from_mm if self.hinge == "right" else self.to_mm

    @property
    def kept_clear_mm(self) -> tuple[float, float]:
        """From where to where along the wall the door takes the wall up, casing included."""
        beside = 0.0 if self.casing is None else self.casing.width_mm
        return (self.from_mm - beside, self.to_mm + beside)


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """A window from ``from_mm`` to ``to_mm`` along its wall, ``sill_mm`` to ``sill_mm + height_mm`` above the
    floor.

    ``sill_depth_mm`` is how far its sill board stands into the room, 0 for none; the board's top is at
    ``sill_mm``.
    """

    id: str
    wall_id: str
    from_mm: float
    to_mm: float
    sill_mm: float
    height_mm: float
    sill_depth_mm: float
    sill_thickness_mm: float

    @property
    def width_mm(self) -> float:
        """Width of the opening."""
        return self.to_mm - self.from_mm


Opening = Door | Window
