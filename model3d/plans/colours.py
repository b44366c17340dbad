"""Colours as a plan writes them: a plain name or ``#rrggbb``."""

from __future__ import annotations

import re
from typing import Annotated

from pydantic import AfterValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from model3d.sources import near_miss

NAMED = {
    "white": "#f7f7f5",
    "ivory": "#f2ecdc",
    "cream": "#efe6cf",
    "sand": "#d9c7a3",
    "stone": "#c9c3b6",
    "light-grey": "#d4d6d8",
    "grey": "#9a9da0",
    "dark-grey": "#565a5e",
    "anthracite": "#383c40",
    "black": "#1d1d1d",
    "oak": "#c29b6a",
    "walnut": "#7a5a3f",
    "beech": "#d8b384",
    "slate": "#5d666d",
    "terracotta": "#b4654a",
    "pale-green": "#cbd9c8",
    "pale-blue": "#cbd8e2",
    "navy": "#2f3e55",
    "silver": "#c3c6c9",
    "bronze": "#7c6a52",
}
_HEX = re.compile(r"#[0-9a-fA-F]{6}\Z")


def rgb(colour: str) -> tuple[float, float, float]:
    """Red, green and blue from 0 to 1 of a colour as written. Raises KeyError when it is no colour."""
    written = colour if _HEX.match(colour) else NAMED[colour.lower()]
    red, green, blue = (int(written[i : i + 2], 16) / 255.0 for i in (1, 3, 5))
    return (red, green, blue)


def _known(colour: str) -> str:
    try:
        rgb(colour)
    except KeyError:
        reason = (
            f"'{colour}' is no colour{near_miss(colour, NAMED)} "
            f"(a name, such as {', '.join(list(NAMED)[:6])}, "
            'or "#rrggbb" in quotes)'
        )
        raise PydanticCustomError("colour", "{reason}", {"reason": reason}) from None
    return colour


Colour = Annotated[
    str,
    AfterValidator(_known),
    WithJsonSchema({"anyOf": [{"enum": list(NAMED)}, {"type": "string", "pattern": "^#[0-9a-fA-F]{6}$"}]}),
]
"""A colour of the plan's finish."""
