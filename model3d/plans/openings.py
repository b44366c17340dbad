"""Doors and windows as a plan writes them; ``at`` is from the wall's first corner to the near side."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from model3d.sources import Distance, Entry, Name, Size


class WrittenCasing(Entry):
    """The moulding round a door."""

    width: Size = Field(description="Width on the wall, each side of the opening.")
    depth: Size = Field(description="How far it stands proud of the wall.")


class WrittenDoor(Entry):
    """A door."""

    id: Name
    kind: Literal["door"]
    wall: str
    at: Distance
    width: Size
    height: Size = 2000.0
    hinge: Literal["left", "right"] = Field(default="left", description="Side of the hinges as you face the wall.")
    swing: Literal["in", "out"] = Field(default="in", description="Whether it opens into the room.")
    opens: float = Field(default=90.0, gt=0, le=180, description="By how much it opens, degrees.")
    leaf: Size = Field(default=40.0, description="Thickness of the leaf.")
    casing: WrittenCasing | None = None


class WrittenWindow(Entry):
    """A window. With ``swing: in`` its casement, as wide as it, opens into the room; a pair has ``hinge: both``."""

    id: Name
    kind: Literal["window"]
    wall: str
    at: Distance
    width: Size
    sill: Distance = Field(default=900.0, description="Height of the sill's top above the floor.")
    height: Size = 1200.0
    sill_depth: Distance = Field(default=0.0, description="How far the sill board stands into the room.")
    sill_thickness: Size = 20.0
    swing: Literal["in", "out"] | None = Field(
        default=None, description="Whether its casement opens into the room; left out, it does not open."
    )
    hinge: Literal["left", "right", "both"] | None = Field(
        default=None, description="Side of the hinges as you face the wall, both for a pair; left when left out."
    )
    opens: Annotated[float, Field(gt=0, le=180)] | None = Field(
        default=None, description="By how much it opens, degrees; 90 when left out."
    )


AnyOpening = Annotated[WrittenDoor | WrittenWindow, Field(discriminator="kind")]
