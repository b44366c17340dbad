"""Bed and rug. Frame: x along the width, y from back to front, z up; ``size_mm`` is the box they fill."""

from __future__ import annotations

from collections.abc import Iterator

from model3d.geometry.placement import Vec3, at
from model3d.scene.furniture.seating import LEG_WOOD, leaned, leg
from model3d.scene.furniture.shapes import Cushion, Element, Look, block, shade

LINEN: Vec3 = (0.93, 0.91, 0.87)


def bed(size_mm: Vec3, colour: Vec3) -> Iterator[Element]:
    """A bed, its head at the back: upholstered head and frame, mattress, quilt, pillows and a throw over the foot."""
    width, depth, height = size_mm
    cloth, linen = Look(material="fabric", colour=colour), Look(material="fabric", colour=LINEN)
    for x in (90.0, width - 90.0):
        for y in (120.0, depth - 90.0):
            yield leg((x, y, 0.0), 130.0, Look(material="wood", colour=LEG_WOOD), top_mm=24.0)
    yield block(cloth, (width, 85.0, height - 60.0), (0.0, 0.0, 60.0), round_mm=30.0)
    yield block(cloth, (width, depth - 60.0, 190.0), (0.0, 60.0, 125.0), round_mm=25.0)
    yield block(linen, (width - 50.0, depth - 120.0, 190.0), (25.0, 85.0, 300.0), round_mm=60.0)
    quilt = Cushion(size_mm=(width + 16.0, depth - 640.0, 170.0), square=0.9)
    yield Element(shape=quilt, look=linen, placement=at(-8.0, 630.0, 372.0))
    throw = Cushion(size_mm=(width + 34.0, 560.0, 196.0), square=0.9)
    yield Element(
        shape=throw, look=Look(material="fabric", colour=shade(colour, 0.85)), placement=at(-17.0, depth - 760.0, 361.0)
    )
    each = (width - 120.0) / 2
    for k in (0, 1):
        size = (each - 20.0, 170.0, 430.0)
        place = leaned((60.0 + k * each + 10.0, 215.0, 478.0), 38.0)
        yield Element(shape=Cushion(size_mm=size, square=0.5), look=linen, placement=place)


def rug(size_mm: Vec3, colour: Vec3) -> Iterator[Element]:
    """A rug with a woven border."""
    width, depth, height = size_mm
    edge = min(width, depth) * 0.06
    yield block(Look(material="fabric", colour=colour), (width, depth, height - 1.0), round_mm=3.0)
    line = Look(material="fabric", colour=shade(colour, 0.72))
    for y in (edge, depth - 1.55 * edge):
        yield block(line, (width - 2 * edge, edge * 0.55, height), (edge, y, 0.0), round_mm=2.0)
    for x in (edge, width - 1.55 * edge):
        yield block(line, (edge * 0.55, depth - 3.1 * edge, height), (x, 1.55 * edge, 0.0), round_mm=2.0)
