"""A bench page drawn: shaded pictures, and words, letters and lines as SVG over them."""

from __future__ import annotations

import io
from collections.abc import Iterator
from functools import cache

from PIL import Image

from model3d.pictures.bench.page import (
    LABEL_PAD,
    PANEL_HIGH,
    PANEL_TOP,
    BenchPage,
    DrawnEnd,
    DrawnTag,
    Picture,
    bench_page,
)
from model3d.pictures.bench.values import Bench
from model3d.pictures.lettering import FAMILY, TextBlock, set_text
from model3d.pictures.markup import element, words
from model3d.pictures.overlay import rasterised
from model3d.pictures.paper import Box, Px
from model3d.pictures.render import Studio
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
    over = Image.fromarray(rasterised(bench_svg(page, theme)))
    out = io.BytesIO()
    Image.alpha_composite(canvas.convert("RGBA"), over).convert("RGB").save(out, format="PNG", compress_level=4)
    return out.getvalue()


@cache
def _studio(theme: Theme) -> Studio:
    return Studio(theme)


def _shot(picture: Picture, bench: Bench, theme: Theme) -> Image.Image:
    size = round(picture.frame.width), round(picture.frame.height)
    return Image.fromarray(_studio(theme).shot(picture.solids, picture.camera, size, bench.to_room, 30.0))


def bench_svg(page: BenchPage, theme: Theme) -> str:
    """Everything of the page but the shaded pictures."""
    width, height = theme.page_px
    parts = [*_head(page, theme), *_whole(page, theme)]
    for end in page.ends:
        parts += _end(end, theme)
    return element(
        "svg",
        *(f"{part}\n" for part in parts),
        xmlns="http://www.w3.org/2000/svg",
        width=width,
        height=height,
        viewBox=f"0 0 {width} {height}",
        font_family=FAMILY,
    )


def _head(page: BenchPage, theme: Theme) -> Iterator[str]:
    bench = page.bench
    yield _text(set_text(bench.title, theme.title_px, 1100.0, True), 44.0, 20.0, theme.ink)
    yield _text(set_text(NAMED, theme.body_px, 1512.0), 44.0, 72.0, theme.soft_ink)
    rings = f"O-rings to grease: {bench.oring_count}" if bench.oring_count else "No O-rings to grease on the bench"
    block = set_text(rings, theme.body_px, 500.0, True)
    right = theme.page_px[0] - 44.0
    yield sign("grease", (right - block.width_px - 26.0, 41.0), 14.0, theme)
    yield _text(block, right - block.width_px, 29.0, theme.ink)


def _whole(page: BenchPage, theme: Theme) -> Iterator[str]:
    frame, (low, high) = page.whole.frame, page.near_px
    yield _box(frame, 0.0, "none", theme.rule, 1.5)
    y = frame.bottom - 26.0
    for x in (low[0], high[0]):
        yield _line((x, y - 16.0), (x, y + 8.0), theme.ink, 1.4)
    size = set_text(f"cut {page.bench.cut_length_mm:.1f} mm", theme.callout_px, 400.0, True)
    middle = (low[0] + high[0]) / 2
    if high[0] - low[0] > size.width_px + 90:
        for x, to in ((low[0], middle - size.width_px / 2 - 8), (high[0], middle + size.width_px / 2 + 8)):
            yield _line((to, y), (x, y), theme.ink, 1.4)
            yield _head_at((x, y), 1.0 if to < x else -1.0, theme)
        yield _text(size, middle, y - size.size_px * 0.62, theme.ink, "middle")
    else:
        yield _line((low[0] - 30, y), (high[0] + 30, y), theme.ink, 1.4)
        for x, way in ((low[0], 1.0), (high[0], -1.0)):
            yield _head_at((x, y), way, theme)
        yield _text(size, high[0] + 42, y - size.size_px * 0.62, theme.ink)
    for at, name, side in ((page.top_px, "TOP EDGE", -1), (page.front_px, "FRONT", 1)):
        tip = at[0] + side * min(120.0, (high[0] - low[0]) * 0.2), at[1]
        yield from _flag(name, at[0] + side * 120.0, tip, frame, theme)
    for end, right in zip(page.ends, (False, True), strict=True):
        toward = end.end.title.split(":")[0]
        block = set_text(toward, theme.callout_px, 230.0, True)
        edge = frame.right - 16 if right else frame.left + 16
        yield _text(block, edge, frame.top + 56, theme.ink, "end" if right else "start")
        tail, y_out = (edge - 4 if right else edge + 4), frame.top + 74 + block.height_px
        yield _arrow_out((tail + (-66 if right else 66), y_out), (tail, y_out), theme)


def _flag(name: str, x: float, tip: Px, frame: Box, theme: Theme) -> Iterator[str]:
    block = set_text(name, 17.0, 200.0, True)
    box = Box(left=x - block.width_px / 2 - 7, top=frame.top + 6, width=block.width_px + 14, height=26)
    foot = min(max(tip[0], box.left + 8), box.right - 8), box.bottom
    yield from _leader(foot, tip, theme)
    yield _box(box, 6.0, theme.paper, theme.ink, 1.3)
    yield _text(block, x, frame.top + 9, theme.ink, "middle")


