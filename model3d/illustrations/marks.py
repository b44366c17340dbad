"""Marks drawn over a drawing: balloons, leaders, arrows, ticks and crosses, flags, grease dots. Page mm."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
import numpy.typing as npt

from model3d.illustrations.camera import Window
from model3d.illustrations.lettering import MIDDLE, size_mm, width_mm
from model3d.illustrations.picture import Face, Flag, Verdict
from model3d.illustrations.sheet import Area, Colour, Disc, LetterSize, Mark, Mm, Stroke, Words
from model3d.themes import Theme

DOT_MM = 0.55  # radius of the dot in which a leader ends inside an outline (ISO 128-2)
SHAFT_MM, HEAD_MM, HEAD_LONG_MM = 2.6, 6.4, 5.4
LEAST_ARROW_MM, MOST_ARROW_MM = 13.0, 34.0

Letter = tuple[Face, str]
"""A clip's face, and the letter that stands for it."""


def balloon_radius_mm(theme: Theme) -> float:
    """Radius of a balloon: room for two figures."""
    return 1.02 * theme.letters.balloon


def balloon(number: str, at: Mm, anchor: Mm, theme: Theme, *, letter: Letter | None = None) -> Iterator[Mark]:
    """A number in a circle, with a leader to a dot; beyond it the letter of a clip's face."""
    radius = balloon_radius_mm(theme)
    far = math.dist(at, anchor)
    way = tuple((a - b) / far for a, b in zip(at, anchor, strict=True)) if far > 1e-9 else (0.0, -1.0)
    yield from leader((at[0] - way[0] * radius, at[1] - way[1] * radius), anchor, "callout")
    yield Disc(centre=at, radius=radius, fill="paper", edge="medium", edge_colour="callout")
    yield centred(number, at, "balloon", "callout", theme, bold=True)
    if letter is not None:
        out = radius + badge_half_mm(theme) * (abs(way[0]) + abs(way[1]))
        yield from badge(letter, (at[0] + way[0] * out, at[1] + way[1] * out), theme)


def badge_half_mm(theme: Theme) -> float:
    """Half the side of the square with a clip's letter."""
    return 0.72 * theme.letters.body


def badge(letter: Letter, at: Mm, theme: Theme) -> Iterator[Mark]:
    """The letter of a clip's face in a square of its colour, as in step pictures."""
    face, text = letter
    half = badge_half_mm(theme)
    corners = tuple((at[0] + sx * half, at[1] + sy * half) for sx, sy in ((-1, -1), (1, -1), (1, 1), (-1, 1)))
    yield Area(rings=(corners,), fill=face, edge="medium", edge_colour="ink")
    yield centred(text, at, "body", "on-front" if face == "front" else "on-back", theme, bold=True)


def leader(start: Mm, anchor: Mm, colour: Colour) -> Iterator[Mark]:
    """A thin line that ends in a dot."""
    yield Stroke(points=(start, anchor), weight="thin", colour=colour)
    yield Disc(centre=anchor, radius=DOT_MM, fill=colour)


def centred(text: str, at: Mm, size: LetterSize, colour: Colour, theme: Theme, *, bold: bool = False) -> Words:
    """One line of text with its middle at a point."""
    down = MIDDLE * size_mm(theme, size)
    return Words(at=(at[0], at[1] + down), text=text, size=size, colour=colour, bold=bold, anchor="middle")


def arrow(start: Mm, end: Mm, label: str, theme: Theme, *, labels: bool) -> Iterator[Mark]:
    """An outlined arrow that ends at ``end``, with its number in a disc at its tail."""
    x, y = end[0] - start[0], end[1] - start[1]
    far = math.hypot(x, y)
    if far < 1e-6:
        return
    x, y = x / far, y / far
    long = min(max(far, LEAST_ARROW_MM), MOST_ARROW_MM)
    tail = (end[0] - x * long, end[1] - y * long)
    neck = (end[0] - x * HEAD_LONG_MM, end[1] - y * HEAD_LONG_MM)
    half, wing = SHAFT_MM / 2, HEAD_MM / 2
    side = (-y, x)

    def off(at: Mm, by: float) -> Mm:
        return at[0] + side[0] * by, at[1] + side[1] * by

    ring = (
        off(tail, half),
        off(neck, half),
        off(neck, wing),
        end,
        off(neck, -wing),
        off(neck, -half),
        off(tail, -half),
    )
    yield Area(rings=(ring,), fill="paper", edge="medium", edge_colour="move")
    if label and labels:
        radius = balloon_radius_mm(theme)
        at = (tail[0] - x * radius * 0.6, tail[1] - y * radius * 0.6)
        yield Disc(centre=at, radius=radius, fill="move", edge="medium", edge_colour="move")
        yield centred(label, at, "balloon", "on-move", theme, bold=True)


