"""A bench page drawn: shaded pictures, and words, letters and lines as SVG over them."""

from __future__ import annotations

from collections.abc import Iterator

from PIL import Image

from model3d.pictures.bench.page import PANEL_HIGH, PANEL_TOP, BenchPage, DrawnEnd, bench_page
from model3d.pictures.bench.values import Bench
from model3d.pictures.labelled.ink import dimension_head, face_badge, label, leader, placed_words, rounded, straight
from model3d.pictures.labelled.tags import Picture
from model3d.pictures.lettering import set_text
from model3d.pictures.markup import element, words
from model3d.pictures.overlay import drawing, finished
from model3d.pictures.paper import Box, Px
from model3d.pictures.render import studio
from model3d.pictures.signs import sign
from model3d.pictures.theme import Theme

NAMED = "Ends are named by where they go: on the bench a piece is turned end for end, and left and right swap."


def bench_picture(bench: Bench, theme: Theme) -> bytes:
    """The bench picture of one piece as PNG, 1600 x 1000. The same bench gives the same bytes on one machine.

    Raises NoOpenGLError where nothing can be drawn.
    """
    page = bench_page(bench, theme)
    canvas = Image.new("RGB", theme.page_px, theme.paper)
    shots = [page.whole, *(p for end in page.ends for p in (end.picture, end.end_on))]
    for picture in shots:
        canvas.paste(_shot(picture, bench, theme), (round(picture.frame.left), round(picture.frame.top)))
    return finished(canvas, bench_svg(page, theme))


def _shot(picture: Picture, bench: Bench, theme: Theme) -> Image.Image:
    size = round(picture.frame.width), round(picture.frame.height)
    return Image.fromarray(studio(theme).shot(picture.solids, picture.camera, size, bench.to_room, 30.0))


def bench_svg(page: BenchPage, theme: Theme) -> str:
    """Everything of the page but the shaded pictures."""
    parts = [*_head(page, theme), *_whole(page, theme)]
    for end in page.ends:
        parts += _end(end, theme)
    return drawing(theme.page_px, parts)


def _head(page: BenchPage, theme: Theme) -> Iterator[str]:
    bench = page.bench
    yield placed_words(set_text(bench.title, theme.title_px, 1100.0, True), 44.0, 20.0, theme.ink)
    yield placed_words(set_text(NAMED, theme.body_px, 1512.0), 44.0, 72.0, theme.soft_ink)
    rings = f"O-rings to grease: {bench.oring_count}" if bench.oring_count else "No O-rings to grease on the bench"
    block = set_text(rings, theme.body_px, 500.0, True)
    right = theme.page_px[0] - 44.0
    yield sign("grease", (right - block.width_px - 26.0, 41.0), 14.0, theme)
    yield placed_words(block, right - block.width_px, 29.0, theme.ink)


def _whole(page: BenchPage, theme: Theme) -> Iterator[str]:
    frame, (low, high) = page.whole.frame, page.near_px
    yield rounded(frame, 0.0, "none", theme.rule, 1.5)
    y = frame.bottom - 26.0
    for x in (low[0], high[0]):
        yield straight((x, y - 16.0), (x, y + 8.0), theme.ink, 1.4)
    size = set_text(f"cut {page.bench.cut_length_mm:.1f} mm", theme.callout_px, 400.0, True)
    middle = (low[0] + high[0]) / 2
    if high[0] - low[0] > size.width_px + 90:
        for x, to in ((low[0], middle - size.width_px / 2 - 8), (high[0], middle + size.width_px / 2 + 8)):
            yield straight((to, y), (x, y), theme.ink, 1.4)
            yield dimension_head((x, y), (to, y), theme)
        yield placed_words(size, middle, y - size.size_px * 0.62, theme.ink, "middle")
    else:
        yield straight((low[0] - 30, y), (high[0] + 30, y), theme.ink, 1.4)
        for x, way in ((low[0], 1.0), (high[0], -1.0)):
            yield dimension_head((x, y), (x - way, y), theme)
        yield placed_words(size, high[0] + 42, y - size.size_px * 0.62, theme.ink)
    for at, name, side in ((page.top_px, "TOP EDGE", -1), (page.front_px, "FRONT", 1)):
        tip = at[0] + side * min(120.0, (high[0] - low[0]) * 0.2), at[1]
        yield from _flag(name, at[0] + side * 120.0, tip, frame, theme)
    for end, right in zip(page.ends, (False, True), strict=True):
        toward = end.end.title.split(":")[0]
        block = set_text(toward, theme.callout_px, 230.0, True)
        edge = frame.right - 16 if right else frame.left + 16
        yield placed_words(block, edge, frame.top + 56, theme.ink, "end" if right else "start")
        tail, y_out = (edge - 4 if right else edge + 4), frame.top + 74 + block.height_px
        yield _arrow_out((tail + (-66 if right else 66), y_out), (tail, y_out), theme)


