"""What is read in a room: lengths between corners and angles at corners, each with its standard error.

Corners are numbered from 0 round the room, anticlockwise.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Unit = Literal["mm", "deg"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthReading:
    """The straight distance between two corners: a wall or a diagonal. ``sigma_mm`` is its standard error."""

    name: str
    first: int
    second: int
    value_mm: float
    sigma_mm: float

    @property
    def value(self) -> float:
        """The reading, mm."""
        return self.value_mm

    @property
    def sigma(self) -> float:
        """Its standard error, mm."""
        return self.sigma_mm

    @property
    def unit(self) -> Unit:
        """Unit of value and sigma."""
        return "mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class AngleReading:
    """The angle at ``corner``, anticlockwise from the way to ``toward`` to the way to ``back``, in (0, 360).

    With ``toward`` the next corner and ``back`` the one before, it is the room's interior angle.
    """

    name: str
    corner: int
    toward: int
    back: int
    value_deg: float
    sigma_deg: float

    @property
    def value(self) -> float:
        """The reading, degrees."""
        return self.value_deg

    @property
    def sigma(self) -> float:
        """Its standard error, degrees."""
        return self.sigma_deg

    @property
    def unit(self) -> Unit:
        """Unit of value and sigma."""
        return "deg"


Reading = LengthReading | AngleReading
