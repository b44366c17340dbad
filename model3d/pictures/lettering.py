"""Words measured, broken into lines and placed, with the fonts that travel in the package."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from pathlib import Path
from typing import Literal

from PIL import ImageFont

from model3d.pictures.paper import Box

FAMILY = "DejaVu Sans"
_SIDE_BEARING = 1.01
_KEPT_BLOCKS = 4096
_NO_BREAK = "\u00a0"
_WORDS = re.compile(r"\S*\d mm(?!\w)\S*|\S+")  # a number and its unit are one word


def font_paths() -> tuple[Path, Path]:
    """Files of the shipped font: regular, bold."""
    folder = Path(str(files("model3d.pictures") / "fonts"))
    return folder / "DejaVuSans.ttf", folder / "DejaVuSans-Bold.ttf"


@lru_cache(maxsize=64)
def _font(size_px: float, bold: bool) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(str(font_paths()[bold]), size_px, layout_engine=ImageFont.Layout.BASIC)


def width_px(text: str, size_px: float, bold: bool = False) -> float:
    """Width of one line of text, pixels, with one per cent to spare for the rasteriser's own kerning."""
    return _font(size_px, bold).getlength(text) * _SIDE_BEARING


@dataclass(frozen=True, slots=True, kw_only=True)
class TextBlock:
    """Broken text: its lines, size and weight, and the box they fill. The first baseline stands ``size_px``
    below the top.
    """

    lines: tuple[str, ...]
    size_px: float
    bold: bool
    width_px: float
    height_px: float

    @property
    def leading_px(self) -> float:
        """Distance from one baseline to the next."""
        return self.size_px * 1.28


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedText:
    """A block of text with its top left corner (``anchor`` middle: top centre; end: top right)."""

    block: TextBlock
    left: float
    top: float
    colour: str
    anchor: Literal["start", "middle", "end"] = "start"

    def box(self) -> Box:
        """The rectangle the lines fill."""
        back = {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor] * self.block.width_px
        return Box(left=self.left - back, top=self.top, width=self.block.width_px, height=self.block.height_px)


@lru_cache(maxsize=_KEPT_BLOCKS)
def set_text(text: str, size_px: float, most_px: float, bold: bool = False) -> TextBlock:
    """Break ``text`` into lines no wider than ``most_px``, at spaces, and inside a word only when it is
    wider by itself. A length keeps to its unit.
    """
    lines: list[str] = []
    for word in (whole.replace(" ", _NO_BREAK) for whole in _WORDS.findall(text)):
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and width_px(joined, size_px, bold) <= most_px:
            lines[-1] = joined
        else:
            lines.extend(_pieces(word, size_px, most_px, bold))
    lines = [line.replace(_NO_BREAK, " ").strip() for line in lines]
    widest = max((width_px(line, size_px, bold) for line in lines), default=0.0)
    high = size_px * 1.28 * len(lines)
    return TextBlock(lines=tuple(lines), size_px=size_px, bold=bold, width_px=widest, height_px=high)


@lru_cache(maxsize=_KEPT_BLOCKS)
def balanced(text: str, size_px: float, most_px: float, bold: bool = False) -> TextBlock:
    """As ``set_text``, with the lines made as even as the number of lines allows."""
    block = set_text(text, size_px, most_px, bold)
    low, high, whole = block.width_px / 2, most_px, " ".join(block.lines)
    while len(block.lines) > 1 and high - low > 4:
        middle = (low + high) / 2
        tried = set_text(text, size_px, middle, bold)
        if len(tried.lines) == len(block.lines) and " ".join(tried.lines) == whole:
            block, high = tried, middle
        else:
            low = middle
    return block


def _pieces(word: str, size_px: float, most_px: float, bold: bool) -> list[str]:
    """One word cut into parts that fit; a single letter is never cut."""
    parts = [""]
    for letter in word:
        if parts[-1] and width_px(parts[-1] + letter, size_px, bold) > most_px:
            parts.append("")
        parts[-1] += letter
    return parts
