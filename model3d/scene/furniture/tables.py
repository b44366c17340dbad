"""Tables and the desk. Frame: x along the width, y from back to front, z up; ``size_mm`` is the box they fill."""

from __future__ import annotations

from collections.abc import Iterator

from model3d.geometry.placement import Vec3, at
from model3d.scene.furniture.seating import leg
from model3d.scene.furniture.shapes import Element, Look, Turned, block, shade

TOP_MM = 32.0
CERAMIC: Vec3 = (0.90, 0.88, 0.84)
PAGES: Vec3 = (0.93, 0.92, 0.88)


def table(size_mm: Vec3, colour: Vec3) -> Iterator[Element]:
    """A dining table: top, aprons, four tapered legs, a bowl on it."""
    width, depth, height = size_mm
    wood = Look(material="wood", colour=colour)
    yield block(wood, (width, depth, TOP_MM), (0.0, 0.0, height - TOP_MM), round_mm=6.0)
    under = height - TOP_MM
    for y in (60.0, depth - 85.0):
        yield block(wood, (width - 200.0, 25.0, 80.0), (100.0, y, under - 80.0), round_mm=2.0)
    for x in (60.0, width - 85.0):
        yield block(wood, (25.0, depth - 200.0, 80.0), (x, 100.0, under - 80.0), round_mm=2.0)
    for x in (80.0, width - 80.0):
        for y in (80.0, depth - 80.0):
            yield leg((x, y, 0.0), under, wood, top_mm=32.0, foot_mm=20.0)
    yield _bowl((width / 2, depth / 2, height), 150.0)


def low_table(size_mm: Vec3, colour: Vec3) -> Iterator[Element]:
    """A low table: a rounded top, a shelf under it, books and a small bowl."""
    width, depth, height = size_mm
    wood = Look(material="wood", colour=colour)
    yield block(wood, (width, depth, 28.0), (0.0, 0.0, height - 28.0), round_mm=9.0)
    for x in (70.0, width - 70.0):
        for y in (70.0, depth - 70.0):
            yield leg((x, y, 0.0), height - 28.0, wood, top_mm=22.0, foot_mm=15.0)
    yield block(wood, (width - 150.0, depth - 150.0, 16.0), (75.0, 75.0, 130.0), round_mm=4.0)
    for k, (size, tone) in enumerate((((260.0, 190.0, 26.0), 0.50), ((235.0, 170.0, 20.0), 0.85))):
        x, y, z = width * 0.16 + 8.0 * k, depth * 0.30 + 6.0 * k, height + 26.0 * k
        yield block(Look(material="satin", colour=shade((0.46, 0.56, 0.62), tone)), size, (x, y, z), round_mm=2.0)
    yield _bowl((width * 0.70, depth * 0.5, height), 105.0)


def desk(size_mm: Vec3, colour: Vec3) -> Iterator[Element]:
    """A desk: top, slim metal legs, a drawer box, a lamp and a pile of books."""
    width, depth, height = size_mm
    wood, dark = Look(material="wood", colour=colour), Look(material="satin", colour=(0.17, 0.18, 0.19))
    yield block(wood, (width, depth, 26.0), (0.0, 0.0, height - 26.0), round_mm=4.0)
    for x in (30.0, width - 55.0):
        for y in (30.0, depth - 55.0):
            yield block(dark, (25.0, 25.0, height - 26.0), (x, y, 0.0), round_mm=3.0)
        yield block(dark, (25.0, depth - 110.0, 25.0), (x, 55.0, 90.0), round_mm=3.0)
    yield block(wood, (width * 0.42, depth - 120.0, 110.0), (width * 0.5, 60.0, height - 136.0), round_mm=3.0)
    yield block(dark, (110.0, 8.0, 10.0), (width * 0.71 - 55.0, depth - 62.0, height - 80.0), round_mm=3.0)
    for k, tone in enumerate((0.9, 0.55, 0.75)):
        yield block(
            Look(material="satin", colour=shade((0.62, 0.50, 0.42), tone)),
            (230.0 - 12.0 * k, 165.0, 24.0),
            (width * 0.12, depth * 0.25 + 5.0 * k, height + 24.0 * k),
            round_mm=2.0,
        )
    foot = ((0.0, 0.0), (75.0, 0.0), (70.0, 14.0), (8.0, 20.0), (8.0, 330.0), (0.0, 330.0))
    hood = ((125.0, 0.0), (70.0, 120.0), (0.0, 124.0), (0.0, 118.0), (66.0, 114.0), (119.0, 0.0))
    x, y = width * 0.84, depth * 0.32
    yield Element(shape=Turned(outline_mm=foot), look=dark, placement=at(x, y, height))
    yield Element(
        shape=Turned(outline_mm=hood), look=Look(material="satin", colour=CERAMIC), placement=at(x, y, height + 285.0)
    )


def _bowl(at_mm: Vec3, radius_mm: float) -> Element:
    r = radius_mm
    outline = (
        (0.0, 0.0),
        (0.42 * r, 0.0),
        (0.46 * r, 0.06 * r),
        (0.82 * r, 0.28 * r),
        (r, 0.56 * r),
        (0.96 * r, 0.57 * r),
        (0.78 * r, 0.32 * r),
        (0.40 * r, 0.13 * r),
        (0.0, 0.10 * r),
    )
    return Element(shape=Turned(outline_mm=outline), look=Look(material="satin", colour=CERAMIC), placement=at(*at_mm))
