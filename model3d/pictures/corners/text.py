"""The words of a corner sheet and what goes with them: dimensions, the ruler of the insertion, rows of the table; each
in its room.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from model3d.geometry.placement import Vec3
from model3d.pictures.corners.values import CornerSheet, HoseTable, Side, Window
from model3d.pictures.labelled.tags import Picture
from model3d.pictures.labelled.words import Anchor, Words, words_in
from model3d.pictures.lettering import set_text
from model3d.pictures.paper import Box, Px, within
from model3d.pictures.theme import Theme
from model3d.wording import Catalogue

SIGN_PX = 28.0
_MOST_ROW_PX = 38.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """A length between two points of the picture: its line with a head at each end, the lines that lead to it, and its
    figure in a box.
    """

    start: Px
    end: Px
    leads: tuple[tuple[Px, Px], ...]
    words: Words
    box: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class Boxed:
    """Words in a box, on the picture."""

    words: Words
    box: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """A state on the ruler: where it stands, and its words under it."""

    x: float
    words: Words
    right: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Ruler:
    """What is allowed as a bar from the cut face inward, with a tick for every state."""

    bar: Box
    zero: tuple[Px, Px]
    ticks: tuple[Tick, ...]

    def lead(self, tick: Tick) -> tuple[Px, Px]:
        """From a tick to its words."""
        y = self.bar.middle[1]
        return (tick.x, y + 10.0), (tick.words.room.middle[0], y + 32.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A row of the table; one that is not right carries a sign."""

    words: tuple[Words, ...]
    sign: Px | None = None


def moved(at: Vec3, by: float, along: Vec3, out: float = 0.0, to_room: Vec3 = (0.0, 0.0, 0.0)) -> Vec3:
    """A point shifted along a wall and out of it."""
    x, y, z = (a + by * b + out * c for a, b, c in zip(at, along, to_room, strict=True))
    return (x, y, z)


def allowance(side: Side, sheet: CornerSheet, picture: Picture, words: Catalogue, theme: Theme) -> Dimension:
    """The dimension from the corner to the cut face: behind an internal corner's walls, before an external one's."""
    off, step = _off_mm(sheet), math.copysign(16.0, _off_mm(sheet))
    feet, ends = (sheet.corner_mm, side.face_mm), dimensioned_mm(side, sheet)
    over = [moved(end, 0.0, side.along, math.copysign(4.0, off), side.to_room) for end in ends]
    a, b = picture.pixel(ends[0]), picture.pixel(ends[1])
    text = f"{side.mark}: {words.fixed(side.allowance_mm, 1)}"
    block = set_text(text, theme.callout_px, 1e6, True)
    out = picture.pixel(moved(ends[0], 0.0, side.along, step, side.to_room))
    x, y = out[0] - a[0], out[1] - a[1]
    long = max(math.hypot(x, y), 1e-9)
    room = 12.0 + (abs(x) * block.width_px + abs(y) * block.height_px) / 2 / long
    at = (a[0] + b[0]) / 2 + x / long * room, (a[1] + b[1]) / 2 + y / long * room
    figure = boxed(text, at, picture.frame, theme)
    leads = tuple((picture.pixel(foot), picture.pixel(end)) for foot, end in zip(feet, over, strict=True))
    return Dimension(start=a, end=b, leads=leads, words=figure.words, box=figure.box)


def dimensioned_mm(side: Side, sheet: CornerSheet) -> tuple[Vec3, Vec3]:
    """The two ends of an allowance's dimension line."""
    one, other = (moved(at, 0.0, side.along, _off_mm(sheet), side.to_room) for at in (sheet.corner_mm, side.face_mm))
    return one, other


def _off_mm(sheet: CornerSheet) -> float:
    """How far from the wall dimension lines stand: behind it at an internal corner, before the pieces at an external
    one.
    """
    return -24.0 if sheet.internal else sheet.front_u_mm + 22.0


