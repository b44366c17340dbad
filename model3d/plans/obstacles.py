"""Obstacles as a plan writes them.

On a wall, ``at`` is along it from its first corner, ``off`` away from it into the room, ``up`` above the
floor. Sizes left out are common ones, no source: measure what is there.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from model3d.plans.drawers import WrittenCupboardDoor, WrittenDrawer
from model3d.plans.shape import Point
from model3d.sources import Distance, Entry, Length, Name, Size


class WrittenPipe(Entry):
    """A pipe: upright at ``at`` (``from`` and ``to`` are heights), or along the wall at height ``up``
    (``from`` and ``to`` are along it). ``off`` is its axis' distance from the wall, negative for a pipe
    chased into it.
    """

    id: Name
    kind: Literal["pipe"]
    wall: str
    at: Distance | None = None
    up: Distance | None = None
    off: Length
    diameter: Size
    from_: Distance | None = Field(default=None, alias="from")
    to: Distance | None = None


class WrittenPipeTail(Entry):
    """A pipe that comes up out of the floor and ends at ``height``."""

    id: Name
    kind: Literal["pipe-tail"]
    wall: str
    at: Distance
    off: Distance
    diameter: Size
    height: Size


class WrittenBackBox(Entry):
    """The box in the wall behind a socket-outlet."""

    width: Size = 70.0
    height: Size = 70.0
    depth: Size = 35.0


class WrittenSocketOutlet(Entry):
    """A socket-outlet; ``at`` and ``up`` are its middle."""

    id: Name
    kind: Literal["socket-outlet"]
    wall: str
    at: Distance
    up: Distance
    width: Size = 86.0
    height: Size = 86.0
    proud: Size = Field(default=9.0, description="How far the plate stands proud of the wall.")
    box: WrittenBackBox = Field(default_factory=WrittenBackBox)


class WrittenTrunking(Entry):
    """Trunking along a wall; ``up`` is its underside."""

    id: Name
    kind: Literal["trunking"]
    wall: str
    from_: Distance = Field(alias="from")
    to: Distance
    up: Distance
    height: Size
    depth: Size


class WrittenBox(Entry):
    """A box of any size: on a wall, from ``at`` on, or on the floor, its first corner at ``floor`` and turned
    by ``turn`` degrees. ``up`` is its underside.

    Its front is the face to the room, or with ``front`` the one at its left or right as you look at the wall; on the
    floor its depth goes from back to front.
    """

    id: Name
    kind: Literal["box"]
    wall: str | None = None
    at: Distance | None = None
    off: Length = 0.0
    floor: Point | None = None
    turn: float = Field(default=0.0, ge=-360, le=360)
    up: Distance = 0.0
    width: Size
    depth: Size
    height: Size
    front: Literal["room", "left", "right"] = Field(default="room", description="Which face its drawers are in.")
    drawers: tuple[WrittenDrawer, ...] = ()
    doors: tuple[WrittenCupboardDoor, ...] = ()


class WrittenShelf(Entry):
    """A shelf, or a sill that no window has; ``up`` is its underside."""

    id: Name
    kind: Literal["shelf", "sill"]
    wall: str
    at: Distance
    width: Size
    depth: Size
    up: Distance
    thickness: Size = 20.0


AnyObstacle = Annotated[
    WrittenPipe | WrittenPipeTail | WrittenSocketOutlet | WrittenTrunking | WrittenBox | WrittenShelf,
    Field(discriminator="kind"),
]