def _flag(name: str, x: float, tip: Px, frame: Box, theme: Theme) -> Iterator[str]:
    block = set_text(name, 17.0, 200.0, True)
    box = Box(left=x - block.width_px / 2 - 7, top=frame.top + 6, width=block.width_px + 14, height=26)
    foot = min(max(tip[0], box.left + 8), box.right - 8), box.bottom
    yield from leader(foot, tip, theme)
    yield rounded(box, 6.0, theme.paper, theme.ink, 1.3)
    yield placed_words(block, x, frame.top + 9, theme.ink, "middle")


def _end(end: DrawnEnd, theme: Theme) -> Iterator[str]:
    whole = Box(
        left=end.left,
        top=PANEL_TOP - 52,
        width=end.picture.frame.width + end.end_on.frame.width,
        height=PANEL_HIGH + 52,
    )
    title = set_text(end.end.title, 25.0, whole.width - 20, True)
    yield placed_words(title, end.left + 14, PANEL_TOP - 44, theme.ink)
    for start, stop in end.guides:
        for colour, width in ((theme.halo, 4.5), (theme.ink, 1.6)):
            yield straight(start, stop, colour, width, dash="7 5" if colour == theme.ink else "")
    for tag in end.tags:
        yield from leader(tag.seat.foot, tag.tip, theme)
    for tag in end.tags:
        yield from label(tag, theme)
    yield from _end_on(end, theme)
    yield rounded(whole, 0.0, "none", theme.rule, 1.5)
    yield straight((whole.left, PANEL_TOP), (whole.right, PANEL_TOP), theme.rule, 1.5)
    yield straight((end.end_on.frame.left, PANEL_TOP), (end.end_on.frame.left, PANEL_TOP + PANEL_HIGH), theme.rule, 1.5)
    yield from _todo(end, whole, theme)


def _end_on(end: DrawnEnd, theme: Theme) -> Iterator[str]:
    frame = end.end_on.frame
    middle = frame.left + frame.width / 2
    yield placed_words(set_text("seen end-on", 18.0, frame.width), middle, frame.top + 10, theme.soft_ink, "middle")
    sides = ("wall", "room") if end.room_right else ("room", "wall")
    y = frame.top + 42
    yield placed_words(set_text(f"◂ {sides[0]}", 18.0, 90.0, True), frame.left + 12, y, theme.ink)
    yield placed_words(set_text(f"{sides[1]} ▸", 18.0, 90.0, True), frame.right - 12, y, theme.ink, "end")
    if end.end.face == "none":
        said = set_text("no clip", 18.0, 150.0, True)
    else:
        letter, toward = ("F", "room") if end.end.face == "front" else ("B", "wall")
        yield from face_badge(letter, (frame.left + 28, frame.bottom - 74), theme, 14.0)
        said = set_text(f"tabs, slot to the {toward}", 17.0, 119.0, True)
    top = frame.bottom - 74 - said.height_px / 2
    yield placed_words(said, frame.left + (50 if end.end.face != "none" else 12), top, theme.ink)


def _todo(end: DrawnEnd, whole: Box, theme: Theme) -> Iterator[str]:
    y = whole.bottom + 16
    for number, line in enumerate(end.end.todo, 1):
        block = set_text(line + ".", theme.body_px, whole.width - 60)
        at = whole.left + 16, y + theme.body_px * 0.66
        yield element("circle", cx=at[0], cy=at[1], r=15.0, fill=theme.ink)
        yield element(
            "text",
            words(str(number)),
            x=at[0],
            y=at[1] + 6.5,
            font_size=18.0,
            font_weight="bold",
            text_anchor="middle",
            fill=theme.paper,
        )
        yield placed_words(block, whole.left + 44, y, theme.ink)
        y += block.height_px + 10


def _arrow_out(start: Px, end: Px, theme: Theme) -> str:
    way = 1 if end[0] > start[0] else -1
    neck = end[0] - way * 20
    x, y = start
    d = f"M{x:.1f} {y - 5:.1f}H{neck:.1f}v-8L{end[0]:.1f} {y:.1f}L{neck:.1f} {y + 13:.1f}v-8H{x:.1f}z"
    return element("path", d=d, fill=theme.soft_ink)
