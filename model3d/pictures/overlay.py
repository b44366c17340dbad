"""The page's lines, arrows, letters and words as SVG, and that SVG as pixels. Only the shipped font is used.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from xml.sax.saxutils import escape, quoteattr

import numpy as np
import resvg_py
from PIL import Image

from model3d.pictures.lettering import FAMILY, font_paths
from model3d.pictures.page import (
    DISC_PX, Box, DrawnArrow, DrawnBadge, DrawnCallout, DrawnInset, Page, PlacedText, Px, Swatch,
)
from model3d.pictures.render import Raster
from model3d.pictures.signs import sign
from model3d.pictures.theme import Theme


def svg(page: Page, theme: Theme) -> str:
    """Everything of the page but the shaded pictures."""
    width, height = page.size
    body = "\n".join(_parts(page, theme))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" viewBox="0 0 {width} {height}" '
        f'font-family={quoteattr(FAMILY)}>\n{body}\n</svg>\n'
    )


def rasterised(text: str) -> Raster:
    """(height, width, 4) pixels of an SVG. Raises ValueError when it is not valid."""
    data = resvg_py.svg_to_bytes(
        svg_string=text, skip_system_fonts=True, font_files=[str(path) for path in font_paths()], font_family=FAMILY,
        sans_serif_family=FAMILY,
    )
    with Image.open(io.BytesIO(bytes(data))) as image:
        return np.asarray(image.convert("RGBA"), dtype=np.uint8)


def _parts(page: Page, theme: Theme) -> Iterator[str]:
    panel = page.bands.panel
    for y in (panel.top, panel.bottom):
        yield f'<line x1="0" x2="{page.size[0]}" y1="{y:.1f}" y2="{y:.1f}" stroke="{theme.rule}" stroke-width="1.5"/>'
    for inset in page.insets:
        yield from _tie(inset, theme)
    for arrow in page.arrows:
        yield from _arrow(arrow, theme)
    for inset in page.insets:
        yield from _ring(inset, theme)
    for owner in (page, *page.insets):
        for badge in owner.badges:
            yield from _badge(badge, theme)
        for callout in owner.callouts:
            yield from _callout(callout, theme)
    yield from _bands(page, theme)


def _bands(page: Page, theme: Theme) -> Iterator[str]:
    around = page.bands
    yield _rounded(around.chip, around.chip.height / 2, theme.ink)
    for label, at in around.discs:
        yield from _disc(label, at, DISC_PX, theme)
    for kind, at in around.marks:
        yield sign(kind, at, 15.0, theme)
    for swatch in around.swatches:
        yield from _swatch(swatch, theme)
    for text in around.texts:
        yield _text(text)


def _text(text: PlacedText) -> str:
    weight = ' font-weight="bold"' if text.block.bold else ""
    anchor = ' text-anchor="middle"' if text.anchor == "middle" else ""
    lines = "".join(
        f'<tspan x="{text.left:.1f}" y="{text.top + text.block.size_px + k * text.block.leading_px:.1f}">{escape(line)}</tspan>'
        for k, line in enumerate(text.block.lines)
    )
    return f'<text font-size="{text.block.size_px:g}" fill="{text.colour}"{weight}{anchor}>{lines}</text>'


def _arrow(arrow: DrawnArrow, theme: Theme) -> Iterator[str]:
    points = " ".join(f"{x:.1f},{y:.1f}" for x, y in arrow.outline)
    yield (
        f'<polygon points="{points}" fill="{theme.halo}" stroke="{theme.halo}" stroke-width="{2 * theme.arrow_halo_px:g}" '
        'stroke-linejoin="round"/>'
    )
    yield f'<polygon points="{points}" fill="{theme.move}"/>'
    if arrow.label:
        yield from _disc(arrow.label, arrow.disc, arrow.disc_radius, theme)


def _disc(label: str, at: Px, radius: float, theme: Theme) -> Iterator[str]:
    yield f'<circle cx="{at[0]:.1f}" cy="{at[1]:.1f}" r="{radius + 3.5:g}" fill="{theme.halo}"/>'
    yield f'<circle cx="{at[0]:.1f}" cy="{at[1]:.1f}" r="{radius:g}" fill="{theme.move}"/>'
    yield _letter(label, at, radius * 1.3, theme.on_move)


def _letter(letter: str, at: Px, size: float, colour: str) -> str:
    return (
        f'<text x="{at[0]:.1f}" y="{at[1] + size * 0.364:.1f}" font-size="{size:.1f}" font-weight="bold" '
        f'text-anchor="middle" fill="{colour}">{escape(letter)}</text>'
    )


def _badge(badge: DrawnBadge, theme: Theme) -> Iterator[str]:
    surface = theme.surfaces[badge.look]
    yield from _leader(badge.box.middle, badge.tip, theme)
    yield _rounded(_grown(badge.box, 3.0), 9.0, theme.halo)
    yield _rounded(badge.box, 7.0, surface.fill, surface.line, 2.0)
    yield _letter(badge.letter, badge.box.middle, theme.badge_px, theme.badge_ink(badge.letter))


def _callout(callout: DrawnCallout, theme: Theme) -> Iterator[str]:
    box = callout.box
    yield from _leader(box.middle, callout.tip, theme)
    yield _rounded(box, 8.0, theme.paper, theme.ink, 1.6)
    if callout.kind != "plain":
        yield sign(callout.kind, (box.left + 22.0, box.middle[1]), 13.0, theme)
    yield _text(callout.text)


def _leader(start: Px, tip: Px, theme: Theme) -> Iterator[str]:
    where = f'x1="{start[0]:.1f}" y1="{start[1]:.1f}" x2="{tip[0]:.1f}" y2="{tip[1]:.1f}"'
    yield f'<line {where} stroke="{theme.halo}" stroke-width="{theme.leader_px + 3.5:g}" stroke-linecap="round"/>'
    yield f'<line {where} stroke="{theme.ink}" stroke-width="{theme.leader_px:g}"/>'
    yield f'<circle cx="{tip[0]:.1f}" cy="{tip[1]:.1f}" r="5.5" fill="{theme.halo}"/>'
    yield f'<circle cx="{tip[0]:.1f}" cy="{tip[1]:.1f}" r="4" fill="{theme.ink}"/>'


def _tie(inset: DrawnInset, theme: Theme) -> Iterator[str]:
    (ax, ay), (bx, by) = inset.leader()
    for colour, extra in ((theme.halo, 4.0), (theme.ink, 0.0)):
        yield (
            f'<line x1="{ax:.1f}" y1="{ay:.1f}" x2="{bx:.1f}" y2="{by:.1f}" stroke="{colour}" '
            f'stroke-width="{theme.leader_px + extra:g}"/>'
        )
        yield (
            f'<circle cx="{inset.spot[0]:.1f}" cy="{inset.spot[1]:.1f}" r="{inset.spot_radius:.1f}" fill="none" '
            f'stroke="{colour}" stroke-width="{theme.leader_px + 0.6 + extra:g}"/>'
        )


def _ring(inset: DrawnInset, theme: Theme) -> Iterator[str]:
    x, y = inset.centre
    for colour, extra in ((theme.halo, 7.0), (theme.ink, 0.0)):
        yield (
            f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{inset.radius:.1f}" fill="none" stroke="{colour}" '
            f'stroke-width="{theme.ring_px + extra:g}"/>'
        )
    for arrow in inset.arrows:
        yield from _arrow(arrow, theme)
    yield _rounded(inset.title_box, 8.0, theme.paper, theme.ink, 2.0)
    yield _text(inset.title)


def _swatch(swatch: Swatch, theme: Theme) -> Iterator[str]:
    box = swatch.box
    if swatch.look == "move":
        x, y = box.left, box.middle[1]
        yield (
            f'<path d="M{x:.1f} {y - 4:.1f}h{box.width - 16:g}v-7l16 11l-16 11v-7h-{box.width - 16:g}z" fill="{theme.move}"/>'
        )
        return
    surface = theme.surfaces[swatch.look]
    yield _rounded(box, 6.0, surface.fill, surface.line, 1.6, surface.opacity)
    if swatch.look in ("clip-front", "clip-back"):
        letter = "F" if swatch.look == "clip-front" else "B"
        yield _letter(letter, box.middle, 19.0, theme.badge_ink(letter))


def _rounded(
    box: Box, radius: float, fill: str, stroke: str = "none", width: float = 0.0, opacity: float = 1.0
) -> str:
    return (
        f'<rect x="{box.left:.1f}" y="{box.top:.1f}" width="{box.width:.1f}" height="{box.height:.1f}" rx="{radius:g}" '
        f'fill="{fill}" fill-opacity="{opacity:g}" stroke="{stroke}" stroke-width="{width:g}"/>'
    )


def _grown(box: Box, by: float) -> Box:
    return Box(left=box.left - by, top=box.top - by, width=box.width + 2 * by, height=box.height + 2 * by)