def verdict(kind: Verdict, at: Mm, size_mm_: float) -> Iterator[Mark]:
    """A tick in a circle, or a cross in a square: told apart by shape as well as by colour."""
    x, y = at
    half = size_mm_ / 2
    if kind == "right":
        yield Disc(centre=at, radius=half, fill="right")
        points = (
            (x - 0.5 * half, y + 0.02 * half),
            (x - 0.12 * half, y + 0.42 * half),
            (x + 0.54 * half, y - 0.4 * half),
        )
        yield Area(rings=(_thick(points, 0.2 * half),), fill="paper")
        return
    corners = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
    yield Area(rings=(corners,), fill="wrong")
    k = 0.5 * half
    yield Area(rings=(_thick(((x - k, y - k), (x + k, y + k)), 0.2 * half),), fill="paper")
    yield Area(rings=(_thick(((x + k, y - k), (x - k, y + k)), 0.2 * half),), fill="paper")


def _thick(points: tuple[Mm, ...], half: float) -> tuple[Mm, ...]:
    """The outline of a polyline drawn with a broad pen, mitred at its bends."""
    p = np.array(points)
    way = np.diff(p, axis=0)
    way = way / np.linalg.norm(way, axis=1, keepdims=True)
    side = np.column_stack([-way[:, 1], way[:, 0]])
    mitre = np.vstack([side[:1], side[:-1] + side[1:], side[-1:]])
    size = np.einsum("ij,ij->i", mitre, np.vstack([side[:1], side]))[:, None]
    out = half * mitre / size
    return tuple((float(x), float(y)) for x, y in np.vstack([p + out, (p - out)[::-1]]))


def flag(said: Flag, at: Mm, anchor: Mm, theme: Theme, letter: Letter | None) -> Iterator[Mark]:
    """Words in a box about ``at``, with a leader to a dot."""
    half_w, half_h = flag_size_mm(said, theme)
    x, y = anchor[0] - at[0], anchor[1] - at[1]
    reach = min(half_w / abs(x) if x else math.inf, half_h / abs(y) if y else math.inf, 1.0)
    yield from leader((at[0] + x * reach, at[1] + y * reach), anchor, said.colour)
    box = tuple((at[0] + sx * half_w, at[1] + sy * half_h) for sx, sy in ((-1, -1), (1, -1), (1, 1), (-1, 1)))
    yield Area(rings=(box,), fill="paper", edge="medium", edge_colour=said.colour)
    aside = badge_half_mm(theme) if letter is not None else 0.0
    if letter is not None:
        yield from badge(letter, (at[0] - half_w + aside, at[1]), theme)
    yield centred(said.text, (at[0] + aside, at[1]), "body", said.colour, theme, bold=True)


def flag_size_mm(said: Flag, theme: Theme) -> Mm:
    """Half width and half height of a flag's box."""
    letters = theme.letters.body
    badge_wide = badge_half_mm(theme) if said.face is not None else 0.0
    return width_mm(said.text, letters, bold=True) / 2 + 1.4 + badge_wide, max(0.85 * letters, badge_wide)


def dots(mask: npt.NDArray[np.bool_], window: Window, per_mm: float, *, apart_mm: float = 0.85) -> Iterator[Mark]:
    """Grease: dots in a triangular grid over a mask."""
    row = 0
    y = 0.3 * apart_mm
    while y < window.height:
        x = 0.3 * apart_mm + (row % 2) * apart_mm / 2
        while x < window.width:
            if mask[min(int(y * per_mm), mask.shape[0] - 1), min(int(x * per_mm), mask.shape[1] - 1)]:
                yield Disc(centre=(window.left + x, window.top + y), radius=0.24, fill="grease")
            x += apart_mm
        y += apart_mm * 0.866
        row += 1
