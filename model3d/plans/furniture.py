"""Furniture, viewpoints and the room as it was, as a plan writes them: for the customer's pictures.

Against a wall, ``at`` is along it from its first corner to the piece's first side, ``off`` from the wall to its
back. On the floor, ``middle`` is its middle, and ``turn`` 0 has its front face along y.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from model3d.plans.colours import Colour
from model3d.plans.drawers import WrittenCupboardDoor, WrittenDrawer
from model3d.plans.shape import Point
from model3d.sources import Distance, Entry, Length, Name, Size

FurnitureKind = Literal[
    "sofa",
    "armchair",
    "chair",
    "low-table",
    "table",
    "desk",
    "cabinet",
    "bookcase",
    "bed",
    "rug",
    "plant",
    "lamp",
    "picture",
]
Point3 = tuple[Length, Length, Length]
Angle = Annotated[float, Field(ge=-360, le=360)]


class WrittenFurniture(Entry):
    """A piece of furniture. Sizes left out are common ones of its kind, no source."""

    id: Name
    kind: FurnitureKind
    wall: str | None = None
    at: Distance | None = None
    off: Distance | None = Field(default=None, description="From the wall to its back; 100, a picture hangs on it.")
    middle: Point | None = Field(default=None, description="Its middle on the floor, instead of a wall.")
    turn: Angle = Field(default=0.0, description="Turn of a piece on the floor, degrees.")
    up: Distance | None = Field(default=None, description="Height of a picture's lower edge.")
    width: Size | None = None
    depth: Size | None = None
    height: Size | None = None
    colour: Colour | None = None
    fixed: bool = Field(default=False, description="Whether it is built in: an obstacle to the run, and checked.")
    drawers: tuple[WrittenDrawer, ...] = Field(default=(), description="Of what is built in: checked as well.")
    doors: tuple[WrittenCupboardDoor, ...] = Field(default=(), description="Of what is built in: checked as well.")


class WrittenViewpoint(Entry):
    """Where a picture is taken from: ``eye`` and ``target``, or a ``wall``, a ``corner``, or from ``above``."""

    id: Name
    eye: Point3 | None = None
    target: Point3 | None = None
    wall: str | None = None
    corner: str | None = None
    above: Angle | None = Field(default=None, description="Direction on the floor plan to the eye, degrees from x.")
    distance: Size | None = Field(default=None, description="From the corner to the eye on the floor plan.")
    turn: Annotated[float, Field(ge=-80, le=80)] | None = Field(
        default=None, description="Turn of the eye off the corner's middle line, degrees."
    )
    field: Annotated[float, Field(ge=5, le=100)] | None = Field(
        default=None, description="Horizontal field of view, degrees."
    )


class WrittenRadiator(Entry):
    """A panel radiator that the skirting takes the place of."""

    wall: str
    at: Distance
    width: Size = 1000.0
    height: Size = 600.0
    up: Distance = Field(default=140.0, description="Height of its underside.")


class WrittenBefore(Entry):
    """The room as it was: an ordinary skirting board, and its radiators; one under a window when none is given."""

    skirting_height: Size = 95.0
    skirting_thickness: Size = 15.0
    skirting: Colour = "cream"
    walls: Colour | None = Field(default=None, description="Colour of the walls as they were; as they are now.")
    radiators: tuple[WrittenRadiator, ...] = ()
