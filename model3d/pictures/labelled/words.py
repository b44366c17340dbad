"""Words of a sheet, each in the room that it may take: smaller type where a longer language needs it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from model3d.pictures.lettering import PlacedText, TextBlock, set_text
from model3d.pictures.paper import Box

LEAST_PX = 15.0  # 7.5 point type on a page printed 277 mm wide
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """Words where they stand, and the room that they must keep to."""

    text: PlacedText
    room: Box


def words_in(
    room: Box,
    text: str,
    size_px: float,
    colour: str,
    *,
    bold: bool = False,
    anchor: Anchor = "start",
    middle: bool = False,
) -> Words:
    """Words at a side of their room or in the middle across, from its top or half way down; in type so much smaller
    that they fit, but never under 15 pixels.
    """
    block = block_in(text, size_px, (room.width, room.height), bold=bold)
    left = {"start": room.left, "middle": room.middle[0], "end": room.right}[anchor]
    top = room.middle[1] - block.height_px / 2 if middle else room.top
    return Words(text=PlacedText(block=block, left=left, top=top, colour=colour, anchor=anchor), room=room)


def block_in(text: str, size_px: float, within_px: tuple[float, float], *, bold: bool = False) -> TextBlock:
    """Text broken to a width, in type so much smaller that it is no higher than asked and no word is broken, but never
    under 15 pixels.
    """
    size = size_px
    while True:
        block = set_text(text, size, within_px[0], bold)
        if size <= LEAST_PX or (block.height_px <= within_px[1] and _whole(block, text)):
            return block
        size = max(size - 1.0, LEAST_PX)


def _whole(block: TextBlock, text: str) -> bool:
    return " ".join(block.lines) == " ".join(text.split())


def stacked(room: Box, texts: Sequence[str], size_px: float, colour: str, apart_px: float) -> tuple[Words, ...]:
    """Texts one under the other from the top of a room, all in one size, so much smaller that they fit."""
    size = size_px
    while size > LEAST_PX and _height(texts, size, room.width, apart_px) > room.height:
        size = max(size - 1.0, LEAST_PX)
    found: list[Words] = []
    top = room.top
    for text in texts:
        block = set_text(text, size, room.width)
        own = replace(room, top=top, height=max(room.bottom - top, 0.0))
        found.append(Words(text=PlacedText(block=block, left=room.left, top=top, colour=colour), room=own))
        top += block.height_px + apart_px
    return tuple(found)


def _height(texts: Sequence[str], size_px: float, width_px: float, apart_px: float) -> float:
    blocks = [set_text(text, size_px, width_px) for text in texts]
    return sum(block.height_px for block in blocks) + apart_px * max(len(texts) - 1, 0)