def _end(end: DrawnEnd, theme: Theme) -> Iterator[str]:
    whole = Box(
        left=end.left,
        top=PANEL_TOP - 52,
        width=end.picture.frame.width + end.end_on.frame.width,
        height=PANEL_HIGH + 52,
    )
    title = set_text(end.end.title, 25.0, whole.width - 20, True)
    yield _text(title, end.left + 14, PANEL_TOP - 44, theme.ink)
    for start, stop in end.guides:
        for colour, width in ((theme.halo, 4.5), (theme.ink, 1.6)):
            yield _line(start, stop, colour, width, dash="7 5" if colour == theme.ink else "")
    for tag in end.tags:
        yield from _leader(tag.seat.foot, tag.tip, theme)
    for tag in end.tags:
        yield from _label(tag, theme)
    yield from _end_on(end, theme)
    yield _box(whole, 0.0, "none", theme.rule, 1.5)
    yield _line((whole.left, PANEL_TOP), (whole.right, PANEL_TOP), theme.rule, 1.5)
    yield _line((end.end_on.frame.left, PANEL_TOP), (end.end_on.frame.left, PANEL_TOP + PANEL_HIGH), theme.rule, 1.5)
    yield from _todo(end, whole, theme)


def _end_on(end: DrawnEnd, theme: Theme) -> Iterator[str]:
    frame = end.end_on.frame
    middle = frame.left + frame.width / 2
    yield _text(set_text("seen end-on", 18.0, frame.width), middle, frame.top + 10, theme.soft_ink, "middle")
    sides = ("wall", "room") if end.room_right else ("room", "wall")
    y = frame.top + 42
    yield _text(set_text(f"◂ {sides[0]}", 18.0, 90.0, True), frame.left + 12, y, theme.ink)
    yield _text(set_text(f"{sides[1]} ▸", 18.0, 90.0, True), frame.right - 12, y, theme.ink, "end")
    if end.end.face == "none":
        said = set_text("no clip", 18.0, 150.0, True)
    else:
        letter, toward = ("F", "room") if end.end.face == "front" else ("B", "wall")
        yield from _badge(letter, (frame.left + 28, frame.bottom - 74), theme, 14.0)
        said = set_text(f"slot to the {toward}", 18.0, 125.0, True)
    top = frame.bottom - 74 - said.height_px / 2
    yield _text(said, frame.left + (50 if end.end.face != "none" else 12), top, theme.ink)


def _badge(letter: str, at: Px, theme: Theme, radius: float = 15.0) -> Iterator[str]:
    surface = theme.surfaces["clip-front" if letter == "F" else "clip-back"]
    box = Box(left=at[0] - radius, top=at[1] - radius, width=2 * radius, height=2 * radius)
    yield _box(box, 6.0, surface.fill, surface.line, 2.0)
    size = radius * 1.3
    yield element(
        "text",
        words(letter),
        x=at[0],
        y=at[1] + size * 0.364,
        font_size=size,
        font_weight="bold",
        text_anchor="middle",
        fill=theme.badge_ink(letter),
    )


def _label(tag: DrawnTag, theme: Theme) -> Iterator[str]:
    box = tag.seat.box
    yield _box(box, 8.0, theme.paper, theme.ink, 1.6)
    left = box.left + LABEL_PAD
    if tag.tag.face != "none":
        yield from _badge("F" if tag.tag.face == "front" else "B", (left + 11, box.middle[1]), theme, 12.0)
        left += 30
    elif tag.tag.kind != "plain":
        yield sign(tag.tag.kind, (left + 10, box.middle[1]), 12.0, theme)
        left += 30
    yield _text(tag.block, left, box.middle[1] - tag.block.height_px / 2, theme.ink)


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
        yield _text(block, whole.left + 44, y, theme.ink)
        y += block.height_px + 10


def _text(block: TextBlock, left: float, top: float, colour: str, anchor: str = "start") -> str:
    first = top + block.size_px
    lines = (
        element("tspan", words(line), x=left, y=first + k * block.leading_px) for k, line in enumerate(block.lines)
    )
    weight = "bold" if block.bold else "normal"
    return element(
        "text",
        *lines,
        font_size=block.size_px,
        fill=colour,
        font_weight=weight,
        text_anchor=anchor,
    )


def _leader(start: Px, tip: Px, theme: Theme) -> Iterator[str]:
    yield _line(start, tip, theme.halo, theme.leader_px + 3.5)
    yield _line(start, tip, theme.ink, theme.leader_px)
    yield element("circle", cx=tip[0], cy=tip[1], r=5.5, fill=theme.halo)
    yield element("circle", cx=tip[0], cy=tip[1], r=4.0, fill=theme.ink)


def _arrow_out(start: Px, end: Px, theme: Theme) -> str:
    way = 1 if end[0] > start[0] else -1
    neck = end[0] - way * 20
    x, y = start
    d = f"M{x:.1f} {y - 5:.1f}H{neck:.1f}v-8L{end[0]:.1f} {y:.1f}L{neck:.1f} {y + 13:.1f}v-8H{x:.1f}z"
    return element("path", d=d, fill=theme.soft_ink)


def _head_at(tip: Px, way: float, theme: Theme) -> str:
    d = f"M{tip[0]:.1f} {tip[1]:.1f}l{-way * 12:.1f} -4v8z"
    return element("path", d=d, fill=theme.ink)


def _box(box: Box, radius: float, fill: str, stroke: str, width: float) -> str:
    return element(
        "rect",
        x=box.left,
        y=box.top,
        width=box.width,
        height=box.height,
        rx=radius,
        fill=fill,
        stroke=stroke,
        stroke_width=width,
    )


def _line(start: Px, end: Px, colour: str, width: float, dash: str = "") -> str:
    ends: dict[str, str | float] = {"x1": start[0], "y1": start[1], "x2": end[0], "y2": end[1]}
    dashed: dict[str, str | float] = {"stroke_dasharray": dash} if dash else {}
    return element("line", **ends, **dashed, stroke=colour, stroke_width=width)
