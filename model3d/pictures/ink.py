"""Lines, boxes, rings, letters and words as SVG elements: what every page and sheet is drawn with."""

from __future__ import annotations

from collections.abc import Iterator

from model3d.pictures.lettering import PlacedText, TextBlock
from model3d.pictures.markup import element, words
from model3d.pictures.paper import Box, Px
from model3d.pictures.theme import Theme


def written(text: PlacedText) -> str:
    """A block of text where it stands."""
    block, first = text.block, text.top + text.block.size_px
    lines = (
        element("tspan", words(line), x=text.left, y=first + k * block.leading_px)
        for k, line in enumerate(block.lines)
    )
    weight = "bold" if block.bold else "normal"
    return element(
        "text",
        *lines,
        font_size=block.size_px,
        fill=text.colour,
        font_weight=weight,
        text_anchor=text.anchor,
    )


def letter(text: str, at: Px, size_px: float, colour: str) -> str:
    """A letter or a number, bold, with the middle of its capitals at a point."""
    return element(
        "text",
        words(text),
        x=at[0],
        y=at[1] + size_px * 0.364,
        font_size=size_px,
        font_weight="bold",
        text_anchor="middle",
        fill=colour,
    )


def leader(start: Px, tip: Px, theme: Theme) -> Iterator[str]:
    """A line from a label to a dot on what it speaks of, with a pale rim."""
    yield straight(start, tip, theme.halo, theme.leader_px + 3.5)
    yield straight(start, tip, theme.ink, theme.leader_px)
    yield full(tip, 5.5, theme.halo)
    yield full(tip, 4.0, theme.ink)


def numbered(label: str, at: Px, radius: float, colour: str, on_colour: str) -> Iterator[str]:
    """A number on a disc."""
    yield full(at, radius, colour)
    yield letter(label, at, radius * 1.3, on_colour)


def straight(start: Px, end: Px, colour: str, width: float, dash: str = "") -> str:
    """A straight line; ``dash`` as SVG has it."""
    ends: dict[str, str | float] = {"x1": start[0], "y1": start[1], "x2": end[0], "y2": end[1]}
    dashed: dict[str, str | float] = {"stroke_dasharray": dash} if dash else {}
    return element("line", **ends, **dashed, stroke=colour, stroke_width=width)


def dashed(start: Px, end: Px, theme: Theme) -> Iterator[str]:
    """A dashed line on a pale one: where a part goes."""
    yield straight(start, end, theme.halo, 4.2)
    yield straight(start, end, theme.ink, 1.7, "7 5")


def rounded(box: Box, radius: float, fill: str, stroke: str = "none", width: float = 0.0, opacity: float = 1.0) -> str:
    """A box with round corners."""
    return element(
        "rect",
        x=box.left,
        y=box.top,
        width=box.width,
        height=box.height,
        rx=radius,
        fill=fill,
        fill_opacity=f"{opacity:g}",
        stroke=stroke,
        stroke_width=width,
    )


def full(at: Px, radius: float, colour: str) -> str:
    """A full circle."""
    return element("circle", cx=at[0], cy=at[1], r=radius, fill=colour)


def ring(at: Px, radius: float, colour: str, width: float) -> str:
    """A circle's line."""
    return element("circle", cx=at[0], cy=at[1], r=radius, fill="none", stroke=colour, stroke_width=width)


def polygon(points: tuple[Px, ...], fill: str, stroke: str = "none", width: float = 0.0) -> str:
    """A closed shape; its line, if it has one, goes round its corners."""
    at = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
    line: dict[str, str | float] = {"stroke": stroke, "stroke_width": width, "stroke_linejoin": "round"}
    return element("polygon", points=at, fill=fill, **(line if stroke != "none" else {}))


def set_at(block: TextBlock, left: float, top: float, colour: str) -> str:
    """A block of text with its top left corner at a point."""
    return written(PlacedText(block=block, left=left, top=top, colour=colour))
