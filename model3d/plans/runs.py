"""Runs and dry pieces as a plan writes them."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, Tag

from model3d.sources import Distance, Entry, Name, Size


class OnWall(Entry):
    """A place on a wall, ``at`` from its first corner."""

    wall: str
    at: Distance


class BesideOpening(Entry):
    """The place beside an opening, clear of its casing; ``side`` as you face the wall."""

    beside: str
    side: Literal["left", "right"]


def _form_of_stop(value: Any) -> str:
    if isinstance(value, BesideOpening) or (isinstance(value, dict) and "beside" in value):
        return "beside"
    return "on" if isinstance(value, dict | OnWall) else "wall"


Stop = Annotated[
    Annotated[str, Tag("wall")] | Annotated[OnWall, Tag("on")] | Annotated[BesideOpening, Tag("beside")],
    Discriminator(_form_of_stop),
]


class CornerJoint(Entry):
    """A joint asked for at a corner."""

    corner: str
    use: Literal["elbow", "link"]


class InLineJoint(Entry):
    """A joint asked for within a wall."""

    wall: str
    at: Distance
    use: Literal["link", "coupler"]


def _form_of_joint(value: Any) -> str:
    in_line = isinstance(value, InLineJoint) or (isinstance(value, dict) and "wall" in value)
    return "in-line" if in_line else "at-corner"


AnyJoint = Annotated[
    Annotated[CornerJoint, Tag("at-corner")] | Annotated[InLineJoint, Tag("in-line")],
    Discriminator(_form_of_joint),
]


class WrittenCutLength(Entry):
    """A cut length asked for: ``piece`` counts from 1 within the wall, in the run's order."""

    wall: str
    piece: int = Field(default=1, ge=1, le=200)
    length: Size


class WrittenRun(Entry):
    """A run from its valve end to its return end."""

    id: Name
    start: Stop = Field(description="Where it begins: a wall, {wall, at}, or {beside, side}.")
    end: Stop = Field(description="Where it ends: a wall, {wall, at}, or {beside, side}.")
    direction: Literal["with-walls", "against-walls"] = Field(
        default="with-walls", description="with-walls: the room is on the left on the way from start to end."
    )
    start_fitting: Literal["valve"] = "valve"
    end_fitting: Literal["return", "turn-back"] = "return"
    island: str | None = Field(default=None, description="The island it goes round.")
    joints: tuple[AnyJoint, ...] = ()
    cut_lengths: tuple[WrittenCutLength, ...] = ()
    return_fixed: bool = Field(default=False, description="Whether the pipework at the return end holds it.")


class WrittenDryPiece(Entry):
    """Unheated skirting on a wall, between two places along it."""

    id: Name
    wall: str
    from_: Distance = Field(alias="from")
    to: Distance
