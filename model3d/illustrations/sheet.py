"""An illustration as a list of marks on a page: what every file format is written from. Page mm, y down."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, get_args

from model3d.themes import ColourName, Theme, Tinted

Mm = tuple[float, float]
Colour = ColourName | Literal["front-tint", "back-tint", "new-tint", "seal-tint", "on-front", "on-back", "on-move"]
Weight = Literal["thick", "medium", "thin"]
LetterSize = Literal["title", "body", "balloon"]
_OWN: dict[Colour, ColourName] = {name: name for name in get_args(ColourName)}
_TINTS: dict[Colour, Tinted] = {"front-tint": "front", "back-tint": "back", "new-tint": "new", "seal-tint": "seal"}
_GROUNDS: dict[Colour, ColourName] = {"on-front": "front", "on-back": "back", "on-move": "move"}
COLOURS = (*_OWN, *_TINTS, *_GROUNDS)


def shade(theme: Theme, colour: Colour) -> str:
    """A colour of a mark as #rrggbb: the theme's own, one laid in thinly as a tint, or that of letters on another."""
    if colour in _TINTS:
        return theme.tint(_TINTS[colour])
    if colour in _GROUNDS:
        return theme.on(_GROUNDS[colour])
    return theme.colour(_OWN[colour])


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A line through ``points``. ``dashes`` are lengths of ink and gap, mm; none: unbroken. ``owner`` is the id of the
    part that it belongs to, empty for what is no part.
    """

    points: tuple[Mm, ...]
    weight: Weight
    colour: Colour = "ink"
    closed: bool = False
    dashes: tuple[float, ...] = ()
    owner: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """A filled region: ``rings`` are closed outlines; where two overlap, the inner one is a hole. ``edge`` gives it an
    outline of its own.
    """

    rings: tuple[tuple[Mm, ...], ...]
    fill: Colour
    edge: Weight | None = None
    edge_colour: Colour = "ink"
    owner: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Disc:
    """A circle about ``centre``; without ``edge`` only filled, without ``fill`` only drawn."""

    centre: Mm
    radius: float
    fill: Colour | None = "paper"
    edge: Weight | None = None
    edge_colour: Colour = "ink"


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """One line of text; ``at`` is on its base line, at its start or middle."""

    at: Mm
    text: str
    size: LetterSize = "body"
    colour: Colour = "ink"
    bold: bool = False
    anchor: Literal["start", "middle"] = "start"


Mark = Stroke | Area | Disc | Words


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """A line of a parts list: the number in its balloons, what it is, and how many there are."""

    number: int
    name: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A page ``size`` mm wide and high; later marks lie over earlier ones. ``title`` names it in the file;
    ``listed`` is its parts list.
    """

    title: str
    size: Mm
    marks: tuple[Mark, ...]
    listed: tuple[Listed, ...] = field(default=())
