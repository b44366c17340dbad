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
class Sash:
    """One sash of a casement, ``width_mm`` wide, hung at ``hinge_mm`` along the wall, on its surface: on the safe side,
    since a frame that is set back has it reach less far.
    """

    hinge: Literal["left", "right"]
    hinge_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Casement:
    """What of a window opens into the room, about upright hinges; ``hinge`` as of a door, both for a pair."""

    hinge: Literal["left", "right", "both"]
    opens_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """A window from ``from_mm`` to ``to_mm`` along its wall, ``sill_mm`` to ``sill_mm + height_mm`` above the
    floor.

    ``sill_depth_mm`` is how far its sill board stands into the room, 0 for none; the board's top is at
    ``sill_mm``. ``casement`` is None for a window that does not open into the room.
    """

    id: str
    wall_id: str
    from_mm: float
    to_mm: float
    sill_mm: float
    height_mm: float
    sill_depth_mm: float
    sill_thickness_mm: float
    casement: Casement | None = None

    @property
    def width_mm(self) -> float:
        """Width of the opening."""
        return self.to_mm - self.from_mm

    @property
    def sashes(self) -> tuple[Sash, ...]:
        """The sashes that open into the room, the one nearer the wall's first corner first."""
        if self.casement is None:
            return ()
        wide = self.width_mm / (2.0 if self.casement.hinge == "both" else 1.0)
        sides: tuple[Literal["left", "right"], ...] = ("right", "left")
        return tuple(
            Sash(hinge=side, hinge_mm=self.from_mm if side == "right" else self.to_mm, width_mm=wide)
            for side in sides
            if self.casement.hinge in (side, "both")
        )


Opening = Door | Window
