"""The page's lines, arrows, letters and words as SVG, and that SVG as pixels. Only the shipped font is used."""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator

import numpy as np
import resvg_py
from PIL import Image

from model3d.pictures.ink import dashed, full, leader, letter, numbered, polygon, ring, rounded, straight, written
from model3d.pictures.lettering import FAMILY, PlacedText, font_paths
from model3d.pictures.markup import element
from model3d.pictures.page import (
    DISC_PX,
    SNAG_PX,
    DrawnArrow,
    DrawnBadge,
    DrawnCallout,
    DrawnInset,
    Page,
    Swatch,
)
from model3d.pictures.paper import Box, Px
from model3d.pictures.plan_map import map_icon
from model3d.pictures.render import Raster
from model3d.pictures.side_icon import side_icon
from model3d.pictures.signs import meter, sign
from model3d.pictures.stage import Look
from model3d.pictures.theme import Theme
from model3d.wording import catalogue

_GHOST: tuple[Look, ...] = ("ghost", "room-wall", "bracket")


def svg(page: Page, theme: Theme) -> str:
    """Everything of the page but the shaded pictures."""
    return drawing(page.size, _parts(page, theme))


def drawing(size_px: tuple[int, int], parts: Iterable[str]) -> str:
    """SVG elements as one drawing in the shipped font."""
    width, height = size_px
    return element(
        "svg",
        *(f"{part}\n" for part in parts),
        xmlns="http://www.w3.org/2000/svg",
        width=width,
        height=height,
        viewBox=f"0 0 {width} {height}",
        font_family=FAMILY,
    )


def rasterised(text: str) -> Raster:
    """(height, width, 4) pixels of an SVG. Raises ValueError when it is not valid."""
    data = resvg_py.svg_to_bytes(
        svg_string=text,
        skip_system_fonts=True,
        font_files=[str(path) for path in font_paths()],
        font_family=FAMILY,
        sans_serif_family=FAMILY,
    )
    with Image.open(io.BytesIO(bytes(data))) as image:
        return np.asarray(image.convert("RGBA"), dtype=np.uint8)


def finished(canvas: Image.Image, over: str) -> bytes:
    """Shaded pictures with a drawing over them, as PNG."""
    whole = Image.alpha_composite(canvas.convert("RGBA"), Image.fromarray(rasterised(over))).convert("RGB")
    out = io.BytesIO()
    whole.save(out, format="PNG", optimize=False, compress_level=4)
    return out.getvalue()


def _parts(page: Page, theme: Theme) -> Iterator[str]:
    panel = page.bands.panel
    for y in (panel.top, panel.bottom):
        yield straight((0.0, y), (float(page.size[0]), y), theme.rule, 1.5)
    if page.plan_map is not None and page.map_box is not None:
        yield from map_icon(page.plan_map, page.map_box, page.view.camera, theme)
    for inset in page.insets:
        yield from _tie(inset, theme)
    for arrow in page.marks.arrows:
        yield from _arrow(arrow, theme)
    for inset in page.insets:
        yield from _ring(inset, page, theme)
    for marks in (page.marks, *(inset.marks for inset in page.insets)):
        for badge in marks.badges:
            yield from _badge(badge, page, theme)
        for callout in marks.callouts:
            yield from _callout(callout, theme)
    yield from _bands(page, theme)


def _bands(page: Page, theme: Theme) -> Iterator[str]:
    around = page.bands
    yield rounded(around.chip, around.chip.height / 2, theme.ink)
    for label, at in around.discs:
        yield from _disc(label, at, DISC_PX, theme)
    for kind, at in around.marks:
        yield sign(kind, at, 15.0, theme)
    if around.meter is not None:
        yield from meter(*around.meter, theme)
    for swatch in around.swatches:
        yield from _swatch(swatch, page, theme)
    for text in around.texts:
        yield written(text)


def _arrow(arrow: DrawnArrow, theme: Theme) -> Iterator[str]:
    yield polygon(arrow.outline, theme.halo, theme.halo, 2 * theme.arrow_halo_px)
    yield polygon(arrow.outline, theme.move)
    yield from _note(arrow, theme.move, theme)
    if arrow.snag is not None:
        yield sign("snag", arrow.snag, SNAG_PX, theme)
    if arrow.label:
        yield from _disc(arrow.label, arrow.disc, arrow.disc_radius, theme)


def _bench_arrow(arrow: DrawnArrow, theme: Theme) -> Iterator[str]:
    """What is done on the bench, before the moves that carry numbers: an empty arrow."""
    yield polygon(arrow.outline, theme.halo, theme.halo, 2 * theme.arrow_halo_px)
    yield polygon(arrow.outline, theme.paper, theme.ink, 2.4)
    yield from _note(arrow, theme.ink, theme)