def angle(sheet: CornerSheet, picture: Picture, words: Catalogue, theme: Theme) -> Boxed:
    """The corner's angle in the room, in the middle of it."""
    out = [a + b for a, b in zip(sheet.sides[0].to_room, sheet.sides[1].to_room, strict=True)]
    long = max(math.hypot(out[0], out[1]), 1e-9)
    at = moved(sheet.corner_mm, 100.0 if sheet.internal else -46.0, (out[0] / long, out[1] / long, 0.0))
    degrees = sheet.angle_deg if sheet.internal else 360.0 - sheet.angle_deg
    return boxed(f"{words.fixed(degrees, 1)}°", picture.pixel(at), picture.frame, theme)


def piece_mark(side: Side, sheet: CornerSheet, picture: Picture, theme: Theme) -> Boxed:
    """The mark of a piece on it, as far from the corner as the picture shows it."""
    high = sheet.cut_at_mm[2]
    corner, inner = (sheet.corner_mm[0], sheet.corner_mm[1], high), picture.frame.grown(-44.0)
    furthest = round(min(400.0, side.reach_mm - 30.0))
    on_it = [moved(corner, float(t), side.along, sheet.front_u_mm / 2, side.to_room) for t in range(furthest, 0, -4)]
    places = [picture.pixel(at) for at in on_it]
    at = next((p for p in places if within(p, inner)), places[-1])
    return boxed(side.mark, at, picture.frame, theme)


def boxed(text: str, at: Px, frame: Box, theme: Theme) -> Boxed:
    """Words in a box about a point, or as near to it as the frame lets them."""
    block = set_text(text, theme.callout_px, 1e6, True)
    x = min(max(at[0], frame.left + block.width_px / 2 + 12), frame.right - block.width_px / 2 - 12)
    y = min(max(at[1], frame.top + block.height_px / 2 + 6), frame.bottom - block.height_px / 2 - 6)
    size = block.width_px + 12, block.height_px + 4
    box = Box(left=x - size[0] / 2, top=y - size[1] / 2, width=size[0], height=size[1])
    words = words_in(box, text, theme.callout_px, theme.ink, bold=True, anchor="middle", middle=True)
    return Boxed(words=words, box=box)


def ruler(sheet: CornerSheet, window: Window, picture: Picture, words: Catalogue, theme: Theme) -> Ruler:
    """The insertion window along the earlier piece, under it, with a tick for every state; from the cut face inward."""
    side, frame = sheet.sides[0], picture.frame
    face = (side.face_mm[0], side.face_mm[1], sheet.cut_at_mm[2])

    def x_of(insertion: float) -> float:
        return picture.pixel(moved(face, insertion, side.along))[0]

    under = moved(face, 0.0, side.along, sheet.front_u_mm + 9.0, side.to_room)
    y = picture.pixel(under)[1] + 14.0
    low, high = sorted((x_of(window.least_mm), x_of(window.most_mm)))
    zero = x_of(0.0)
    ordered = sorted(window.states, key=lambda s: x_of(s.value_mm))
    left, right = sorted((zero, frame.left if zero > x_of(1.0) else frame.right))
    apart = min(128.0, (right - left) / len(ordered))
    seats = _spread([x_of(s.value_mm) for s in ordered], apart, (left, right))
    ticks = []
    for state, seat in zip(ordered, seats, strict=True):
        room = Box(left=seat - apart / 2 + 3, top=y + 34, width=apart - 6, height=min(66.0, frame.bottom - y - 36))
        text = f"{words.say(f'state.{_key(state.name)}')} {words.fixed(state.value_mm, 1)}"
        colour = theme.ink if state.right else theme.warn
        said = words_in(room, text, 17.0, colour, bold=not state.right, anchor="middle")
        ticks.append(Tick(x=x_of(state.value_mm), words=said, right=state.right))
    bar = Box(left=low, top=y - 8, width=high - low, height=16)
    return Ruler(bar=bar, zero=((zero, frame.top + 14), (zero, y + 12)), ticks=tuple(ticks))


def _key(name: str) -> str:
    return name.replace(" ", "-")


