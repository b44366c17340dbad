"""Drawers and doors of what stands in a room, resolved: the front they are in, and the room they take."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from model3d.geometry.placement import Placement

Front = Literal["room", "left", "right"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawer:
    """A drawer in a front, from ``from_mm`` to ``to_mm`` along it and from ``low_mm`` to ``high_mm`` up; it pulls out
    by ``out_mm``.

    ``front`` is the frame of its front in the obstacle's: x along it from its right side as one faces it, y out of
    it, z up from the floor.
    """

    front: Placement
    from_mm: float
    to_mm: float
    low_mm: float
    high_mm: float
    out_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CupboardDoor:
    """An upright door in a front (as for a ``Drawer``); it opens by ``opens_deg`` from shut about ``hinge_mm``."""

    front: Placement
    from_mm: float
    to_mm: float
    low_mm: float
    high_mm: float
    hinge: Literal["left", "right"]
    opens_deg: float

    @property
    def hinge_mm(self) -> float:
        """Where along the front the hinges stand."""
        return self.from_mm if self.hinge == "right" else self.to_mm


Opener = Drawer | CupboardDoor
