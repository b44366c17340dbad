"""Pairs of solids whose overlap is known by geometry alone: how much, how deep, and where.

Depth is the diameter of the widest ball that fits in the overlap. Formulas are elementary (prisms, caps,
lenses, Pappus) unless a case names one.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import cadquery as cq

from model3d.geometry.placement import Placement, Vec3, at

HERE = Placement()
ALONG_X = Placement(x_axis=(0.0, 0.0, -1.0), y_axis=(0.0, 1.0, 0.0), z_axis=(1.0, 0.0, 0.0))  # z turned to x


@dataclass(frozen=True, kw_only=True)
class Answer:
    """``volume_mm3``, ``depth_mm`` and, where geometry leaves no choice, ``place_mm`` in the frame both stand
    in; all 0 or None for a pair that does not clash.
    """

    volume_mm3: float = 0.0
    depth_mm: float = 0.0
    place_mm: Vec3 | None = None
    deep_to_mm: float = 1e-3  # how near the depth must come


FREE = Answer()


@dataclass(frozen=True, kw_only=True)
class Case:
    """Two solids, where they stand, and the answer."""

    name: str
    a: Callable[[], cq.Solid]
    b: Callable[[], cq.Solid]
    b_at: Placement
    answer: Answer
    a_at: Placement = HERE


def box(x: float, y: float, z: float, corner: Vec3 = (0.0, 0.0, 0.0)) -> cq.Solid:
    """A box with its least corner given."""
    return cq.Solid.makeBox(x, y, z, cq.Vector(*corner))


def middle_box(x: float, y: float, z: float) -> cq.Solid:
    """A box about the origin."""
    return box(x, y, z, (-x / 2, -y / 2, -z / 2))


def rod(radius: float, length: float, start: float = 0.0) -> cq.Solid:
    """A cylinder along z."""
    return cq.Solid.makeCylinder(radius, length, cq.Vector(0, 0, start))


def ring(major: float, minor: float) -> cq.Solid:
    """A torus round z."""
    return cq.Solid.makeTorus(major, minor)


def ball(radius: float) -> cq.Solid:
    """A sphere about the origin."""
    return cq.Solid.makeSphere(radius, angleDegrees1=-90, angleDegrees2=90, angleDegrees3=360)


def cone(bottom: float, top: float, height: float) -> cq.Solid:
    """A frustum along z."""
    return cq.Solid.makeCone(bottom, top, height)


def prism(points: list[tuple[float, float]], height: float, start: float = 0.0) -> cq.Solid:
    """A plane outline carried up along z."""
    made = cq.Workplane().workplane(offset=start).polyline(points).close().extrude(height).val()
    assert isinstance(made, cq.Solid)
    return made


def less(solid: cq.Solid, *others: cq.Solid) -> cq.Solid:
    """A solid with others cut out of it."""
    cut = solid.cut(*others)
    (only,) = cut.Solids()
    return only


def drilled_plate(radius: float, size: float = 60.0, thick: float = 12.0) -> cq.Solid:
    """A plate about the origin with a round hole along z."""
    return less(middle_box(size, size, thick), rod(radius, 2 * thick, -thick))


def hexagon(across: float) -> list[tuple[float, float]]:
    """The corners of a regular hexagon, a corner on x; ``across`` from corner to corner."""
    return [
        (across / 2 * math.cos(k * math.pi / 3), across / 2 * math.sin(k * math.pi / 3)) for k in range(6)
    ]


def hook() -> cq.Solid:
    """A C of square bar: back along y, two arms along x."""
    return less(box(30, 40, 8), box(25, 24, 10, (8, 8, -1)))


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


def turned_z(deg: float, origin: Vec3 = (0.0, 0.0, 0.0)) -> Placement:
    """Turned about z, then moved."""
    c, s = math.cos(math.radians(deg)), math.sin(math.radians(deg))
    return Placement(origin_mm=origin, x_axis=(c, s, 0.0), y_axis=(-s, c, 0.0))


def turned_y(deg: float, origin: Vec3 = (0.0, 0.0, 0.0)) -> Placement:
    """Turned about y, then moved."""
    c, s = math.cos(math.radians(deg)), math.sin(math.radians(deg))
    return Placement(origin_mm=origin, x_axis=(c, 0.0, -s), z_axis=(s, 0.0, c))


def _squeezed_ring() -> Answer:
    """An O-ring of section 4 round a rod, in a bore that takes .3 of it: the segment beyond the bore's wall
    carried round (Pappus).
    """
    area, middle = segment_mm2(2.0, 0.3), segment_middle_mm(2.0, 0.3)
    return Answer(volume_mm3=area * 2 * math.pi * (22.0 + middle), depth_mm=0.3, deep_to_mm=0.01)


def _wedge() -> Answer:
    """A box that leans by half a degree into a plate: a right-angled triangle, its legs the box's foot and
    end; the widest circle in it.
    """
    foot, end, top = 40.0, 40.0 * math.tan(math.radians(0.5)), 40.0 / math.cos(math.radians(0.5))
    return Answer(volume_mm3=foot * end / 2 * 20.0, depth_mm=foot + end - top, deep_to_mm=0.005)


def _deep_cone() -> Answer:
    """A cone of 45 degrees .3 too deep: at each height the ring from the hole's radius r (5 to 16.7) to r +
    .3.
    """
    return Answer(
        volume_mm3=math.pi * (0.3 * (16.7**2 - 5**2) + 0.09 * 11.7),
        depth_mm=0.3 / math.sqrt(2),
        deep_to_mm=0.01,
    )


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


def obround_elbow() -> cq.Solid:
    """A quarter turn of an obround 30 x 12 about an axis 40 from its middle, by the revolution of its
    outline.
    """
    made = cq.Workplane("XZ").moveTo(40.0, 0.0).slot2D(30.0, 12.0).revolve(90.0, (0, 0, 0), (0, 1, 0)).val()
    assert isinstance(made, cq.Solid)
    return made


def edge_bar(up: float) -> cq.Solid:
    """A square bar along x, standing on its edge at height ``up`` (1) or hanging by it (-1)."""
    return cq.Solid(
        prism([(0.0, 0.0), (20.0, up * 20.0), (-20.0, up * 20.0)], 80.0, -40.0)
        .moved(cq.Location(cq.Plane(origin=(0, 0, 0), xDir=(0, 1, 0), normal=(1, 0, 0))))
        .wrapped
    )


CASES: tuple[Case, ...] = (
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
        name="an object that fills a void",
        a=lambda: less(box(100, 100, 100), box(80, 80, 80, (10, 10, 10))),
        b=lambda: box(80, 80, 80),
        b_at=at(10, 10, 10),
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
    Case(name="hooks in one another", a=hook, b=hook, b_at=turned_z(180, (38, 52, 0)), answer=FREE),
    Case(
        name="hooks that bite",
        a=hook,
        b=hook,
        b_at=turned_z(180, (37.5, 52, 0)),
        answer=Answer(volume_mm3=2 * 0.5 * 8 * 8, depth_mm=0.5),
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
        name="a wire through a box",
        a=lambda: box(30, 20, 10),
        b=lambda: rod(0.05, 60, -30),
        b_at=turned_y(90, (15, 10, 5)),
        answer=Answer(volume_mm3=math.pi * 0.0025 * 30, depth_mm=0.1, deep_to_mm=0.002),
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
