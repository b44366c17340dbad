"""Labels and dimension lines as SVG elements, drawn the same on every sheet."""

from __future__ import annotations

import math
from collections.abc import Iterator

from model3d.pictures.ink import letter, polygon, rounded, set_at, straight
from model3d.pictures.labelled.tags import LABEL_PAD, DrawnTag
from model3d.pictures.paper import Box, Px
from model3d.pictures.signs import sign
from model3d.pictures.theme import Theme
from model3d.wording import Catalogue


def dimension_line(start: Px, end: Px, theme: Theme) -> Iterator[str]:
    """A thin line with a slim head at each end."""
    yield straight(start, end, theme.ink, 1.4)
    yield dimension_head(end, start, theme)
    yield dimension_head(start, end, theme)


def dimension_head(tip: Px, tail: Px, theme: Theme) -> str:
    """The slim head of a dimension line that comes from ``tail``."""
    long = max(math.dist(tip, tail), 1e-9)
    x, y = (tip[0] - tail[0]) / long, (tip[1] - tail[1]) / long
    back = tip[0] - 12 * x, tip[1] - 12 * y
    return polygon((tip, (back[0] - 4 * y, back[1] + 4 * x), (back[0] + 4 * y, back[1] - 4 * x)), theme.ink)


def face_badge(face: str, at: Px, theme: Theme, words: Catalogue, radius: float = 15.0) -> Iterator[str]:
    """The letter of a clip's face, front or back, in its colour."""
    surface = theme.surfaces["clip-front" if face == "front" else "clip-back"]
    box = Box(left=at[0] - radius, top=at[1] - radius, width=2 * radius, height=2 * radius)
    yield rounded(box, 6.0, surface.fill, surface.line, 2.0)
    ink = theme.badge_ink("F" if face == "front" else "B")
    yield letter(words.say(f"letter.{face}"), at, radius * 1.3, ink)


def label(tag: DrawnTag, theme: Theme, words: Catalogue) -> Iterator[str]:
    """A tag's box with its sign or letter and its words."""
    box = tag.seat.box
    yield rounded(box, 8.0, theme.paper, theme.ink, 1.6)
    left = box.left + LABEL_PAD
    if tag.tag.face != "none":
        yield from face_badge(tag.tag.face, (left + 11, box.middle[1]), theme, words, 12.0)
    elif tag.tag.kind != "plain":
        yield sign(tag.tag.kind, (left + 10, box.middle[1]), 12.0, theme)
    at = tag.words_box()
    yield set_at(tag.block, at.left, at.top, theme.ink)
