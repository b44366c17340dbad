"""Sofa, armchair and chair. Frame: x along the width, y from back to front, z up; ``size_mm`` is the box they fill."""

from __future__ import annotations

import math
from collections.abc import Iterator

from model3d.geometry.placement import Placement, Vec3, at, turned_about_z
from model3d.scene.furniture.shapes import Cushion, Element, Look, Turned, block, shade

LEG_MM = 130.0
SEAT_MM = 430.0
LEG_WOOD: Vec3 = (0.36, 0.25, 0.17)
ACCENT: Vec3 = (0.86, 0.80, 0.69)


def leg(at_mm: Vec3, height_mm: float, look: Look, *, top_mm: float = 20.0, foot_mm: float = 12.0) -> Element:
    """A round tapered leg that stands at ``at_mm``, radii at its top and foot."""
    outline = ((0.0, 0.0), (foot_mm, 0.0), (top_mm, height_mm), (0.0, height_mm))
    return Element(shape=Turned(outline_mm=outline), look=look, placement=at(*at_mm))


def leaned(at_mm: Vec3, lean_deg: float) -> Placement:
    """A frame at ``at_mm`` whose upright leans back (toward -y) by an angle about x."""
    c, s = math.cos(math.radians(lean_deg)), math.sin(math.radians(lean_deg))
    return Placement(origin_mm=at_mm, x_axis=(1.0, 0.0, 0.0), y_axis=(0.0, c, s), z_axis=(0.0, -s, c))


def sofa(size_mm: Vec3, colour: Vec3) -> Iterator[Element]:
    """A sofa on tapered legs: base, arms, back, seat and back cushions, two loose ones."""
    width, depth, height = size_mm
    cloth = Look(material="fabric", colour=colour)
    arm = min(150.0, width / 6)
    yield from _body(size_mm, arm, cloth)
    inner = width - 2 * arm
    seats = max(1, round(inner / 780.0))
    each = inner / seats
    for k in range(seats):
        x = arm + k * each
        seat = Cushion(size_mm=(each - 4.0, depth - 235.0, 175.0), square=0.84)
        yield Element(shape=seat, look=cloth, placement=at(x + 2.0, 225.0, SEAT_MM - 155.0))
        back = (each - 8.0, 185.0, height - SEAT_MM + 40.0)
        place = leaned((x + 4.0, 165.0, SEAT_MM - 15.0), 11.0)
        yield Element(shape=Cushion(size_mm=back, square=0.74), look=cloth, placement=place)
    if width > 1300.0:
        yield _loose(Look(material="fabric", colour=ACCENT), (arm + 30.0, 395.0, SEAT_MM - 5.0), 14.0)
        yield _loose(
            Look(material="fabric", colour=shade(colour, 0.62)), (width - arm - 470.0, 375.0, SEAT_MM - 5.0), -9.0
        )


def armchair(size_mm: Vec3, colour: Vec3) -> Iterator[Element]:
    """An armchair of the sofa's make, for one."""
    width, depth, height = size_mm
    cloth = Look(material="fabric", colour=colour)
    arm = min(125.0, width / 6)
    yield from _body(size_mm, arm, cloth)
    inner = width - 2 * arm
    seat = Cushion(size_mm=(inner - 4.0, depth - 215.0, 175.0), square=0.84)
    yield Element(shape=seat, look=cloth, placement=at(arm + 2.0, 205.0, SEAT_MM - 155.0))
    back = (inner - 8.0, 175.0, height - SEAT_MM + 50.0)
    place = leaned((arm + 4.0, 155.0, SEAT_MM - 15.0), 12.0)
    yield Element(shape=Cushion(size_mm=back, square=0.74), look=cloth, placement=place)


def _body(size_mm: Vec3, arm_mm: float, cloth: Look) -> Iterator[Element]:
    width, depth, height = size_mm
    wood = Look(material="wood", colour=LEG_WOOD)
    for x in (70.0, width - 70.0):
        for y in (70.0, depth - 70.0):
            yield leg((x, y, 0.0), LEG_MM + 5.0, wood)
    base = SEAT_MM - 150.0 - LEG_MM
    yield block(cloth, (width - 20.0, depth - 25.0, base), (10.0, 10.0, LEG_MM), round_mm=22.0)
    side = (arm_mm, depth, SEAT_MM + 170.0 - LEG_MM)
    for x in (0.0, width - arm_mm):
        yield block(cloth, side, (x, 0.0, LEG_MM), round_mm=45.0)
    yield block(
        cloth, (width - 2 * arm_mm + 40.0, 190.0, height - 45.0 - LEG_MM), (arm_mm - 20.0, 0.0, LEG_MM), round_mm=55.0
    )


def _loose(cloth: Look, at_mm: Vec3, turn_deg: float) -> Element:
    size = (400.0, 135.0, 385.0)
    place = turned_about_z(turn_deg, at_mm) @ leaned((0.0, 0.0, 0.0), 19.0)
    return Element(shape=Cushion(size_mm=size, square=0.6), look=cloth, placement=place)


def chair(size_mm: Vec3, colour: Vec3) -> Iterator[Element]:
    """A dining chair: four splayed legs, an upholstered seat, a curved back on two posts."""
    width, depth, height = size_mm
    wood = Look(material="wood", colour=LEG_WOOD)
    cloth = Look(material="fabric", colour=colour)
    seat = 440.0
    for x in (45.0, width - 45.0):
        yield leg((x, depth - 45.0, 0.0), seat, wood, top_mm=17.0)
        yield leg((x, 45.0, 0.0), seat, wood, top_mm=17.0)
    yield block(wood, (width - 30.0, depth - 30.0, 30.0), (15.0, 15.0, seat - 32.0), round_mm=8.0)
    yield Element(
        shape=Cushion(size_mm=(width, depth, 70.0), square=0.86), look=cloth, placement=at(0.0, 0.0, seat - 12.0)
    )
    tall = height - seat
    for x in (45.0, width - 45.0):
        post = Turned(outline_mm=((0.0, 0.0), (15.0, 0.0), (11.0, tall * 0.75), (0.0, tall * 0.75)))
        yield Element(shape=post, look=wood, placement=leaned((x, 35.0, seat), 8.0))
    back = (width - 10.0, 55.0, tall * 0.62)
    place = leaned((5.0, 0.0, seat + tall * 0.36), 8.0)
    yield Element(shape=Cushion(size_mm=back, square=0.82), look=cloth, placement=place)
