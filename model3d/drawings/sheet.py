"""A sheet of paper: scale, placing of the room on it, and SVG text. Paper millimetres, y down."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from model3d.drawings.boxes import Box, box, turned_box
from model3d.geometry.placement import Vec2

# ISO 5455 reduction scales, largest drawing first, and 1:25, in common use for rooms.
SCALES = (5, 10, 20, 25, 50, 100, 200)
SHEETS = ((297.0, 210.0), (420.0, 297.0))  # A4 and A3 landscape, ISO 216
MARGIN_MM = 10.0
COLUMN_MM = 62.0  # the title column at the right
ROUND_MM = 16.0  # kept round the room for dimensions
_PAD_MM = 0.35  # kept free round words
# Widths of DejaVu Sans over its size, by kind of letter, rounded up; bold is a tenth wider.
_NARROW, _DIGIT, _SMALL, _CAPITAL, _WIDE = 0.36, 0.637, 0.62, 0.72, 0.98
_BOLD = 1.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet with the room placed on it: ``scale`` as in 1:20; ``low_mm`` the room's low corner; ``origin_mm`` where
    that stands on paper.
    """

    size_mm: tuple[float, float]
    scale: int
    low_mm: Vec2
    origin_mm: Vec2

    def at(self, point_mm: Vec2) -> Vec2:
        """A point of the room on the paper."""
        return (
            self.origin_mm[0] + (point_mm[0] - self.low_mm[0]) / self.scale,
            self.origin_mm[1] - (point_mm[1] - self.low_mm[1]) / self.scale,
        )

    @property
    def name(self) -> str:
        """A4 or A3."""
        return "A4" if self.size_mm == SHEETS[0] else "A3"

    @property
    def area(self) -> Box:
        """Where the room and its figures may stand: within the frame, left of the title column."""
        right, bottom = self.size_mm[0] - MARGIN_MM - COLUMN_MM, self.size_mm[1] - MARGIN_MM
        return box([(MARGIN_MM, MARGIN_MM), (right, MARGIN_MM), (right, bottom), (MARGIN_MM, bottom)])


def choose_sheet(points_mm: Sequence[Vec2]) -> Sheet:
    """The largest standard scale at which the points fit the smallest sheet, tried A4 then A3 for each scale."""
    xs, ys = [p[0] for p in points_mm], [p[1] for p in points_mm]
    low, span = (min(xs), min(ys)), (max(xs) - min(xs), max(ys) - min(ys))
    for scale in SCALES:
        for size in SHEETS:
            room = (size[0] - 2 * MARGIN_MM - 2 * ROUND_MM - COLUMN_MM, size[1] - 2 * MARGIN_MM - 2 * ROUND_MM)
            if span[0] / scale <= room[0] and span[1] / scale <= room[1]:
                left = MARGIN_MM + ROUND_MM + (room[0] - span[0] / scale) / 2
                bottom = MARGIN_MM + ROUND_MM + (room[1] + span[1] / scale) / 2
                return Sheet(size_mm=size, scale=scale, low_mm=low, origin_mm=(left, bottom))
    raise ValueError(f"a room of {span[0]:.0f} x {span[1]:.0f} mm is too large for a sheet")


def number(value: float) -> str:
    """A coordinate to a thousandth of a millimetre, without trailing noughts."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def length_words(length_mm: float) -> str:
    """A length to a tenth of a millimetre, without a trailing nought."""
    return f"{length_mm:.1f}".removesuffix(".0")


def path(points: Sequence[Vec2], *, closed: bool = False) -> str:
    """Path data through points on the paper."""
    return "M" + " L".join(f"{number(x)} {number(y)}" for x, y in points) + (" Z" if closed else "")


def text(at: Vec2, words: str, *, size_mm: float, turn_deg: float = 0.0, anchor: str = "middle", css: str = "") -> str:
    """A line of text about a point on its base line, turned clockwise by ``turn_deg``."""
    x, y = number(at[0]), number(at[1])
    turn = f' transform="rotate({number(turn_deg)} {x} {y})"' if turn_deg else ""
    css_text = f' class="{css}"' if css else ""
    how = f'font-size="{number(size_mm)}" text-anchor="{anchor}"{turn}{css_text}'
    return f'<text x="{x}" y="{y}" {how}>{escape(words)}</text>'


def centred(centre: Vec2, words: str, *, size_mm: float, turn_deg: float = 0.0, css: str = "") -> str:
    """A line of text with its middle on a point."""
    down = 0.36 * size_mm
    turn = math.radians(turn_deg)
    at = (centre[0] - math.sin(turn) * down, centre[1] + math.cos(turn) * down)
    return text(at, words, size_mm=size_mm, turn_deg=turn_deg, css=css)


def words_box(centre: Vec2, words: str, *, size_mm: float, turn_deg: float = 0.0, bold: bool = False) -> Box:
    """The box round a line of text with its middle on a point."""
    width = words_width_mm(words, size_mm=size_mm, bold=bold) + 2 * _PAD_MM
    return turned_box(centre, width, 0.76 * size_mm + 2 * _PAD_MM, turn_deg)


def words_width_mm(words: str, *, size_mm: float, bold: bool = False) -> float:
    """About how wide a line of text is in DejaVu Sans."""
    total = 0.0
    for letter in words:
        if letter in " .,:;-'!|iljfI":
            total += _NARROW
        elif letter in "mwMW":
            total += _WIDE
        elif letter.isdigit():
            total += _DIGIT
        else:
            total += _CAPITAL if letter.isupper() else _SMALL
    return total * size_mm * (_BOLD if bold else 1.0)


def wrapped(words: str, width_mm: float, *, size_mm: float) -> list[str]:
    """Words broken into lines no wider than ``width_mm`` where words allow it."""
    lines = [""]
    for word in words.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and words_width_mm(longer, size_mm=size_mm) > width_mm:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines
