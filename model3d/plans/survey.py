"""What was measured in a room beside its walls, as a plan writes it."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from model3d.sources import Entry, Size

AngleSigma = Annotated[float, Field(gt=0, le=45)]


class WrittenDiagonal(Entry):
    """The straight distance between two corners that no wall joins."""

    from_: str = Field(alias="from", description="One corner.")
    to: str = Field(description="The other corner.")
    length: Size
    sigma: Size | None = Field(default=None, description="Standard error of this reading.")


class WrittenAngle(Entry):
    """The angle at a corner, by ``interior`` (inside the room: 270 at a square external corner) or by ``turn``
    (90 at a square internal corner, -90 at an external one).
    """

    corner: str
    interior: float | None = Field(default=None, gt=0, lt=360)
    turn: float | None = Field(default=None, gt=-180, lt=180)
    sigma: AngleSigma | None = Field(default=None, description="Standard error of this reading, degrees.")


class WrittenSurvey(Entry):
    """Readings that check each other: with them, a wall's ``turn`` is a sketch, and its ``length`` a reading like
    the others; the room is adjusted by least squares. Two readings in three are within their standard error.
    """

    length_sigma: Size = Field(default=2.0, description="Standard error of a length (common practice, no source).")
    angle_sigma: AngleSigma = Field(
        default=0.3, description="Standard error of an angle, degrees (common practice, no source)."
    )
    diagonals: tuple[WrittenDiagonal, ...] = ()
    angles: tuple[WrittenAngle, ...] = ()
