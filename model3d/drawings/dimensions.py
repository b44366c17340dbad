"""Dimension lines along walls: outside for the walls, inside for the pieces."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from model3d.drawings.boxes import Box, line_box
from model3d.drawings.labels import Ink, leader, round_about
from model3d.drawings.sheet import Sheet, centred, path, words_box, words_width_mm
from model3d.geometry.placement import Vec2

ABOVE_MM = 1.9  # from a line to the middle of the figure over it
TICK_MM = 0.9
PAST_MM = 1.2  # how far an extension line passes its dimension line
GROWING_MM = 4.5  # from one line to the next


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A dimension line between two points of the room, drawn ``off_mm`` of paper to the side of ``normal`` (room,
    unit); its extension lines begin ``from_mm`` of paper to that side.
    """

    start_mm: Vec2
    end_mm: Vec2
    normal: Vec2
    off_mm: float
    from_mm: float
    words: str
    css: str
    size_mm: float = 3.0
    bold: bool = False


def upright_deg(direction: Vec2) -> float:
    """The turn of text along a room direction on paper (y down), kept readable from below or from the right."""
    angle = -math.degrees(math.atan2(direction[1], direction[0]))
    angle = (angle + 180.0) % 360.0 - 180.0
    if angle > 90.0 + 1e-6:
        angle -= 180.0
    elif angle <= -90.0 - 1e-6:
        angle += 180.0
    return angle if abs(angle - 90.0) > 1e-6 else -90.0


def dimension_inks(sheet: Sheet, line: Line, lines: int) -> Iterator[Ink]:
    """The ways to draw a dimension: on one of so many lines one beyond the other, its figure over the line's middle,
    over another part of it, or beyond one of its ends.
    """
    for step in range(lines):
        yield from _on_one_line(sheet, replace(line, off_mm=line.off_mm + GROWING_MM * step), GROWING_MM * step)


def far_figure_inks(sheet: Sheet, line: Line) -> Iterator[Ink]:
    """The ways to draw a dimension whose figure stands anywhere about, at the end of a leader."""
    a, b, side = _ends(sheet, line)
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    svg, boxes = _rules(line, a, b, side)
    for centre, reach in round_about(middle, first_mm=10.0, rings=12):
        figure = words_box(centre, line.words, size_mm=line.size_mm, bold=line.bold)
        led, led_box = leader(middle, figure, line.css)
        yield Ink(
            svg=(*svg, led, centred(centre, line.words, size_mm=line.size_mm, css=f"{line.css} over")),
            words=(figure,),
            lines=(*boxes, led_box),
            away_mm=20.0 + reach,
        )


def _on_one_line(sheet: Sheet, line: Line, away_mm: float) -> Iterator[Ink]:
    a, b, side = _ends(sheet, line)
    length = math.dist(a, b)
    if length < 1e-9:
        return
    along = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
    turn = upright_deg((line.end_mm[0] - line.start_mm[0], line.end_mm[1] - line.start_mm[1]))
    up = (math.sin(math.radians(turn)), -math.cos(math.radians(turn)))
    width = words_width_mm(line.words, size_mm=line.size_mm, bold=line.bold) + 1.0
    spots = [(0.5 * length, 0.0)]
    if width <= length:
        spots += [(share * length, 10.0) for share in (0.3, 0.7) if width / 2 <= 0.3 * length]
    spots += [(length + width / 2 + 1.5, 25.0), (-width / 2 - 1.5, 25.0)]
    for at, worse in spots:
        centre = (a[0] + along[0] * at + up[0] * ABOVE_MM, a[1] + along[1] * at + up[1] * ABOVE_MM)
        svg, boxes = _rules(line, a, b, side)
        beyond = at + math.copysign(width / 2, at - length / 2)
        if not -1e-9 <= at <= length:  # the line goes on under a figure beyond its end
            here = a if at < 0 else b
            there = (a[0] + along[0] * beyond, a[1] + along[1] * beyond)
            svg = (*svg, f'<path class="thin {line.css}" d="{path([here, there])}"/>')
            boxes = (*boxes, line_box(here, there))
        yield Ink(
            svg=(*svg, centred(centre, line.words, size_mm=line.size_mm, turn_deg=turn, css=f"{line.css} over")),
            lines=boxes,
            words=(words_box(centre, line.words, size_mm=line.size_mm, turn_deg=turn, bold=line.bold),),
            away_mm=away_mm + worse,
        )


def _ends(sheet: Sheet, line: Line) -> tuple[Vec2, Vec2, Vec2]:
    """The ends of the dimension line on paper, and the way there to its side."""
    side = (line.normal[0], -line.normal[1])
    a, b = sheet.at(line.start_mm), sheet.at(line.end_mm)
    by = (side[0] * line.off_mm, side[1] * line.off_mm)
    return (a[0] + by[0], a[1] + by[1]), (b[0] + by[0], b[1] + by[1]), side


def _rules(line: Line, a: Vec2, b: Vec2, side: Vec2) -> tuple[tuple[str, ...], tuple[Box, ...]]:
    """Line, extension lines and ticks between the ends on paper."""
    length = math.dist(a, b)
    along = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
    sign = math.copysign(1.0, line.off_mm)
    back = line.from_mm - line.off_mm
    svg = [f'<path class="thin {line.css}" d="{path([a, b])}"/>']
    boxes = [line_box(a, b)]
    for point in (a, b):
        start = (point[0] + side[0] * back, point[1] + side[1] * back)
        end = (point[0] + side[0] * sign * PAST_MM, point[1] + side[1] * sign * PAST_MM)
        slope = ((along[0] + side[0]) * TICK_MM, (along[1] + side[1]) * TICK_MM)
        tick = [(point[0] + k * slope[0], point[1] + k * slope[1]) for k in (-1, 1)]
        svg.append(f'<path class="thin {line.css}" d="{path([start, end])}"/>')
        svg.append(f'<path class="tick {line.css}" d="{path(tick)}"/>')
        boxes.append(line_box(start, end))
    return tuple(svg), tuple(boxes)
