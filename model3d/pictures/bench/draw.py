"""A bench page drawn: shaded pictures, and words, letters and lines as SVG over them."""

from __future__ import annotations

from collections.abc import Iterator

from PIL import Image

from model3d.pictures.bench.page import PANEL_TOP, BenchPage, DrawnEnd, bench_page
from model3d.pictures.bench.text import NUMBER_PX, Flag, Way
from model3d.pictures.bench.values import Bench
from model3d.pictures.ink import dashed, leader, numbered, polygon, rounded, straight, written
from model3d.pictures.labelled.labels import dimension_head, face_badge, label
from model3d.pictures.labelled.tags import Picture
from model3d.pictures.overlay import drawing, finished
from model3d.pictures.render import studio
from model3d.pictures.signs import sign
from model3d.pictures.theme import Theme
from model3d.wording import Catalogue, catalogue


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
    words = catalogue(page.bench.language)
    parts = [written(each.text) for each in page.head]
    if page.drop is not None:
        parts.append(sign("grease", page.drop, 14.0, theme))
    parts += _whole(page, theme)
    for end in page.ends:
        parts += _end(end, theme, words)
    return drawing(theme.page_px, parts)


def _whole(page: BenchPage, theme: Theme) -> Iterator[str]:
    yield rounded(page.whole.frame, 0.0, "none", theme.rule, 1.5)
    yield from _cut(page, theme)
    for each in page.flags:
        yield from _flag(each, theme)
    for out in page.ways:
        yield written(out.words.text)
        yield _arrow_out(out, theme)


def _cut(page: BenchPage, theme: Theme) -> Iterator[str]:
    """The cut length's dimension line: broken for its words, or with its heads from outside where it is short."""
    (low, _), (high, _) = page.near_px
    room, y = page.cut.room, page.cut.room.middle[1]
    for x in (low, high):
        yield straight((x, y - 16.0), (x, y + 8.0), theme.ink, 1.4)
    if page.cut_inside:
        for x, to in ((low, room.left), (high, room.right)):
            yield straight((to, y), (x, y), theme.ink, 1.4)
            yield dimension_head((x, y), (to, y), theme)
    else:
        yield straight((low - 30, y), (high + 30, y), theme.ink, 1.4)
        for x, way in ((low, 1.0), (high, -1.0)):
            yield dimension_head((x, y), (x - way, y), theme)
    yield written(page.cut.text)


def _flag(flag: Flag, theme: Theme) -> Iterator[str]:
    yield from leader(flag.foot, flag.tip, theme)
    yield rounded(flag.box, 6.0, theme.paper, theme.ink, 1.3)
    yield written(flag.words.text)


def _end(end: DrawnEnd, theme: Theme, words: Catalogue) -> Iterator[str]:
    for start, stop in end.guides:
        yield from dashed(start, stop, theme)
    for tag in end.tags:
        yield from leader(tag.seat.foot, tag.tip, theme)
    for tag in end.tags:
        yield from label(tag, theme, words)
    if end.badge is not None:
        yield from face_badge(end.end.face, end.badge, theme, words, 14.0)
    frame, side = end.frame, end.end_on.frame
    yield rounded(frame, 0.0, "none", theme.rule, 1.5)
    yield straight((frame.left, PANEL_TOP), (frame.right, PANEL_TOP), theme.rule, 1.5)
    yield straight((side.left, PANEL_TOP), (side.left, side.bottom), theme.rule, 1.5)
    for each in (*end.words, *end.todo):
        yield written(each.text)
    for number, at in end.numbers:
        yield from numbered(number, at, NUMBER_PX, theme.ink, theme.paper)


def _arrow_out(out: Way, theme: Theme) -> str:
    (x, y), (tip, _) = out.start, out.end
    neck = tip - 20.0 if tip > x else tip + 20.0
    outline = ((x, y - 5), (neck, y - 5), (neck, y - 13), (tip, y), (neck, y + 13), (neck, y + 5), (x, y + 5))
    return polygon(outline, theme.soft_ink)
