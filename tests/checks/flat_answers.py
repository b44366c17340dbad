"""Pairs of flat-faced solids whose overlap is known by geometry alone: how much, how deep, and where.

Depth is the diameter of the widest ball that fits in the overlap.
"""

from __future__ import annotations

import math

from model3d.geometry.placement import Placement, at
from tests.checks.cases import FREE, Answer, Case
from tests.checks.known_solids import (
    HERE,
    box,
    edge_bar,
    hexagon,
    hook,
    less,
    middle_box,
    prism,
    turned_y,
    turned_z,
)


def _wedge() -> Answer:
    """A box that leans by half a degree into a plate: a right-angled triangle, its legs the box's foot and
    end; the widest circle in it.
    """
    foot, end, top = 40.0, 40.0 * math.tan(math.radians(0.5)), 40.0 / math.cos(math.radians(0.5))
    return Answer(volume_mm3=foot * end / 2 * 20.0, depth_mm=foot + end - top, deep_to_mm=0.005)


def _star() -> Answer:
    """A hexagonal bar in a hexagonal hole of its own size, turned by 30 degrees: the six corners that stand
    out; the ball in one, by its inscribed circle.
    """
    circum = 10.0
    apothem = circum * math.cos(math.pi / 6)
    high = circum - apothem
    base = 2 * high / math.tan(math.radians(30))  # a corner of 120 degrees
    side = math.hypot(high, base / 2)
    corner = base * high / 2
    return Answer(
        volume_mm3=6 * corner * 12.0, depth_mm=2 * (2 * corner) / (base + 2 * side), deep_to_mm=0.005
    )


def _corner_ball(a: float) -> float:
    """The widest ball in what two boxes' edges share when they cross square and ``a`` deep: a tetrahedron of
    four planes at 45 degrees.
    """
    return a / math.sqrt(2)


def _edges_cross() -> Answer:
    """Two bars, each on its edge, cross at right angles, .2 deep: a tetrahedron with two edges .4 long and
    square to each other, .2 apart.
    """
    return Answer(
        volume_mm3=0.4 * 0.4 * 0.2 / 6, depth_mm=_corner_ball(0.2), place_mm=(0.0, 0.0, 0.0), deep_to_mm=0.003
    )


