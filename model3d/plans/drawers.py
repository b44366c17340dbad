"""Drawers and doors of furniture, as a plan writes them.

``from`` and ``to`` are along the front from its right side, as you face it; ``up`` is above the floor. Where nothing is
given, a drawer or door takes the whole of the front.
"""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from model3d.sources import Distance, Entry, Size


class WrittenDrawer(Entry):
    """A drawer, pulled straight out of its front."""

    up: Distance | None = Field(default=None, description="Height of its underside.")
    height: Size | None = None
    out: Size | None = Field(default=None, description="How far it pulls out; as deep as what it is in.")
    from_: Distance | None = Field(default=None, alias="from")
    to: Distance | None = None


class WrittenCupboardDoor(Entry):
    """A door of a cupboard or a cabinet, hung upright."""

    hinge: Literal["left", "right"] = Field(description="Side of the hinges as you face it.")
    up: Distance | None = Field(default=None, description="Height of its lower edge.")
    height: Size | None = None
    opens: float = Field(default=90.0, gt=0, le=180, description="By how much it opens, degrees.")
    from_: Distance | None = Field(default=None, alias="from")
    to: Distance | None = None