def _note(arrow: DrawnArrow, colour: str, theme: Theme) -> Iterator[str]:
    if arrow.note is None or arrow.note_box is None:
        return
    yield rounded(arrow.note_box.grown(2.0), 7.0, theme.halo)
    yield rounded(arrow.note_box, 6.0, theme.paper, colour, 1.8)
    x, y = arrow.note_box.middle
    top = y - arrow.note.height_px / 2
    yield written(PlacedText(block=arrow.note, left=x, top=top, colour=theme.ink, anchor="middle"))


def _disc(label: str, at: Px, radius: float, theme: Theme) -> Iterator[str]:
    yield full(at, radius + 3.5, theme.halo)
    yield from numbered(label, at, radius, theme.move, theme.on_move)


def _badge(badge: DrawnBadge, page: Page, theme: Theme) -> Iterator[str]:
    surface = theme.surfaces[badge.look]
    yield from leader(badge.box.middle, badge.tip, theme)
    yield rounded(badge.box.grown(3.0), 9.0, theme.halo)
    yield rounded(badge.box, 7.0, surface.fill, surface.line, 2.0)
    yield letter(face_letter(badge.letter, page), badge.box.middle, theme.badge_px, theme.badge_ink(badge.letter))


def face_letter(face: str, page: Page) -> str:
    """The letter of a clip's face in the page's language."""
    return catalogue(page.language).say("letter.front" if face == "F" else "letter.back")


def _callout(callout: DrawnCallout, theme: Theme) -> Iterator[str]:
    box = callout.box
    yield from leader(box.middle, callout.tip, theme)
    yield rounded(box, 8.0, theme.paper, theme.ink, 1.6)
    if callout.kind != "plain":
        yield sign(callout.kind, (box.left + 22.0, box.middle[1]), 13.0, theme)
    yield written(callout.text)


def _tie(inset: DrawnInset, theme: Theme) -> Iterator[str]:
    for colour, extra in ((theme.halo, 4.0), (theme.ink, 0.0)):
        yield straight(*inset.leader(), colour, theme.leader_px + extra)
        yield ring(inset.spot, inset.spot_radius, colour, theme.leader_px + 0.6 + extra)


def _ring(inset: DrawnInset, page: Page, theme: Theme) -> Iterator[str]:
    for colour, extra in ((theme.halo, 7.0), (theme.ink, 0.0)):
        yield ring(inset.centre, inset.radius, colour, theme.ring_px + extra)
    for start, end in inset.guides:
        yield from dashed(start, end, theme)
    for arrow in inset.marks.arrows:
        yield from _arrow(arrow, theme) if arrow.label else _bench_arrow(arrow, theme)
    yield rounded(inset.title_box, 8.0, theme.paper, theme.ink, 2.0)
    if inset.icon is not None and inset.face is not None and page.side_view is not None:
        yield side_icon(page.side_view, inset.face, inset.icon, theme)
    yield written(inset.title)


def _swatch(swatch: Swatch, page: Page, theme: Theme) -> Iterator[str]:
    box = swatch.box
    if swatch.look == "move" or swatch.look == "bench":
        yield _swatch_arrow(box, theme, full=swatch.look == "move")
        return
    if swatch.look == "ghost":
        yield from _swatch_ghost(box, theme)
        return
    if swatch.look in ("clip-front", "clip-back") and page.side_view is not None:
        yield side_icon(page.side_view, "F" if swatch.look == "clip-front" else "B", box, theme)
        return
    surface = theme.surfaces[swatch.look]
    yield rounded(box, 6.0, surface.fill, surface.line, 1.6, surface.opacity)
    if swatch.look in ("clip-front", "clip-back"):
        face = "F" if swatch.look == "clip-front" else "B"
        yield letter(face_letter(face, page), box.middle, 19.0, theme.badge_ink(face))


def _swatch_arrow(box: Box, theme: Theme, *, full: bool) -> str:
    x, y, neck = box.left, box.middle[1], box.right - 16.0
    outline = ((x, y - 4), (neck, y - 4), (neck, y - 11), (box.right, y), (neck, y + 11), (neck, y + 4), (x, y + 4))
    return polygon(outline, theme.move) if full else polygon(outline, theme.paper, theme.ink, 2.0)


def _swatch_ghost(box: Box, theme: Theme) -> Iterator[str]:
    """A bracket on the wall seen through three of the piece's skins, as in the picture."""
    surface, wall, bracket = (theme.surfaces[look] for look in _GHOST)
    yield rounded(box, 6.0, wall.fill)
    yield rounded(Box(left=box.middle[0] - 4, top=box.top, width=8, height=box.height), 0.0, bracket.line)
    yield rounded(box, 6.0, surface.fill, surface.line, 1.6, 1 - (1 - surface.opacity) ** 3)
