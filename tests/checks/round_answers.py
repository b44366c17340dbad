"""Pairs with round solids whose overlap is known by geometry alone: rods, balls, cones, rings, what holds them.

Formulas are elementary (caps, lenses, segments, Pappus) unless a case names one.
"""

from __future__ import annotations

import math

import cadquery as cq

from model3d.geometry.placement import Placement, at
from tests.checks.cases import FREE, Answer, Case
from tests.checks.known_solids import (
    ALONG_X,
    HERE,
    ball,
    box,
    cone,
    drilled_plate,
    less,
    middle_box,
    obround_elbow,
    ring,
    rod,
    turned_y,
)


def cap_mm3(radius: float, height: float) -> float:
    """A ball's cap."""
    return math.pi * height**2 * (3 * radius - height) / 3


def segment_mm2(radius: float, height: float) -> float:
    """A circle's segment."""
    angle = math.acos((radius - height) / radius)
    return radius**2 * (angle - math.sin(angle) * math.cos(angle))


def segment_middle_mm(radius: float, height: float) -> float:
    """How far a segment's centre of area is from its circle's centre."""
    angle = math.acos((radius - height) / radius)
    return 2 * radius**3 * math.sin(angle) ** 3 / 3 / segment_mm2(radius, height)


def _squeezed_ring() -> Answer:
    """An O-ring of section 4 round a rod, in a bore that takes .3 of it: the segment beyond the bore's wall
    carried round (Pappus).
    """
    area, middle = segment_mm2(2.0, 0.3), segment_middle_mm(2.0, 0.3)
    return Answer(volume_mm3=area * 2 * math.pi * (22.0 + middle), depth_mm=0.3, deep_to_mm=0.01)


def _deep_cone() -> Answer:
    """A cone of 45 degrees .3 too deep: at each height the ring from the hole's radius r (5 to 16.7) to r +
    .3.
    """
    return Answer(
        volume_mm3=math.pi * (0.3 * (16.7**2 - 5**2) + 0.09 * 11.7),
        depth_mm=0.3 / math.sqrt(2),
        deep_to_mm=0.01,
    )


