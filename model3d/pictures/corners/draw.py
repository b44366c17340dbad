"""A corner sheet drawn: three shaded pictures, dimensions, the insertion window and what warmth does."""

from __future__ import annotations

from collections.abc import Iterator

from PIL import Image

from model3d.pictures.corners.dimensions import Boxed, Dimension, moved
from model3d.pictures.corners.page import ABOVE, ROOM_VIEW, SECTION, TABLE, CornerPage, corner_page
from model3d.pictures.corners.ruler import Ruler
from model3d.pictures.corners.table import Row
from model3d.pictures.corners.values import CornerSheet
from model3d.pictures.ink import leader, rounded, straight, written
from model3d.pictures.labelled.labels import dimension_line, label
from model3d.pictures.labelled.tags import Picture
from model3d.pictures.markup import element
from model3d.pictures.overlay import drawing, finished
from model3d.pictures.paper import Box
from model3d.pictures.render import studio
from model3d.pictures.signs import sign
from model3d.pictures.theme import Theme
from model3d.wording import catalogue

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
    sheet, words = page.sheet, catalogue(page.sheet.language)
    parts = [rounded(frame, 0.0, "none", theme.rule, 1.5) for frame in (ROOM_VIEW, ABOVE, SECTION, TABLE)]
    parts += [written(each.text) for each in page.heads]
    parts += _wall_lines(page.above, sheet, 0.0, theme)
    for dimension in page.dimensions:
        parts += _dimension(dimension, theme)
    parts += _boxed(page.angle, theme)
    parts += _wall_lines(page.section, sheet, sheet.cut_at_mm[2], theme)
    if page.ruler is not None:
        parts += _ruler(page.ruler, theme)
    for mark in page.marks:
        parts += _boxed(mark, theme)
    for row in page.rows:
        parts += _row(row, theme)
    for tag in page.tags:
        parts += leader(tag.seat.foot, tag.tip, theme)
    for tag in page.tags:
        parts += label(tag, theme, words)
    return drawing(theme.page_px, parts)


def _wall_lines(picture: Picture, sheet: CornerSheet, high_mm: float, theme: Theme) -> Iterator[str]:
    """The two walls' faces as thick lines, hatched behind, at the height of what is seen."""
    corner = (sheet.corner_mm[0], sheet.corner_mm[1], high_mm)
    for side in sheet.sides:
        far = moved(corner, 420.0, side.along)
        yield _clipped(straight(picture.pixel(corner), picture.pixel(far), theme.ink, 3.0), picture.frame)
        for k in range(0, 420, 14):
            start = moved(corner, float(k), side.along)
            back = moved(start, 8.0, side.along, -9.0, side.to_room)
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


def _dimension(dimension: Dimension, theme: Theme) -> Iterator[str]:
    for start, end in dimension.leads:
        yield straight(start, end, theme.ink, 1.0)
    yield from dimension_line(dimension.start, dimension.end, theme)
    yield from _boxed(Boxed(words=dimension.words, box=dimension.box), theme)


def _boxed(each: Boxed, theme: Theme) -> Iterator[str]:
    yield rounded(each.box, 5.0, theme.paper, theme.rule, 1.0)
    yield written(each.words.text)


def _ruler(ruler: Ruler, theme: Theme) -> Iterator[str]:
    yield rounded(ruler.bar, 3.0, RIGHT_FILL, RIGHT_LINE, 1.2)
    yield straight(*ruler.zero, theme.ink, 1.2, "6 4")
    y = ruler.bar.middle[1]
    for tick in ruler.ticks:
        colour = theme.ink if tick.right else theme.warn
        yield straight((tick.x, y - 14), (tick.x, y + 10), colour, 2.4)
        yield straight(*ruler.lead(tick), colour, 1.2)
        yield written(tick.words.text)


def _row(row: Row, theme: Theme) -> Iterator[str]:
    if row.sign is not None:
        yield sign("warning", row.sign, 10.0, theme)
    for each in row.words:
        yield written(each.text)
