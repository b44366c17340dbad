"""A corner sheet drawn: three shaded pictures, dimensions, the insertion window and what warmth does."""

from __future__ import annotations

import math
from collections.abc import Iterator

from PIL import Image

from model3d.geometry.placement import Vec3
from model3d.pictures.corners.page import ABOVE, ROOM_VIEW, SECTION, TABLE, CornerPage, corner_page
from model3d.pictures.corners.values import CornerSheet, HoseTable, Side, Window
from model3d.pictures.labelled.ink import dimension_line, label, leader, placed_words, rounded, straight
from model3d.pictures.labelled.tags import Picture
from model3d.pictures.lettering import TextBlock, set_text
from model3d.pictures.markup import element
from model3d.pictures.overlay import drawing, finished
from model3d.pictures.paper import Box, Px
from model3d.pictures.render import studio
from model3d.pictures.theme import Theme

RIGHT_FILL, RIGHT_LINE = "#BFE3D6", "#00694D"


def corner_picture(sheet: CornerSheet, theme: Theme) -> bytes:
    """The sheet of one corner as PNG, 1600 x 1000. The same sheet gives the same bytes on one machine.

    Raises NoOpenGLError where nothing can be drawn.
    """
    page = corner_page(sheet, theme)
    canvas = Image.new("RGB", theme.page_px, theme.paper)
    for picture, shade in ((page.from_room, 60.0), (page.above, 30.0), (page.section, 12.0)):
        size = round(picture.frame.width), round(picture.frame.height)
        shot = studio(theme).shot(picture.solids, picture.camera, size, sheet.toward_viewer, shade)
        canvas.paste(Image.fromarray(shot), (round(picture.frame.left), round(picture.frame.top)))
    return finished(canvas, corner_svg(page, theme))


def corner_svg(page: CornerPage, theme: Theme) -> str:
    """Everything of the sheet but the shaded pictures."""
    parts = [*_frames(page, theme), *_above(page, theme), *_section(page, theme), *_table(page, theme)]
    for tag in page.tags:
        parts += leader(tag.seat.foot, tag.tip, theme)
    for tag in page.tags:
        parts += label(tag, theme)
    return drawing(theme.page_px, parts)


def _frames(page: CornerPage, theme: Theme) -> Iterator[str]:
    yield placed_words(set_text(page.sheet.title, theme.title_px, 1500.0, True), 44.0, 20.0, theme.ink)
    yield placed_words(set_text(page.sheet.subtitle, theme.body_px, 1512.0), 44.0, 70.0, theme.soft_ink)
    heads = (
        (ROOM_VIEW, "From the room, trims left off"),
        (ABOVE, "From above, trims left off"),
        (SECTION, "Cut through the upper waterways, from above"),
        (TABLE, "Hot and cold"),
    )
    for frame, name in heads:
        yield rounded(frame, 0.0, "none", theme.rule, 1.5)
        yield placed_words(set_text(name, 22.0, frame.width, True), frame.left, frame.top - 34, theme.ink)


def _moved(at: Vec3, by: float, along: Vec3, out: float = 0.0, to_room: Vec3 = (0.0, 0.0, 0.0)) -> Vec3:
    x, y, z = (a + by * b + out * c for a, b, c in zip(at, along, to_room, strict=True))
    return (x, y, z)


def _wall_lines(picture: Picture, sheet: CornerSheet, high_mm: float, theme: Theme) -> Iterator[str]:
    """The two walls' faces as thick lines, hatched behind, at the height of what is seen."""
    corner = (sheet.corner_mm[0], sheet.corner_mm[1], high_mm)
    for side in sheet.sides:
        far = _moved(corner, 420.0, side.along)
        yield _clipped(straight(picture.pixel(corner), picture.pixel(far), theme.ink, 3.0), picture.frame)
        for k in range(0, 420, 14):
            start = _moved(corner, float(k), side.along)
            back = _moved(start, 8.0, side.along, -9.0, side.to_room)
            yield _clipped(straight(picture.pixel(start), picture.pixel(back), theme.soft_ink, 1.0), picture.frame)


