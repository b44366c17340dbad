"""What brackets are fixed to, and where in-line joints may stand, as a plan writes it."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from model3d.sources import Distance, Entry, Size


class WrittenFixing(Entry):
    """What a wall is made of, for fixing brackets. Studs stand from ``first`` on, every ``spacing``."""

    wall: str
    kind: Literal["masonry", "board", "studs"]
    spacing: Size | None = Field(default=None, description="Studs: from middle to middle.")
    first: Distance | None = Field(
        default=None, description="Studs: middle of one, from the wall's first corner."
    )
    width: Size | None = Field(default=None, description="Studs: face that takes a screw; 38 when left out.")


class WrittenInLine(Entry):
    """How far the middle of an in-line joint stays from things on its wall, where dryfit chooses its place.

    Common practice, no source.
    """

    off_corner: Distance = 300.0
    off_socket: Distance = Field(default=150.0, description="From the edge of a socket-outlet.")
    off_opening: Distance = Field(default=150.0, description="From the edge of a door, casing included.")
    off_pipe: Distance = Field(default=100.0, description="From the edge of a pipe or pipe tail.")
