"""A sheet of paper: scale, placing of the room on it, and SVG text. Paper millimetres, y down."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from model3d.geometry.placement import Vec2

# ISO 5455 reduction scales, largest drawing first.
SCALES = (5, 10, 20, 50, 100, 200)
SHEETS = ((297.0, 210.0), (420.0, 297.0))  # A4 and A3 landscape, ISO 216
MARGIN_MM = 10.0
HEAD_MM = 16.0
FOOT_MM = 18.0
ROUND_MM = 20.0  # kept round the room for dimensions


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet with the room placed on it: ``scale`` as in 1:20; ``low_mm`` the room's low corner; ``origin_mm`` where that stands on paper."""

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


def choose_sheet(points_mm: Sequence[Vec2]) -> Sheet:
    """The largest standard scale at which the points fit the smallest sheet, tried A4 then A3 for each scale."""
    xs, ys = [p[0] for p in points_mm], [p[1] for p in points_mm]
    low, span = (min(xs), min(ys)), (max(xs) - min(xs), max(ys) - min(ys))
    for scale in SCALES:
        for size in SHEETS:
            room = (size[0] - 2 * MARGIN_MM - 2 * ROUND_MM, size[1] - 2 * MARGIN_MM - 2 * ROUND_MM - HEAD_MM - FOOT_MM)
            if span[0] / scale <= room[0] and span[1] / scale <= room[1]:
                left = MARGIN_MM + ROUND_MM + (room[0] - span[0] / scale) / 2
                bottom = MARGIN_MM + HEAD_MM + ROUND_MM + (room[1] + span[1] / scale) / 2
                return Sheet(size_mm=size, scale=scale, low_mm=low, origin_mm=(left, bottom))
    raise ValueError(f"a room of {span[0]:.0f} x {span[1]:.0f} mm is too large for a sheet")


def number(value: float) -> str:
    """A coordinate to a hundredth of a millimetre, without a trailing naught."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def path(points: Sequence[Vec2], *, closed: bool = False) -> str:
    """Path data through points on the paper."""
    return "M" + " L".join(f"{number(x)} {number(y)}" for x, y in points) + (" Z" if closed else "")


def text(at: Vec2, words: str, *, size_mm: float, turn_deg: float = 0.0, anchor: str = "middle", css: str = "") -> str:
    """A line of text about a point, turned clockwise by ``turn_deg``."""
    x, y = number(at[0]), number(at[1])
    turn = f' transform="rotate({number(turn_deg)} {x} {y})"' if turn_deg else ""
    css_text = f' class="{css}"' if css else ""
    return f'<text x="{x}" y="{y}" font-size="{number(size_mm)}" text-anchor="{anchor}"{turn}{css_text}>{escape(words)}</text>'