def _clipped(markup: str, frame: Box) -> str:
    """Markup that is not drawn outside a frame."""
    return element(
        "svg",
        element("g", markup, transform=f"translate({-frame.left:.1f} {-frame.top:.1f})"),
        x=frame.left,
        y=frame.top,
        width=frame.width,
        height=frame.height,
    )


def _above(page: CornerPage, theme: Theme) -> Iterator[str]:
    sheet, picture = page.sheet, page.above
    yield from _wall_lines(picture, sheet, 0.0, theme)
    for side in sheet.sides:
        yield from _allowance(side, sheet, picture, theme)
    yield from _angle(sheet, picture, theme)


def _allowance(side: Side, sheet: CornerSheet, picture: Picture, theme: Theme) -> Iterator[str]:
    """The dimension from the corner to the cut face: behind an internal corner's walls, before an external one's."""
    off, step = (-24.0, -16.0) if sheet.internal else (sheet.front_u_mm + 22.0, 16.0)
    ends = [_moved(at, 0.0, side.along, off, side.to_room) for at in (sheet.corner_mm, side.face_mm)]
    for at, end in zip((sheet.corner_mm, side.face_mm), ends, strict=True):
        over = _moved(end, 0.0, side.along, math.copysign(4.0, off), side.to_room)
        yield straight(picture.pixel(at), picture.pixel(over), theme.ink, 1.0)
    a, b = picture.pixel(ends[0]), picture.pixel(ends[1])
    yield from dimension_line(a, b, theme)
    block = set_text(f"{side.mark}: {side.allowance_mm:.1f}", theme.callout_px, 300.0, True)
    middle = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
    out = picture.pixel(_moved(ends[0], 0.0, side.along, step, side.to_room))
    x, y = out[0] - a[0], out[1] - a[1]
    long = max(math.hypot(x, y), 1e-9)
    room = 12.0 + (abs(x) * block.width_px + abs(y) * block.height_px) / 2 / long
    yield from _words_at(block, (middle[0] + x / long * room, middle[1] + y / long * room), picture.frame, theme)


def _words_at(block: TextBlock, at: Px, frame: Box, theme: Theme) -> Iterator[str]:
    x = min(max(at[0], frame.left + block.width_px / 2 + 12), frame.right - block.width_px / 2 - 12)
    y = min(max(at[1], frame.top + block.height_px / 2 + 6), frame.bottom - block.height_px / 2 - 6)
    box = Box(
        left=x - block.width_px / 2 - 6,
        top=y - block.height_px / 2 - 2,
        width=block.width_px + 12,
        height=block.height_px + 4,
    )
    yield rounded(box, 5.0, theme.paper, theme.rule, 1.0)
    yield placed_words(block, x, y - block.height_px / 2, theme.ink, "middle")


def _angle(sheet: CornerSheet, picture: Picture, theme: Theme) -> Iterator[str]:
    """The corner's angle in the room, in the middle of it."""
    out = [a + b for a, b in zip(sheet.sides[0].to_room, sheet.sides[1].to_room, strict=True)]
    long = max(math.hypot(out[0], out[1]), 1e-9)
    at = _moved(sheet.corner_mm, 100.0 if sheet.internal else -46.0, (out[0] / long, out[1] / long, 0.0))
    block = set_text(
        f"{sheet.angle_deg if sheet.internal else 360.0 - sheet.angle_deg:.1f}°", theme.callout_px, 200.0, True
    )
    yield from _words_at(block, picture.pixel(at), picture.frame, theme)


def _section(page: CornerPage, theme: Theme) -> Iterator[str]:
    sheet, picture = page.sheet, page.section
    yield from _wall_lines(picture, sheet, sheet.cut_at_mm[2], theme)
    if sheet.window is not None:
        yield from _ruler(sheet, sheet.window, picture, theme)


