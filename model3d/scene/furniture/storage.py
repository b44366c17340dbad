"""Cabinet and bookcase. Frame: x along the width, y from back to front, z up; ``size_mm`` is the box they fill."""

from __future__ import annotations

from collections.abc import Iterator

from model3d.geometry.placement import Vec3, at
from model3d.scene.furniture.seating import LEG_WOOD, leg
from model3d.scene.furniture.shapes import Element, Look, Turned, block, shade

BOARD_MM = 22.0
BOOKS: tuple[Vec3, ...] = (
    (0.70, 0.43, 0.33),
    (0.30, 0.38, 0.45),
    (0.85, 0.80, 0.70),
    (0.44, 0.52, 0.44),
    (0.56, 0.46, 0.36),
    (0.78, 0.66, 0.45),
)
VASE: Vec3 = (0.55, 0.60, 0.58)


def cabinet(size_mm: Vec3, colour: Vec3) -> Iterator[Element]:
    """A sideboard on legs: a wooden body, fronts with shadow gaps and slim handles, a vase and books on top."""
    width, depth, height = size_mm
    wood, front = Look(material="wood", colour=colour), Look(material="wood", colour=shade(colour, 1.04))
    foot = min(140.0, height / 4)
    for x in (70.0, width - 70.0):
        for y in (60.0, depth - 60.0):
            yield leg((x, y, 0.0), foot + 2.0, Look(material="wood", colour=LEG_WOOD), top_mm=19.0)
    yield block(wood, (width, depth - 20.0, height - foot), (0.0, 0.0, foot), round_mm=5.0)
    doors = max(2, round(width / 480.0))
    each = (width - 2 * 12.0) / doors
    brass = Look(material="metal", colour=(0.72, 0.62, 0.44))
    for k in range(doors):
        x = 12.0 + k * each
        yield block(front, (each - 5.0, 20.0, height - foot - 24.0), (x + 2.5, depth - 20.0, foot + 12.0), round_mm=3.0)
        grip = x + (each - 40.0 if k % 2 == 0 else 40.0)
        yield block(brass, (9.0, 16.0, 150.0), (grip - 4.5, depth - 2.0, (height + foot) / 2 - 20.0), round_mm=4.0)
    yield _vase((width * 0.17, depth * 0.48, height), 1.0)
    yield from _pile((width * 0.66, depth * 0.28, height))


def bookcase(size_mm: Vec3, colour: Vec3) -> Iterator[Element]:
    """An open bookcase: sides, back, shelves, and books that fill part of each shelf."""
    width, depth, height = size_mm
    wood = Look(material="wood", colour=colour)
    for x in (0.0, width - BOARD_MM):
        yield block(wood, (BOARD_MM, depth, height), (x, 0.0, 0.0), round_mm=2.0)
    yield block(wood, (width - 2 * BOARD_MM, 10.0, height - 60.0), (BOARD_MM, 2.0, 60.0), round_mm=0.0)
    shelves = max(2, round(height / 340.0))
    pitch = (height - 60.0 - BOARD_MM) / shelves
    for k in range(shelves + 1):
        yield block(
            wood, (width - 2 * BOARD_MM, depth - 4.0, BOARD_MM), (BOARD_MM, 2.0, 60.0 + k * pitch), round_mm=2.0
        )
    for k in range(shelves):
        yield from _books(
            k, (BOARD_MM + 12.0, 25.0, 60.0 + k * pitch + BOARD_MM), width - 2 * BOARD_MM - 24.0, pitch - 60.0, depth
        )


def _books(shelf: int, at_mm: Vec3, width: float, height: float, depth: float) -> Iterator[Element]:
    """Books side by side over about two thirds of a shelf, from one side or the other; the same every time."""
    x, y, z = at_mm
    room = width * (0.52 + 0.13 * (shelf * 7 % 4))
    along, k = 0.0, shelf * 5
    start = x if shelf % 2 == 0 else x + width - room
    while along < room - 45.0:
        thick = 22.0 + (k * 13 % 5) * 6.0
        tall = height * (0.72 + 0.07 * (k * 11 % 5))
        deep = min(depth - 60.0, 165.0 + (k * 3 % 4) * 14.0)
        look = Look(material="satin", colour=shade(BOOKS[k * 5 % len(BOOKS)], 0.85 + 0.07 * (k % 3)))
        yield block(look, (thick - 1.0, deep, tall), (start + along, y, z), round_mm=2.0)
        along, k = along + thick, k + 1


def _pile(at_mm: Vec3) -> Iterator[Element]:
    x, y, z = at_mm
    for k, size in enumerate(((270.0, 200.0, 30.0), (240.0, 185.0, 24.0), (215.0, 160.0, 22.0))):
        lower = (0.0, 30.0, 54.0)[k]
        look = Look(material="satin", colour=BOOKS[(2 * k + 1) % len(BOOKS)])
        yield block(look, size, (x + 9.0 * k, y + 7.0 * k, z + lower), round_mm=2.0)


def _vase(at_mm: Vec3, size: float) -> Element:
    outline = (
        (0.0, 0.0),
        (52.0, 0.0),
        (78.0, 45.0),
        (88.0, 105.0),
        (74.0, 170.0),
        (38.0, 222.0),
        (30.0, 258.0),
        (40.0, 282.0),
        (34.0, 282.0),
        (25.0, 258.0),
        (0.0, 240.0),
    )
    scaled = tuple((r * size, h * size) for r, h in outline)
    return Element(shape=Turned(outline_mm=scaled), look=Look(material="satin", colour=VASE), placement=at(*at_mm))