ROUND: tuple[Case, ...] = (
    Case(
        name="identical rods",
        a=lambda: rod(5, 40),
        b=lambda: rod(5, 40),
        b_at=HERE,
        answer=Answer(volume_mm3=math.pi * 25 * 40, depth_mm=10, place_mm=(0, 0, 20), deep_to_mm=0.05),
    ),
    Case(
        name="nested without crossing",
        a=lambda: box(100, 100, 100),
        b=lambda: cone(10, 15, 20),
        b_at=at(50, 50, 40),
        answer=Answer(volume_mm3=9948.377, depth_mm=20, deep_to_mm=0.05),
    ),
    Case(
        name="an elbow of obround 30 x 12 at radius 40 swallowed whole",
        a=lambda: box(200, 200, 200),
        b=obround_elbow,
        b_at=at(90, 90, 90),
        answer=Answer(volume_mm3=20677.795, depth_mm=12, deep_to_mm=0.05),
    ),
    Case(
        name="an object in a void",
        a=lambda: less(box(100, 100, 100), box(80, 80, 80, (10, 10, 10))),
        b=lambda: ball(20),
        b_at=at(50, 50, 50),
        answer=FREE,
    ),
    Case(
        name="an object too big for a void",
        a=lambda: less(box(100, 100, 100), ball(30).moved(cq.Location((50, 50, 50)))),
        b=lambda: ball(30.5),
        b_at=at(50, 50, 50),
        answer=Answer(volume_mm3=4 / 3 * math.pi * (30.5**3 - 30**3), depth_mm=0.5, deep_to_mm=0.03),
    ),
    Case(
        name="a pipe through a plate",
        a=lambda: box(100, 100, 10),
        b=lambda: rod(7.5, 60, -20),
        b_at=at(40, 60, 0),
        answer=Answer(volume_mm3=math.pi * 7.5**2 * 10, depth_mm=10, place_mm=(40, 60, 5), deep_to_mm=0.05),
    ),
    Case(
        name="a pipe through three plates",
        a=lambda: less(box(60, 60, 50), box(60, 70, 15, (5, -5, 10)), box(60, 70, 15, (5, -5, 30))),
        b=lambda: rod(4, 90, -20),
        b_at=at(40, 30, 0),
        answer=Answer(volume_mm3=math.pi * 16 * 20, depth_mm=8, deep_to_mm=0.05),
    ),
    Case(
        name="two rods cross (Steinmetz)",
        a=lambda: rod(10, 60, -30),
        b=lambda: rod(10, 60, -30),
        b_at=ALONG_X,
        answer=Answer(volume_mm3=5333.333, depth_mm=20, place_mm=(0, 0, 0), deep_to_mm=0.1),
    ),
    Case(
        name="a peg of the hole's diameter",
        a=lambda: drilled_plate(8),
        b=lambda: rod(8, 40, -20),
        b_at=HERE,
        answer=FREE,
    ),
    Case(
        name="a peg .02 slack",
        a=lambda: drilled_plate(8),
        b=lambda: rod(7.99, 40, -20),
        b_at=HERE,
        answer=FREE,
    ),
    Case(
        name="a peg .1 too thick",
        a=lambda: drilled_plate(8),
        b=lambda: rod(8.05, 40, -20),
        b_at=HERE,
        answer=Answer(volume_mm3=math.pi * (8.05**2 - 64) * 12, depth_mm=0.05, deep_to_mm=0.005),
    ),
    Case(
        name="a peg beside its hole",
        a=lambda: drilled_plate(8),
        b=lambda: rod(3, 40, -20),
        b_at=at(20, 0, 0),
        answer=Answer(volume_mm3=math.pi * 9 * 12, depth_mm=6, place_mm=(20, 0, 0), deep_to_mm=0.03),
    ),
    Case(
        name="an O-ring on its groove's floor",
        a=lambda: rod(20, 30, -15),
        b=lambda: ring(22, 2),
        b_at=HERE,
        answer=FREE,
    ),
    Case(
        name="an O-ring squeezed by its bore",
        a=lambda: less(rod(40, 30, -15), rod(23.7, 40, -20)),
        b=lambda: ring(22, 2),
        b_at=HERE,
        answer=_squeezed_ring(),
    ),
    Case(
        name="rings linked like a chain",
        a=lambda: ring(20, 3),
        b=lambda: ring(20, 3),
        b_at=Placement(origin_mm=(20.0, 0.0, 0.0), y_axis=(0.0, 0.0, 1.0), z_axis=(0.0, -1.0, 0.0)),
        answer=FREE,
    ),
    Case(
        name="two balls",
        a=lambda: ball(20),
        b=lambda: ball(20),
        b_at=at(38, 0, 0),
        answer=Answer(volume_mm3=2 * cap_mm3(20, 1), depth_mm=2, place_mm=(19, 0, 0), deep_to_mm=0.03),
    ),
    Case(name="balls that touch", a=lambda: ball(20), b=lambda: ball(15), b_at=at(21, 28, 0), answer=FREE),
    Case(
        name="a ball on a plate",
        a=lambda: box(60, 60, 10),
        b=lambda: ball(12),
        b_at=at(30, 30, 22),
        answer=FREE,
    ),
    Case(
        name="a ball sunk in a plate",
        a=lambda: box(60, 60, 10),
        b=lambda: ball(12),
        b_at=at(30, 30, 20.5),
        answer=Answer(volume_mm3=cap_mm3(12, 1.5), depth_mm=1.5, deep_to_mm=0.03),
    ),
    Case(
        name="a rod lies on a plate",
        a=lambda: box(80, 60, 10),
        b=lambda: rod(6, 60),
        b_at=ALONG_X.moved((10, 30, 16)),
        answer=FREE,
    ),
    Case(
        name="a rod lies .08 in a plate",
        a=lambda: box(80, 60, 10),
        b=lambda: rod(6, 60),
        b_at=ALONG_X.moved((10, 30, 15.92)),
        answer=Answer(volume_mm3=segment_mm2(6, 0.08) * 60, depth_mm=0.08, deep_to_mm=0.005),
    ),
    Case(
        name="a cone in its countersink",
        a=lambda: less(middle_box(60, 60, 12), cone(5, 17, 12).moved(cq.Location((0, 0, -6)))),
        b=lambda: cone(5, 17, 12),
        b_at=at(0, 0, -6),
        answer=FREE,
    ),
    Case(
        name="a cone .3 too deep in its countersink",
        a=lambda: less(middle_box(60, 60, 12), cone(5, 17, 12).moved(cq.Location((0, 0, -6)))),
        b=lambda: cone(5, 17, 12),
        b_at=at(0, 0, -6.3),
        answer=_deep_cone(),
    ),
    Case(
        name="a wire through a box",
        a=lambda: box(30, 20, 10),
        b=lambda: rod(0.05, 60, -30),
        b_at=turned_y(90, (15, 10, 5)),
        answer=Answer(volume_mm3=math.pi * 0.0025 * 30, depth_mm=0.1, deep_to_mm=0.002),
    ),
)