FLAT: tuple[Case, ...] = (
    Case(
        name="boxes overlap by a corner",
        a=lambda: box(30, 20, 10),
        b=lambda: box(30, 20, 10),
        b_at=at(27, 15, 6),
        answer=Answer(volume_mm3=3 * 5 * 4, depth_mm=3, place_mm=(28.5, 17.5, 8.0)),
    ),
    Case(
        name="box turned on its corner over a plate",
        a=lambda: box(60, 60, 10),
        b=lambda: box(20, 20, 20),
        b_at=turned_z(45, (30, 30 - 10 * math.sqrt(2), 6)),
        answer=Answer(volume_mm3=400 * 4, depth_mm=4),
    ),
    Case(
        name="faces in one plane",
        a=lambda: box(30, 20, 10),
        b=lambda: box(12, 33, 10),
        b_at=at(30, -5, 0),
        answer=FREE,
    ),
    Case(
        name="faces in one plane, skew",
        a=lambda: box(30, 20, 10),
        b=lambda: box(12, 33, 10),
        b_at=turned_z(-30, (30, 20, 0)),
        answer=FREE,
    ),
    Case(
        name="an edge on an edge",
        a=lambda: box(30, 20, 10),
        b=lambda: box(30, 20, 10),
        b_at=at(30, 20, 0),
        answer=FREE,
    ),
    Case(
        name="a corner on a face",
        a=lambda: box(60, 60, 10),
        b=lambda: box(20, 20, 20),
        b_at=Placement(
            origin_mm=(30.0, 30.0, 10.0),
            x_axis=(math.sqrt(1 / 2), math.sqrt(1 / 6), math.sqrt(1 / 3)),
            y_axis=(-math.sqrt(1 / 2), math.sqrt(1 / 6), math.sqrt(1 / 3)),
            z_axis=(0.0, -math.sqrt(2 / 3), math.sqrt(1 / 3)),
        ),
        answer=FREE,
    ),
    Case(
        name="a hair apart",
        a=lambda: box(30, 20, 10),
        b=lambda: box(30, 20, 10),
        b_at=turned_z(0, (30.005, 3, 0)),
        answer=FREE,
    ),
    Case(
        name="identical boxes",
        a=lambda: box(30, 20, 10),
        b=lambda: box(30, 20, 10),
        b_at=HERE,
        answer=Answer(volume_mm3=6000, depth_mm=10, place_mm=(15, 10, 5)),
    ),
    Case(
        name="an object that fills a void",
        a=lambda: less(box(100, 100, 100), box(80, 80, 80, (10, 10, 10))),
        b=lambda: box(80, 80, 80),
        b_at=at(10, 10, 10),
        answer=FREE,
    ),
    Case(
        name="in the mouth of a channel",
        a=lambda: less(box(60, 40, 30), box(60, 20, 20, (0, 10, 10))),
        b=lambda: box(40, 16, 16),
        b_at=at(10, 12, 12),
        answer=FREE,
    ),
    Case(
        name="nested in the wall of a channel",
        a=lambda: less(box(60, 40, 30), box(60, 20, 20, (0, 10, 10))),
        b=lambda: box(40, 6, 16),
        b_at=at(10, 2, 12),
        answer=Answer(volume_mm3=40 * 6 * 16, depth_mm=6),
    ),
    Case(
        name="bars cross with no corner inside",
        a=lambda: middle_box(100, 10, 10),
        b=lambda: middle_box(10, 100, 6),
        b_at=at(0, 0, 3),
        answer=Answer(volume_mm3=10 * 10 * 5, depth_mm=5, place_mm=(0, 0, 2.5)),
    ),
    Case(
        name="five hundredths",
        a=lambda: box(30, 20, 10),
        b=lambda: box(30, 40, 30),
        b_at=at(29.95, -10, -10),
        answer=Answer(volume_mm3=0.05 * 200, depth_mm=0.05, place_mm=(29.975, 10, 5)),
    ),
    Case(name="hooks in one another", a=hook, b=hook, b_at=turned_z(180, (38, 52, 0)), answer=FREE),
    Case(
        name="hooks that bite",
        a=hook,
        b=hook,
        b_at=turned_z(180, (37.5, 52, 0)),
        answer=Answer(volume_mm3=2 * 0.5 * 8 * 8, depth_mm=0.5),
    ),
    Case(
        name="a bar in its hexagon",
        a=lambda: less(middle_box(60, 60, 12), prism(hexagon(20), 20, -10)),
        b=lambda: prism(hexagon(20), 40, -20),
        b_at=HERE,
        answer=FREE,
    ),
    Case(
        name="a bar turned in its hexagon",
        a=lambda: less(middle_box(60, 60, 12), prism(hexagon(20), 20, -10)),
        b=lambda: prism(hexagon(20), 40, -20),
        b_at=turned_z(30),
        answer=_star(),
    ),
    Case(
        name="a foil through a box",
        a=lambda: box(30, 20, 10),
        b=lambda: middle_box(0.1, 60, 60),
        b_at=turned_y(30, (15, 10, 5)),
        answer=Answer(
            volume_mm3=0.1 * 20 * 10 / math.cos(math.radians(30)), depth_mm=0.1, place_mm=(15, 10, 5)
        ),
    ),
    Case(
        name="a box leans into a plate",
        a=lambda: box(100, 100, 10),
        b=lambda: box(40, 20, 30),
        b_at=turned_y(0.5, (30, 40, 10)),
        answer=_wedge(),
    ),
    Case(
        name="edges cross",
        a=lambda: edge_bar(-1),
        b=lambda: edge_bar(1),
        a_at=at(0, 0, 0.1),
        b_at=turned_z(90, (0, 0, -0.1)),
        answer=_edges_cross(),
    ),
    Case(
        name="edges cross, touching",
        a=lambda: edge_bar(-1),
        b=lambda: edge_bar(1),
        b_at=turned_z(90),
        answer=FREE,
    ),
)
