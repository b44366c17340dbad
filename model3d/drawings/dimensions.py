"""Dimension lines along walls: outside for the walls, inside for the pieces."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from model3d.drawings.sheet import Sheet, number, path, text
from model3d.geometry.placement import Vec2
from model3d.rooms import Wall

LETTER_SHARE = 0.62  # width of an average letter over its height


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A dimension line between two points of the room, drawn ``off_mm`` of paper to the side of ``normal`` (room, unit)."""

    start_mm: Vec2
    end_mm: Vec2
    normal: Vec2
    off_mm: float
    words: str
    size_mm: float
    css: str


def upright_deg(direction: Vec2) -> float:
    """The turn of text along a room direction on paper (y down), kept readable from below or from the right."""
    angle = -math.degrees(math.atan2(direction[1], direction[0]))
    angle = (angle + 180.0) % 360.0 - 180.0
    if angle > 90.0 + 1e-6:
        angle -= 180.0
    elif angle <= -90.0 - 1e-6:
        angle += 180.0
    return angle if abs(angle - 90.0) > 1e-6 else -90.0


def dimension(sheet: Sheet, line: Line) -> Iterator[str]:
    """The line with its extension lines, ticks and figure; a figure too wide for its line stands beyond it."""
    a, b = sheet.at(line.start_mm), sheet.at(line.end_mm)
    side = (line.normal[0], -line.normal[1])
    p, q = ((x + side[0] * line.off_mm, y + side[1] * line.off_mm) for x, y in (a, b))
    length = math.dist(a, b)
    if length < 1e-9:
        return
    along = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
    reach = line.off_mm + 1.2 if line.off_mm > 0 else line.off_mm - 1.2
    for point in (a, b):
        near = (point[0] + side[0] * math.copysign(1.0, line.off_mm), point[1] + side[1] * math.copysign(1.0, line.off_mm))
        far = (point[0] + side[0] * reach, point[1] + side[1] * reach)
        yield f'<path class="thin {line.css}" d="{path([near, far])}"/>'
    yield f'<path class="thin {line.css}" d="{path([p, q])}"/>'
    for point in (p, q):
        tick = [(point[0] - (along[0] + side[0]) * 0.9, point[1] - (along[1] + side[1]) * 0.9),
                (point[0] + (along[0] + side[0]) * 0.9, point[1] + (along[1] + side[1]) * 0.9)]
        yield f'<path class="tick {line.css}" d="{path(tick)}"/>'
    yield _figure(line, p, q, side, length)


def _figure(line: Line, p: Vec2, q: Vec2, side: Vec2, length: float) -> str:
    place = _placing(line, p, q, side, length)
    return text(place.at, line.words, size_mm=line.size_mm, turn_deg=place.turn_deg, anchor=place.anchor, css=line.css)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Placing:
    """Where a figure stands on paper: its anchor point, turn and which end of it the point is."""

    at: Vec2
    turn_deg: float
    anchor: str


def _placing(line: Line, p: Vec2, q: Vec2, side: Vec2, length: float) -> _Placing:
    """Along the line when it is wide enough, else square to it, beyond it."""
    middle = ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)
    turn = upright_deg((line.end_mm[0] - line.start_mm[0], line.end_mm[1] - line.start_mm[1]))
    up = (math.sin(math.radians(turn)), -math.cos(math.radians(turn)))
    if _width(line) <= length - 1.0:
        return _Placing(at=(middle[0] + up[0] * 0.9, middle[1] + up[1] * 0.9), turn_deg=turn, anchor="middle")
    outward = math.copysign(1.0, line.off_mm)
    away = (side[0] * outward, side[1] * outward)
    across = upright_deg((side[0], -side[1]))
    start = (middle[0] + away[0] * 1.6, middle[1] + away[1] * 1.6)
    reading = (math.cos(math.radians(across)), math.sin(math.radians(across)))
    anchor = "start" if reading[0] * away[0] + reading[1] * away[1] > 0 else "end"
    down = (-math.sin(math.radians(across)) * line.size_mm * 0.35, math.cos(math.radians(across)) * line.size_mm * 0.35)
    return _Placing(at=(start[0] + down[0], start[1] + down[1]), turn_deg=across, anchor=anchor)


def _width(line: Line) -> float:
    return len(line.words) * line.size_mm * LETTER_SHARE


def figure_box(sheet: Sheet, line: Line) -> tuple[Vec2, ...]:
    """The four corners on paper of the box round a line's figure."""
    a, b = sheet.at(line.start_mm), sheet.at(line.end_mm)
    side = (line.normal[0], -line.normal[1])
    p, q = ((x + side[0] * line.off_mm, y + side[1] * line.off_mm) for x, y in (a, b))
    place = _placing(line, p, q, side, math.dist(a, b))
    shift = {"middle": -0.5, "start": 0.0, "end": -1.0}[place.anchor] * _width(line)
    c, s = math.cos(math.radians(place.turn_deg)), math.sin(math.radians(place.turn_deg))
    corners = ((shift, -line.size_mm), (shift + _width(line), -line.size_mm), (shift + _width(line), 0.4), (shift, 0.4))
    return tuple((place.at[0] + x * c - y * s, place.at[1] + x * s + y * c) for x, y in corners)


def boxes_meet(one: Sequence[Vec2], other: Sequence[Vec2]) -> bool:
    """Whether two convex boxes on paper overlap (no axis of theirs separates them)."""
    for ring in (one, other):
        for a, b in zip(ring, (*ring[1:], ring[0]), strict=True):
            axis = (b[1] - a[1], a[0] - b[0])
            first, second = ([x * axis[0] + y * axis[1] for x, y in r] for r in (one, other))
            if max(first) <= min(second) or max(second) <= min(first):
                return False
    return True


def wall_line(wall: Wall, off_mm: float) -> Line:
    """The dimension of a whole wall, outside the room."""
    outward = (-wall.normal[0], -wall.normal[1])
    return Line(
        start_mm=wall.start_mm, end_mm=wall.end_mm, normal=outward, off_mm=off_mm, size_mm=3.0, css="wall-dim",
        words=f"{wall.id}  {number(wall.length_mm)}",
    )