def _ruler(sheet: CornerSheet, window: Window, picture: Picture, theme: Theme) -> Iterator[str]:
    """The insertion window along the earlier piece, under it, with a tick for every state; from the cut face inward."""
    side = sheet.sides[0]
    face = (side.face_mm[0], side.face_mm[1], sheet.cut_at_mm[2])

    def x_of(insertion: float) -> float:
        return picture.pixel(_moved(face, insertion, side.along))[0]

    under = _moved(face, 0.0, side.along, sheet.front_u_mm + 9.0, side.to_room)
    y = picture.pixel(under)[1] + 14.0
    low, high = sorted((x_of(window.least_mm), x_of(window.most_mm)))
    yield rounded(Box(left=low, top=y - 8, width=high - low, height=16), 3.0, RIGHT_FILL, RIGHT_LINE, 1.2)
    zero = x_of(0.0)
    yield straight((zero, picture.frame.top + 14), (zero, y + 12), theme.ink, 1.2, "6 4")
    ordered = sorted(window.states, key=lambda s: x_of(s.value_mm))
    left, right = sorted((zero, picture.frame.left if zero > x_of(1.0) else picture.frame.right))
    words_in = Box(left=left, top=y, width=right - left, height=40.0)
    xs = _spread([x_of(s.value_mm) for s in ordered], min(112.0, words_in.width / len(ordered)), words_in)
    for state, seat in zip(ordered, xs, strict=True):
        x = x_of(state.value_mm)
        colour = theme.ink if state.right else theme.warn
        yield straight((x, y - 14), (x, y + 10), colour, 2.4)
        yield straight((x, y + 10), (seat, y + 34), colour, 1.2)
        yield placed_words(
            set_text(f"{state.name} {state.value_mm:.1f}", 16.0, 104.0, not state.right), seat, y + 36, colour, "middle"
        )


def _spread(wanted: list[float], apart: float, frame: Box) -> list[float]:
    """Places in order, each at least ``apart`` from the next, as near to the wanted ones as a sweep each way leaves."""
    places = list(wanted)
    for _ in range(60):
        for k in range(len(places) - 1):
            lack = apart - (places[k + 1] - places[k])
            if lack > 0:
                places[k] -= lack / 2
                places[k + 1] += lack / 2
        shift = max(frame.left + apart / 2 - places[0], 0.0) + min(frame.right - apart / 2 - places[-1], 0.0)
        places = [p + shift for p in places]
    return places


def _table(page: CornerPage, theme: Theme) -> Iterator[str]:
    sheet = page.sheet
    if sheet.window is not None:
        yield from _window_rows(sheet.window, theme)
    elif sheet.hoses is not None:
        yield from _hose_rows(sheet.hoses, theme)


def _window_rows(window: Window, theme: Theme) -> Iterator[str]:
    y = TABLE.top + 14
    head = f"Long legs' insertion, mm: {window.least_mm:.1f} to {window.most_mm:.1f}"
    yield placed_words(set_text(head, theme.callout_px, TABLE.width - 28, True), TABLE.left + 14, y, theme.ink)
    y += 42
    for state in window.states:
        spare = min(state.value_mm - window.least_mm, window.most_mm - state.value_mm)
        words = f"to spare {max(spare, 0.0):.1f}" if state.right else f"OUTSIDE by {-spare:.1f}"
        yield from _row((state.name, f"{state.value_mm:.1f}", words), y, state.right, theme)
        y += 34
    note = "From the cut face to the long leg's end; hot is the whole growth of the piece at flow temperature."
    yield placed_words(set_text(note, 16.0, TABLE.width - 28), TABLE.left + 14, y + 8, theme.soft_ink)


def _hose_rows(hoses: HoseTable, theme: Theme) -> Iterator[str]:
    y = TABLE.top + 10
    head = f"Hose, mm: ends apart at most {hoses.most_apart_mm:g}, bend radius at least {hoses.least_bend_mm:g}"
    block = set_text(head, 18.0, TABLE.width - 28, True)
    yield placed_words(block, TABLE.left + 14, y, theme.ink)
    y += block.height_px + 8
    step = min(34.0, (TABLE.bottom - 8 - y) / max(len(hoses.rows), 1))
    for name, apart, bend, right in hoses.rows:
        radius = "no shape" if bend is None else f"radius {bend:.1f}"
        yield from _row((name, f"{apart:.1f}", radius), y, right, theme)
        y += step


def _row(cells: tuple[str, str, str], y: float, right: bool, theme: Theme) -> Iterator[str]:
    colour = theme.ink if right else theme.warn
    for words, x, anchor in zip(cells, (14.0, 330.0, 490.0), ("start", "end", "end"), strict=True):
        yield placed_words(set_text(words, 18.0, 300.0, not right), TABLE.left + x, y, colour, anchor)
