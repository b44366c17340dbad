"""Invented shapes for the ray-tracing tests: boxes, balls, sheets, and random rooms with walls and skirting."""

import math
import random

import numpy as np

from model3d.geometry.placement import Vec2, Vec3
from model3d.pictures.raytrace.cutaway import inward_normal
from model3d.pictures.raytrace.surface import Surface, TraceMesh
from model3d.pictures.raytrace.viewpoints import RoomPlan

WHITE = Surface(colour=(1.0, 1.0, 1.0))
GREY = Surface(colour=(0.5, 0.5, 0.5))
BLACK = Surface(colour=(0.0, 0.0, 0.0))

_BOX_FACES = ((0, 2, 1), (0, 3, 2), (4, 5, 6), (4, 6, 7), (0, 1, 5), (0, 5, 4), (1, 2, 6), (1, 6, 5))
_BOX_REST = ((2, 3, 7), (2, 7, 6), (3, 0, 4), (3, 4, 7))


def prism(base: tuple[Vec2, ...], low_mm: float, high_mm: float, surface: Surface, name: str = "", **more: object):
    """An upright prism over a four-cornered base, anticlockwise."""
    vertices = [(*p, low_mm) for p in base] + [(*p, high_mm) for p in base]
    return TraceMesh(
        vertices=np.array(vertices),
        triangles=np.array(_BOX_FACES + _BOX_REST, np.int32),
        surface=surface,
        origin_id=name,
        **more,
    )


def box(low: Vec3, high: Vec3, surface: Surface = GREY, name: str = "", **more: object) -> TraceMesh:
    """An upright box between two corners."""
    base = ((low[0], low[1]), (high[0], low[1]), (high[0], high[1]), (low[0], high[1]))
    return prism(base, low[2], high[2], surface, name, **more)


def sheet(corners: tuple[Vec3, Vec3, Vec3, Vec3], surface: Surface = GREY, name: str = "") -> TraceMesh:
    """A flat sheet without thickness, anticlockwise as seen from its front."""
    return TraceMesh(
        vertices=np.array(corners),
        triangles=np.array([[0, 1, 2], [0, 2, 3]], np.int32),
        surface=surface,
        origin_id=name,
    )


def ball(radius_mm: float, surface: Surface = WHITE, parts: int = 24) -> TraceMesh:
    """A ball about the origin."""
    rings = np.linspace(0, math.pi, parts + 1)
    turns = np.linspace(0, 2 * math.pi, 2 * parts, endpoint=False)
    vertices = [
        (math.sin(a) * math.cos(b) * radius_mm, math.sin(a) * math.sin(b) * radius_mm, math.cos(a) * radius_mm)
        for a in rings
        for b in turns
    ]
    n = len(turns)
    triangles = []
    for i in range(parts):
        for j in range(n):
            a, b, c, d = i * n + j, i * n + (j + 1) % n, (i + 1) * n + j, (i + 1) * n + (j + 1) % n
            triangles += [(a, c, d), (a, d, b)]
    return TraceMesh(vertices=np.array(vertices), triangles=np.array(triangles, np.int32), surface=surface, smooth=True)


def random_room(seed: int) -> RoomPlan:
    """A room of 2.6 to 6 m with no, one or two corners notched out or a slanted corner, turned by any angle."""
    draw = random.Random(seed)
    w, d = draw.uniform(3000, 6000), draw.uniform(2600, 5000)
    a, b = draw.uniform(0.25, 0.5) * w, draw.uniform(0.25, 0.5) * d
    kinds = [
        [(0, 0), (w, 0), (w, d), (0, d)],
        [(0, 0), (w, 0), (w, d - b), (w - a, d - b), (w - a, d), (0, d)],
        [(0, 0), (w - a, 0), (w - a, b), (w, b), (w, d), (0, d)],
        [(0, 0), (w, 0), (w, d - b), (w - a, d), (0, d)],
        [(0, 0), (w, 0), (w, d), (w * 0.7, d), (w * 0.7, d - b), (w * 0.35, d - b), (w * 0.35, d), (0, d)],
    ]
    outline = draw.choice(kinds)
    turn = math.radians(draw.uniform(0, 360))
    turned = tuple(
        (x * math.cos(turn) - y * math.sin(turn), x * math.sin(turn) + y * math.cos(turn)) for x, y in outline
    )
    runs = tuple((turned[k], turned[(k + 1) % len(turned)]) for k in range(len(turned)))
    return RoomPlan(outline=turned, wall_height_mm=draw.uniform(2250, 2700), runs=runs, wall_thickness_mm=120.0)


def walls(plan: RoomPlan, cut: tuple[int, ...] = (), stub_mm: float = 0.0) -> list[TraceMesh]:
    """The room's walls as prisms, square-ended and long enough to close at the corners; some cut to a stub."""
    made = []
    for k, (a, b) in enumerate(zip(plan.outline, (*plan.outline[1:], plan.outline[0]), strict=True)):
        base = _strip(plan, k, a, b, -plan.wall_thickness_mm, 0.0)
        height = stub_mm if k in cut else plan.wall_height_mm
        made.append(prism(base, 0.0, height, Surface(colour=(0.7, 0.7, 0.66)), f"wall {k}", caps_mm=(height,)))
    return made


def skirting(plan: RoomPlan) -> list[TraceMesh]:
    """A plain skirting along every wall, one mesh each, named by its wall."""
    white = Surface(colour=(0.88, 0.88, 0.87), kind="satin")
    ends = zip(plan.outline, (*plan.outline[1:], plan.outline[0]), strict=True)
    return [
        prism(_strip(plan, k, a, b, 6.0, 28.0), 8.0, plan.skirting_top_mm, white, f"run {k}")
        for k, (a, b) in enumerate(ends)
    ]


def floor(plan: RoomPlan) -> TraceMesh:
    """Boards under the whole room and past it."""
    xs, ys = [p[0] for p in plan.outline], [p[1] for p in plan.outline]
    wood = Surface(colour=(0.55, 0.36, 0.17), kind="wood-floor")
    return box((min(xs), min(ys), -20.0), (max(xs), max(ys), 0.0), wood, "floor")


def _strip(plan: RoomPlan, wall: int, a: Vec2, b: Vec2, near_mm: float, far_mm: float) -> tuple[Vec2, ...]:
    x, y = inward_normal(plan.outline, wall)
    return (
        (a[0] + near_mm * x, a[1] + near_mm * y),
        (b[0] + near_mm * x, b[1] + near_mm * y),
        (b[0] + far_mm * x, b[1] + far_mm * y),
        (a[0] + far_mm * x, a[1] + far_mm * y),
    )
