"""Scenes for these tests, and what is measured on them by code that does not read the scene's own frames."""

from __future__ import annotations

import math
from functools import cache

from hypothesis import strategies as st

from model3d.families.family import Family
from model3d.geometry.placement import Placement, Vec3, add, cross, dot, scale, subtract
from model3d.layout import Layout, Piece, lay_out
from model3d.parts.fittings import ElbowSpec, HoseSpec
from model3d.parts.profile import PieceSpec
from model3d.rooms import CheckedPlan
from model3d.scene import Part, Scene, compose
from tests.layout.every_joint import FAMILIES, EndFitting, every_joint_plan, family_of
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over

WAYS = [(name, sense) for name in FAMILIES for sense in (1, -1)]
UP: Vec3 = (0.0, 0.0, 1.0)
Points = list[tuple[float, float]]


@cache
def laid(name: str, sense: int, end_fitting: EndFitting = "return") -> tuple[Family, Layout, Scene]:
    """A family, and its run with every joint, laid out and placed."""
    family = family_of(name)
    return (family, *placed(every_joint_plan(sense, end_fitting), family))


def placed(plan: CheckedPlan, family: Family) -> tuple[Layout, Scene]:
    """A plan laid out and placed."""
    layout = lay_out(plan, family)
    return layout, compose(plan.room, layout, family)


def whole_run(points: Points, sense: int) -> CheckedPlan:
    """A run round all walls but the last."""
    ring, count = ring_of(points), len(points)
    return plan_of(ring, run_over(ring, 1 if sense > 0 else count - 1, count - 1, sense=sense))


@st.composite
def cut_corner_points(draw: st.DrawFn) -> Points:
    """A room with steps along its top edge, some of its corners cut off at a slant: 4 to 40 corners, elbows, bays and
    external corners, its walls long enough for most families' pieces.
    """
    square: Points = [(0.0, 0.0)]
    x, depth = 0.0, 0.0
    for _ in range(draw(st.integers(1, 5))):
        depth = draw(st.sampled_from([d for d in (2000.0, 3100.0, 4300.0) if d != depth]))
        width = draw(st.floats(900.0, 2600.0))
        square += [(x, depth), (x + width, depth)]
        x += width
    square = [square[0], (x, 0.0), *reversed(square[1:])]
    points: Points = []
    for i, here in enumerate(square):
        cuts = draw(st.sampled_from([None, None, (250.0, 250.0), (230.0, 290.0), (310.0, 240.0)]))
        if cuts is None:
            points.append(here)
            continue
        for there, cut in zip((square[i - 1], square[(i + 1) % len(square)]), cuts, strict=True):
            share = cut / math.dist(here, there)
            points.append((here[0] + share * (there[0] - here[0]), here[1] + share * (there[1] - here[1])))
    return points


def by_role(scene: Scene, *roles: str) -> list[Part]:
    """The parts of these roles."""
    return [p for p in scene.parts if p.role in roles]


def determinant(frame: Placement) -> float:
    """Of the frame's axes: +1 for a part that is turned and moved, -1 for one reflected."""
    return dot(cross(frame.x_axis, frame.y_axis), frame.z_axis)


def apart(a: Vec3, b: Vec3) -> float:
    """Distance of two points."""
    return math.dist(a, b)


def room_normal(scene: Scene, wall_id: str) -> Vec3:
    """Out of a wall into the room: from the wall's back, which lies at negative y, to its surface."""
    wall = scene.part(f"room/{wall_id}")
    return subtract(wall.placement.point((0.0, 1.0, 0.0)), wall.placement.point((0.0, 0.0, 0.0)))


def cut_faces(scene: Scene, mark: str) -> tuple[Vec3, Vec3]:
    """Where a placed piece's two cut faces meet the section's origin, the one at its own x = 0 first."""
    part = scene.part(f"{mark}/piece")
    assert isinstance(part.spec, PieceSpec)
    return part.placement.point((0.0, 0.0, 0.0)), part.placement.point((part.spec.length_mm, 0.0, 0.0))


def end_face(scene: Scene, piece: Piece, end: str) -> tuple[Vec3, Vec3]:
    """A point of the cut face at a piece's near (start) or far end, and the unit way from it into the piece.

    The near end is the one nearer the run's beginning along the wall.
    """
    low, high = cut_faces(scene, piece.mark)
    t = (piece.wall.direction[0], piece.wall.direction[1], 0.0)
    near, far = (low, high) if dot(subtract(high, low), t) * piece.sense > 0 else (high, low)
    face, other = (near, far) if end == "start" else (far, near)
    way = subtract(other, face)
    return face, scale(way, 1.0 / math.dist(face, other))


def long_leg_tip(part: Part) -> Vec3:
    """Where an elbow's long leg ends: its length back along x from the bend's beginning."""
    assert isinstance(part.spec, ElbowSpec)
    return part.placement.point((-part.spec.long_leg_mm, 0.0, 0.0))


def short_leg(part: Part) -> tuple[Vec3, Vec3]:
    """Where an elbow's short leg ends, and the way it points, carried round the bend about its centre."""
    assert isinstance(part.spec, ElbowSpec)
    r, turn = part.spec.bend_radius_mm, math.radians(part.spec.turn_deg)
    way = part.placement.vector((math.cos(turn), math.sin(turn), 0.0))
    end = part.placement.point((r * math.sin(turn), r - r * math.cos(turn), 0.0))
    return add(end, scale(way, part.spec.short_leg_mm)), way


def hose_end(part: Part) -> tuple[Vec3, Vec3]:
    """Where a hose ends in plan and the way it points there: straight, arc, straight, walked in a thousand steps."""
    spec = part.spec
    assert isinstance(spec, HoseSpec)
    x, y, steps = spec.straight_mm, 0.0, 1000
    turn = math.radians(spec.turn_deg)
    chord = 2.0 * spec.arc_radius_mm * math.sin(abs(turn) / steps / 2.0)
    for i in range(steps):
        heading = turn * (i + 0.5) / steps
        x, y = x + chord * math.cos(heading), y + chord * math.sin(heading)
    way = (math.cos(turn), math.sin(turn), 0.0)
    end = (x + spec.straight_mm * way[0], y + spec.straight_mm * way[1], 0.0)
    return part.placement.point(end), part.placement.vector(way)
