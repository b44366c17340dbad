"""What was measured of walls that bow and of a floor that is not level, as a plan writes it."""

from __future__ import annotations

from pydantic import Field

from model3d.sources import Distance, Entry, Length, Size

BowReading = tuple[Distance, Length]


class WrittenBow(Entry):
    """How far a wall's face stands off the straight line between its corners: ``[at, off]``, ``off`` positive where
    it bellies into the room, negative where it is hollow. At the corners it is 0 unless given.
    """

    wall: str
    readings: tuple[BowReading, ...] = Field(
        min_length=1, description="[at, off] along the wall, straightedge or line."
    )


class WrittenLevel(Entry):
    """How far below a level line, the same all round the room, the floor lies at a wall: ``[at, down]``."""

    wall: str
    readings: tuple[tuple[Distance, Size], ...] = Field(min_length=1, description="[at, down] along the wall.")


class WrittenPackers(Entry):
    """Packers behind brackets."""

    step: Size = Field(default=0.5, description="Their thicknesses go up by this (common practice, no source).")
    most: Size = Field(default=10.0, description="Most to put behind one bracket (common practice, no source).")