def _spread(wanted: Sequence[float], apart: float, ends: tuple[float, float]) -> list[float]:
    """Places in order, each at least ``apart`` from the next, as near to the wanted ones as a sweep each way leaves."""
    places = list(wanted)
    for _ in range(60):
        for k in range(len(places) - 1):
            lack = apart - (places[k + 1] - places[k])
            if lack > 0:
                places[k] -= lack / 2
                places[k + 1] += lack / 2
        shift = max(ends[0] + apart / 2 - places[0], 0.0) + min(ends[1] - apart / 2 - places[-1], 0.0)
        places = [p + shift for p in places]
    return places


def window_rows(window: Window, table: Box, words: Catalogue, theme: Theme) -> tuple[Row, ...]:
    """What is allowed of the long legs' insertion, and every state with what it has to spare."""
    say, fixed = words.say, words.fixed
    heads = ("", say("corner.insertion"), say("corner.spare"))
    within_mm = say("corner.range", least=fixed(window.least_mm, 1), most=fixed(window.most_mm, 1))
    rows = [(say("corner.allowed"), within_mm, "", True)]
    for state in window.states:
        spare = fixed(min(state.value_mm - window.least_mm, window.most_mm - state.value_mm), 1).replace("-", "−")
        rows.append((say(f"state.{_key(state.name)}"), fixed(state.value_mm, 1), spare, state.right))
    note = Box(left=table.left + 14, top=table.bottom - 78, width=table.width - 28, height=72)
    found = _rows(say("corner.legs"), heads, rows, replaced(table, height=table.height - 84), theme)
    return (*found, Row(words=(words_in(note, say("corner.note"), 17.0, theme.soft_ink, middle=True),)))


def hose_rows(hoses: HoseTable, table: Box, words: Catalogue, theme: Theme) -> tuple[Row, ...]:
    """What is allowed of the hose, and what it is in every state."""
    say, fixed = words.say, words.fixed
    heads = ("", say("corner.apart"), say("corner.radius"))
    least, most = say("corner.at-least", mm=hoses.least_bend_mm), say("corner.at-most", mm=hoses.most_apart_mm)
    rows = [(say("corner.allowed"), most, least, True)]
    for name, apart, bend, right in hoses.rows:
        radius = say("corner.no-shape") if bend is None else fixed(bend, 1)
        rows.append((say(f"hose.{_key(name)}"), fixed(apart, 1), radius, right))
    return _rows(say("corner.hose"), heads, rows, table, theme)


def replaced(box: Box, *, height: float) -> Box:
    """The same box with another height."""
    return Box(left=box.left, top=box.top, width=box.width, height=height)


def _rows(
    head: str, heads: tuple[str, str, str], rows: Sequence[tuple[str, str, str, bool]], table: Box, theme: Theme
) -> tuple[Row, ...]:
    """A head, the heads of the columns, and the rows under them, as high as the table has room for."""
    top = table.top + 10.0
    title = Box(left=table.left + 14, top=top, width=table.width - 28, height=30)
    found = [Row(words=(words_in(title, head, theme.callout_px, theme.ink, bold=True, middle=True),))]
    top += 32.0
    high = min(_MOST_ROW_PX, (table.bottom - 6 - top) / (len(rows) + 1))
    found.append(Row(words=_cells(heads, top, high, table, theme.soft_ink, 17.0)))
    for *cells, right in rows:
        top += high
        colour = theme.ink if right else theme.warn
        sign = None if right else (table.left + 26.0, top + high / 2)
        found.append(Row(words=_cells(cells, top, high, table, colour, 18.0, bold=not right), sign=sign))
    return tuple(found)


def _cells(
    cells: Sequence[str], top: float, high: float, table: Box, colour: str, size_px: float, *, bold: bool = False
) -> tuple[Words, ...]:
    indent = SIGN_PX if bold else 0.0
    columns: tuple[tuple[float, float, Anchor], ...] = (
        (14.0 + indent, 216.0 - indent, "start"),
        (234.0, 128.0, "end"),
        (370.0, 120.0, "end"),
    )
    return tuple(
        words_in(
            Box(left=table.left + left, top=top, width=wide, height=high),
            text,
            size_px,
            colour,
            bold=bold,
            anchor=anchor,
            middle=True,
        )
        for text, (left, wide, anchor) in zip(cells, columns, strict=True)
        if text
    )
