"""Allowances, the angle and the pieces' marks on a corner sheet, each figure in its box."""

from __future__ import annotations

import math
from dataclasses import dataclass

from model3d.geometry.placement import Vec3
from model3d.pictures.corners.values import CornerSheet, Side
from model3d.pictures.labelled.tags import Picture
from model3d.pictures.labelled.words import Words, words_in
from model3d.pictures.lettering import set_text
from model3d.pictures.paper import Box, Px, within
from model3d.pictures.theme import Theme
from model3d.wording import Catalogue


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """A length between two points of the picture: its line with a head at each end, the lines that lead to it, and its
    figure in a box.
    """

    start: Px
    end: Px
    leads: tuple[tuple[Px, Px], ...]
    words: Words
    box: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class Boxed:
    """Words in a box, on the picture."""

    words: Words
    box: Box


def moved(at: Vec3, by: float, along: Vec3, out: float = 0.0, to_room: Vec3 = (0.0, 0.0, 0.0)) -> Vec3:
    """A point shifted along a wall and out of it."""
    x, y, z = (a + by * b + out * c for a, b, c in zip(at, along, to_room, strict=True))
    return (x, y, z)


def allowance(side: Side, sheet: CornerSheet, picture: Picture, words: Catalogue, theme: Theme) -> Dimension:
    """The dimension from the corner to the cut face: behind an internal corner's walls, before an external one's."""
    off, step = _off_mm(sheet), math.copysign(16.0, _off_mm(sheet))
    feet, ends = (sheet.corner_mm, side.face_mm), dimensioned_mm(side, sheet)
    over = [moved(end, 0.0, side.along, math.copysign(4.0, off), side.to_room) for end in ends]
    a, b = picture.pixel(ends[0]), picture.pixel(ends[1])
    text = f"{side.mark}: {words.fixed(side.allowance_mm, 1)}"
    block = set_text(text, theme.callout_px, 1e6, True)
    out = picture.pixel(moved(ends[0], 0.0, side.along, step, side.to_room))
    x, y = out[0] - a[0], out[1] - a[1]
    long = max(math.hypot(x, y), 1e-9)
    room = 12.0 + (abs(x) * block.width_px + abs(y) * block.height_px) / 2 / long
    at = (a[0] + b[0]) / 2 + x / long * room, (a[1] + b[1]) / 2 + y / long * room
    figure = boxed(text, at, picture.frame, theme)
    leads = tuple((picture.pixel(foot), picture.pixel(end)) for foot, end in zip(feet, over, strict=True))
    return Dimension(start=a, end=b, leads=leads, words=figure.words, box=figure.box)


def dimensioned_mm(side: Side, sheet: CornerSheet) -> tuple[Vec3, Vec3]:
    """The two ends of an allowance's dimension line."""
    one, other = (moved(at, 0.0, side.along, _off_mm(sheet), side.to_room) for at in (sheet.corner_mm, side.face_mm))
    return one, other


def _off_mm(sheet: CornerSheet) -> float:
    """How far from the wall dimension lines stand: behind it at an internal corner, before the pieces at an external
    one.
    """
    return -24.0 if sheet.internal else sheet.front_u_mm + 22.0


def angle(sheet: CornerSheet, picture: Picture, words: Catalogue, theme: Theme) -> Boxed:
    """The corner's angle in the room, in the middle of it."""
    out = [a + b for a, b in zip(sheet.sides[0].to_room, sheet.sides[1].to_room, strict=True)]
    long = max(math.hypot(out[0], out[1]), 1e-9)
    at = moved(sheet.corner_mm, 100.0 if sheet.internal else -46.0, (out[0] / long, out[1] / long, 0.0))
    degrees = sheet.angle_deg if sheet.internal else 360.0 - sheet.angle_deg
    return boxed(f"{words.fixed(degrees, 1)}°", picture.pixel(at), picture.frame, theme)


def piece_mark(side: Side, sheet: CornerSheet, picture: Picture, theme: Theme) -> Boxed:
    """The mark of a piece on it, as far from the corner as the picture shows it."""
    high = sheet.cut_at_mm[2]
    corner, inner = (sheet.corner_mm[0], sheet.corner_mm[1], high), picture.frame.grown(-44.0)
    furthest = round(min(400.0, side.reach_mm - 30.0))
    on_it = [moved(corner, float(t), side.along, sheet.front_u_mm / 2, side.to_room) for t in range(furthest, 0, -4)]
    places = [picture.pixel(at) for at in on_it]
    at = next((p for p in places if within(p, inner)), places[-1])
    return boxed(side.mark, at, picture.frame, theme)


def boxed(text: str, at: Px, frame: Box, theme: Theme) -> Boxed:
    """Words in a box about a point, or as near to it as the frame lets them."""
    block = set_text(text, theme.callout_px, 1e6, True)
    x = min(max(at[0], frame.left + block.width_px / 2 + 12), frame.right - block.width_px / 2 - 12)
    y = min(max(at[1], frame.top + block.height_px / 2 + 6), frame.bottom - block.height_px / 2 - 6)
    size = block.width_px + 12, block.height_px + 4
    box = Box(left=x - size[0] / 2, top=y - size[1] / 2, width=size[0], height=size[1])
    words = words_in(box, text, theme.callout_px, theme.ink, bold=True, anchor="middle", middle=True)
    return Boxed(words=words, box=box)
