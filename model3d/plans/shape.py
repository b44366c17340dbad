"""The room as a plan writes it: by its corners, or by its walls and turns."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import Discriminator, Field, Tag

from model3d.plans.survey import WrittenSurvey
from model3d.sources import Distance, Entry, Length, Name, Size

Point = tuple[Length, Length]


class WrittenCorner(Entry):
    """A corner with a name of its own."""

    id: Name
    at: Point = Field(description="x and y of the corner.")


class WrittenWall(Entry):
    """A wall by its length, and the turn at its end; of the last wall both may be left out."""

    id: Name | None = None
    length: Size | None = Field(default=None, description="Length of the wall, corner to corner.")
    turn: float | None = Field(
        default=None,
        gt=-180,
        lt=180,
        description="Turn at the wall's end, degrees: positive at an internal corner.",
    )
    sigma: Size | None = Field(default=None, description="Standard error of the length, in a survey.")


def _form_of_corner(value: Any) -> str:
    return "named" if isinstance(value, dict | WrittenCorner) else "point"


AnyCorner = Annotated[
    Annotated[Point, Tag("point")] | Annotated[WrittenCorner, Tag("named")], Discriminator(_form_of_corner)
]
Corners = tuple[AnyCorner, ...]


class WrittenIsland(Entry):
    """A free-standing column: its corners go round clockwise, so that the room is on the left."""

    id: Name
    corners: Corners = Field(description="Corners, clockwise.")


class WrittenRoom(Entry):
    """The room, with its own walls either by ``corners`` or by ``walls``, anticlockwise: the room on the
    left.
    """

    corners: Corners | None = Field(default=None, description="Corners, anticlockwise: [x, y] or {id, at}.")
    walls: tuple[WrittenWall, ...] | None = Field(
        default=None, description="Walls in order, anticlockwise: {id, length, turn}."
    )
    survey: WrittenSurvey | None = Field(default=None, description="Diagonals and angles that check the walls.")
    closing_tolerance: Distance = Field(default=2.0, description="By how much walls and turns may fail to close.")
    height: Size = Field(default=2400.0, description="Height of the walls.")
    wall_thickness: Size = Field(default=100.0, description="Thickness of the walls.")
    islands: tuple[WrittenIsland, ...] = Field(default=(), description="Free-standing columns.")
