"""Lines, boxes, letters and words as SVG elements, drawn the same on every sheet."""

from __future__ import annotations

import math
from collections.abc import Iterator

from model3d.pictures.labelled.tags import LABEL_PAD, DrawnTag
from model3d.pictures.lettering import TextBlock
from model3d.pictures.markup import element, words
from model3d.pictures.paper import Box, Px
from model3d.pictures.signs import sign
from model3d.pictures.theme import Theme


def placed_words(block: TextBlock, left: float, top: float, colour: str, anchor: str = "start") -> str:
    """A block of text with its top at ``top``; ``anchor`` start, middle or end says what ``left`` is of it."""
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


def leader(start: Px, tip: Px, theme: Theme) -> Iterator[str]:
    """A line from a label to a dot on what it speaks of, with a pale rim."""
    yield straight(start, tip, theme.halo, theme.leader_px + 3.5)
    yield straight(start, tip, theme.ink, theme.leader_px)
    yield element("circle", cx=tip[0], cy=tip[1], r=5.5, fill=theme.halo)
    yield element("circle", cx=tip[0], cy=tip[1], r=4.0, fill=theme.ink)


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
    corners = (tip, (back[0] - 4 * y, back[1] + 4 * x), (back[0] + 4 * y, back[1] - 4 * x))
    return element("polygon", points=" ".join(f"{a:.1f},{b:.1f}" for a, b in corners), fill=theme.ink)


def rounded(box: Box, radius: float, fill: str, stroke: str, width: float) -> str:
    """A box with round corners."""
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


def straight(start: Px, end: Px, colour: str, width: float, dash: str = "") -> str:
    """A straight line; ``dash`` as SVG has it."""
    ends: dict[str, str | float] = {"x1": start[0], "y1": start[1], "x2": end[0], "y2": end[1]}
    dashed: dict[str, str | float] = {"stroke_dasharray": dash} if dash else {}
    return element("line", **ends, **dashed, stroke=colour, stroke_width=width)


def face_badge(letter: str, at: Px, theme: Theme, radius: float = 15.0) -> Iterator[str]:
    """The letter of a clip's face in its colour."""
    surface = theme.surfaces["clip-front" if letter == "F" else "clip-back"]
    box = Box(left=at[0] - radius, top=at[1] - radius, width=2 * radius, height=2 * radius)
    yield rounded(box, 6.0, surface.fill, surface.line, 2.0)
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


def label(tag: DrawnTag, theme: Theme) -> Iterator[str]:
    """A tag's box with its sign or letter and its words."""
    box = tag.seat.box
    yield rounded(box, 8.0, theme.paper, theme.ink, 1.6)
    left = box.left + LABEL_PAD
    if tag.tag.face != "none":
        yield from face_badge("F" if tag.tag.face == "front" else "B", (left + 11, box.middle[1]), theme, 12.0)
        left += 30
    elif tag.tag.kind != "plain":
        yield sign(tag.tag.kind, (left + 10, box.middle[1]), 12.0, theme)
        left += 30
    yield placed_words(tag.block, left, box.middle[1] - tag.block.height_px / 2, theme.ink)
