"""How much of a room's skirting an eye sees: the plan numbers of a room, its runs as points, and the share in sight."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from model3d.geometry.placement import Vec2, Vec3
from model3d.pictures.raytrace.cutaway import Block, inside, is_seen
from model3d.pictures.raytrace.view import View

_SAMPLE_MM = 120.0

OFF_WALL_MM = 25.0
"""How far before the wall line a run's front is looked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Viewpoint:
    """A view with the walls to cut (numbers), the height they are cut to, and the share (0 to 1) of the skirting
    looked for that is seen."""

    view: View
    cut: tuple[int, ...]
    stub_mm: float
    seen_share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomPlan:
    """What a viewpoint is chosen from: outline (plan points, anticlockwise), wall height and thickness, the runs
    (each a polyline of plan points along the walls), the skirting's top, and blocks that may stand in the way.

    Raises ValueError when the outline has fewer than three corners or goes round clockwise.
    """

    outline: tuple[Vec2, ...]
    wall_height_mm: float
    runs: tuple[tuple[Vec2, ...], ...]
    skirting_top_mm: float = 150.0
    wall_thickness_mm: float = 150.0
    blocks: tuple[Block, ...] = ()

    def __post_init__(self) -> None:
        n = len(self.outline)
        if n < 3:
            raise ValueError(f"an outline of {n} corners encloses nothing")
        area = sum(
            a[0] * b[1] - b[0] * a[1] for a, b in zip(self.outline, (*self.outline[1:], self.outline[0]), strict=True)
        )
        if area <= 0:
            raise ValueError("the outline goes round clockwise: its corners must be listed anticlockwise")

    def heights_mm(self, cut: Sequence[int], stub_mm: float) -> tuple[float, ...]:
        """Height of every wall when some are cut."""
        return tuple(stub_mm if i in cut else self.wall_height_mm for i in range(len(self.outline)))


@dataclass(frozen=True, slots=True)
class Sample:
    """A point on a run's front, the unit plan normal it faces, and the length it stands for."""

    place: Vec3
    facing: Vec2
    length_mm: float


def samples_of(plan: RoomPlan) -> list[Sample]:
    """Points all along the runs, at four fifths of the skirting's height, just before the wall."""
    found = []
    for run in plan.runs:
        for a, b in pairwise(run):
            length = math.dist(a, b)
            if length < 1.0:
                continue
            t = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
            n = _toward_room(plan, a, b, t)
            count = max(1, round(length / _SAMPLE_MM))
            for k in range(count):
                s = (k + 0.5) / count
                x = a[0] + s * (b[0] - a[0]) + OFF_WALL_MM * n[0]
                y = a[1] + s * (b[1] - a[1]) + OFF_WALL_MM * n[1]
                found.append(Sample((x, y, plan.skirting_top_mm * 0.8), n, length / count))
    return found


def _toward_room(plan: RoomPlan, a: Vec2, b: Vec2, t: Vec2) -> Vec2:
    left = (-t[1], t[0])
    middle = ((a[0] + b[0]) / 2 + 2 * left[0], (a[1] + b[1]) / 2 + 2 * left[1])
    return left if inside(middle, plan.outline) else (-left[0], -left[1])


def share_seen(plan: RoomPlan, samples: Sequence[Sample], eye: Vec3, heights: Sequence[float]) -> tuple[float, float]:
    """Share of the samples' length that faces the eye and is seen; and that weighted by how squarely it faces."""
    whole = seen = square = 0.0
    for sample in samples:
        whole += sample.length_mm
        dx, dy = eye[0] - sample.place[0], eye[1] - sample.place[1]
        facing = (dx * sample.facing[0] + dy * sample.facing[1]) / max(math.hypot(dx, dy), 1e-9)
        if facing > 0 and is_seen(sample.place, eye, plan.outline, heights, plan.blocks):
            seen += sample.length_mm
            square += sample.length_mm * facing
    return (seen / whole, square / whole) if whole else (0.0, 0.0)
