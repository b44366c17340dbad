"""Plant, floor lamp and picture. Frame: x along the width, y from back to front, z up."""

from __future__ import annotations

import math
from collections.abc import Iterator

from model3d.geometry.placement import Placement, Vec3, at, turned_about_z
from model3d.scene.furniture.shapes import Element, Leaf, Look, Rod, Turned, block

GOLDEN_DEG = 137.508
SOIL: Vec3 = (0.20, 0.15, 0.12)
GREENS: tuple[Vec3, ...] = ((0.17, 0.27, 0.15), (0.21, 0.31, 0.17), (0.14, 0.23, 0.14), (0.25, 0.33, 0.18))


def plant(size_mm: Vec3, colour: Vec3) -> Iterator[Element]:
    """A potted plant: a pot of the colour given, stems that lean outward, and broad leaves round each."""
    width, depth, height = size_mm
    pot = min(0.30 * height, 0.62 * min(width, depth))
    r = 0.46 * pot
    outline = (
        (0.0, 0.0),
        (0.74 * r, 0.0),
        (0.78 * r, 0.02 * pot),
        (r, 0.97 * pot),
        (0.985 * r, pot),
        (0.90 * r, pot),
        (0.86 * r, 0.90 * pot),
        (0.0, 0.90 * pot),
    )
    middle = (width / 2, depth / 2, 0.0)
    yield Element(shape=Turned(outline_mm=outline), look=Look(material="matt", colour=colour), placement=at(*middle))
    soil = ((0.0, 0.0), (0.86 * r, 0.0), (0.0, 0.02 * pot))
    yield Element(
        shape=Turned(outline_mm=soil), look=Look(material="matt", colour=SOIL), placement=at(*middle[:2], 0.905 * pot)
    )
    spread, reach = 0.5 * min(width, depth), height - pot
    stems = 7
    for k in range(stems):
        yield from _stem(k, stems, middle, pot, spread, reach)


def _stem(k: int, stems: int, middle: Vec3, pot: float, spread: float, reach: float) -> Iterator[Element]:
    turn = math.radians(k * GOLDEN_DEG)
    share = (k + 0.5) / stems
    lean, tall = spread * (0.10 + 0.42 * share), reach * (0.86 - 0.42 * share)
    c, s = math.cos(turn), math.sin(turn)
    x, y = middle[0] + 0.12 * spread * c, middle[1] + 0.12 * spread * s

    def along(t: float) -> Vec3:
        out = lean * t**1.7
        return (x + out * c, y + out * s, 0.88 * pot + tall * t)

    points = tuple(along(t / 6) for t in range(7))
    yield Element(
        shape=Rod(points_mm=points, radius_mm=7.0, end_radius_mm=3.0),
        look=Look(material="leaf", colour=(0.30, 0.36, 0.20)),
    )
    leaves = 6
    for j in range(leaves):
        t = 0.42 + 0.58 * j / (leaves - 1)
        away = math.degrees(turn) + (0.0 if j == leaves - 1 else j * GOLDEN_DEG + 40.0)
        size = spread * (0.62 - 0.10 * (j % 3)) * (0.85 + 0.15 * ((k + j) % 2))
        leaf = Leaf(
            length_mm=size,
            width_mm=0.46 * size,
            widest=0.48,
            rise_deg=30.0 + 34.0 * t - 6.0 * (j % 2),
            droop_deg=52.0 + 9.0 * (k % 3),
            fold_deg=15.0,
        )
        green = GREENS[(k + 2 * j) % len(GREENS)]
        yield Element(shape=leaf, look=Look(material="leaf", colour=green), placement=turned_about_z(away, along(t)))


def lamp(size_mm: Vec3, colour: Vec3) -> Iterator[Element]:
    """A floor lamp: foot, slim stem, a linen shade that is lit a little."""
    width, depth, height = size_mm
    dark = Look(material="satin", colour=(0.16, 0.16, 0.17))
    r = min(width, depth) / 2
    hood = 0.62 * r * 1.6
    foot = (
        (0.0, 0.0),
        (0.72 * r, 0.0),
        (0.70 * r, 12.0),
        (11.0, 22.0),
        (9.0, height - hood * 0.5),
        (0.0, height - hood * 0.5),
    )
    place = at(width / 2, depth / 2, 0.0)
    yield Element(shape=Turned(outline_mm=foot), look=dark, placement=place)
    outline = ((r, 0.0), (0.80 * r, hood), (0.785 * r, hood), (0.985 * r, 0.0))
    yield Element(
        shape=Turned(outline_mm=outline),
        look=Look(material="glow", colour=colour),
        placement=at(width / 2, depth / 2, height - hood),
    )


def picture(size_mm: Vec3, colour: Vec3) -> Iterator[Element]:
    """A framed picture: frame, white mount, and a quiet landscape of three bands under a disc."""
    width, depth, height = size_mm
    frame, mount = Look(material="wood", colour=colour), Look(material="matt", colour=(0.95, 0.94, 0.91))
    bar = 20.0
    for z in (0.0, height - bar):
        yield block(frame, (width, depth, bar), (0.0, 0.0, z), round_mm=2.0)
    for x in (0.0, width - bar):
        yield block(frame, (bar, depth, height - 2 * bar), (x, 0.0, bar), round_mm=2.0)
    yield block(mount, (width - 2 * bar, depth - 14.0, height - 2 * bar), (bar, 1.0, bar), round_mm=0.0)
    edge = bar + 0.11 * min(width, height)
    w, h = width - 2 * edge, height - 2 * edge
    bands: tuple[tuple[Vec3, float, float], ...] = (
        ((0.86, 0.82, 0.74), 0.48, 0.52),
        ((0.55, 0.63, 0.62), 0.26, 0.22),
        ((0.78, 0.56, 0.42), 0.0, 0.26),
    )
    for tone, start, share in bands:
        look = Look(material="matt", colour=tone)
        yield block(look, (w, 2.0, h * share), (edge, depth - 12.9, edge + h * start), round_mm=0.0)
    sun = Turned(outline_mm=((0.0, 0.0), (0.10 * h, 0.0), (0.10 * h, 1.2), (0.0, 1.2)))
    facing = Placement(
        origin_mm=(edge + 0.68 * w, depth - 10.8, edge + 0.74 * h),
        x_axis=(1.0, 0.0, 0.0),
        y_axis=(0.0, 0.0, -1.0),
        z_axis=(0.0, 1.0, 0.0),
    )
    yield Element(shape=sun, look=Look(material="matt", colour=(0.83, 0.63, 0.40)), placement=facing)
