"""A wall as someone who stands in the room sees it: level, the lens shifted down to the skirting, nothing in the way.

Pure numbers from the room's outline, its runs and what stands in it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from model3d.geometry.placement import Vec2, Vec3
from model3d.pictures.raytrace.cutaway import crossing, distance_to_walls, inside, inward_normal, is_seen
from model3d.pictures.raytrace.skirting_seen import OFF_WALL_MM, RoomPlan, Sample, Viewpoint, samples_of
from model3d.pictures.raytrace.view import View

EYE_MM = 1250.0
LEAST_FIELD_DEG, MOST_FIELD_DEG = 56.0, 86.0
_STEP_MM, _OFF_WALLS_MM, _OFF_BLOCKS_MM = 250.0, 250.0, 300.0
HEIGHT_SEEN_MM = 2150.0
"""How much of a wall's height the picture holds at least where the wall is nearest, within what the lens gives."""

_NEAR_MM = 1500.0
_LOOKS = 15
_BASE_AT, _MOST_SHIFT = 0.83, 0.30
_BESIDE = 1.2


@dataclass(frozen=True, slots=True)
class _Aim:
    """Which way the eye looks on the plan, its field (degrees), and the tangent of half of it."""

    turn: float
    field_deg: float

    @property
    def half(self) -> float:
        return math.tan(math.radians(self.field_deg) / 2)


def wall_view(plan: RoomPlan, wall: int, *, size_px: tuple[int, int] = (1600, 1000)) -> Viewpoint:
    """A view of a wall from within the room; no wall is cut.

    Of the free places in the room, the one from which the most of the wall's skirting is seen, in the frame and not
    hidden by walls or furniture, the more squarely and from the further away the better. Raises ValueError for a wall
    that the room does not have, or a room in which there is nowhere to stand.
    """
    n = len(plan.outline)
    if not 0 <= wall < n:
        raise ValueError(f"wall {wall} is none of the room's {n}")
    a, b = plan.outline[wall], plan.outline[(wall + 1) % n]
    mine = _samples(plan, wall, a, b)
    heights = plan.heights_mm((), 0.0)
    best: tuple[float, View, float] | None = None
    for eye in _places(plan):
        aim = _aim(eye, [s.place[:2] for s in mine], size_px)
        if aim is None:
            continue
        view = _level_view(eye, aim, [s.place[:2] for s in mine], size_px)
        seen, square = _in_sight(plan, mine, view, heights)
        near = min(math.dist(eye[:2], s.place[:2]) for s in mine)
        score = (
            seen
            + 0.35 * square
            + 0.45 * min(near, 3600.0) / 3600.0
            - 0.2 * _crowded(plan, eye, aim)
            - 1.0 * _walled(plan, eye, aim, max(_NEAR_MM, 0.65 * near))
        )
        if best is None or score > best[0] + 1e-9:
            best = (score, view, seen)
    if best is None:
        raise ValueError(f"there is nowhere in the room to look at wall {wall} from")
    return Viewpoint(view=best[1], cut=(), stub_mm=plan.wall_height_mm, seen_share=best[2])


def _samples(plan: RoomPlan, wall: int, a: Vec2, b: Vec2) -> list[Sample]:
    """Points of the runs along a wall; along the whole wall where no run is on it."""
    normal = inward_normal(plan.outline, wall)

    def on_it(sample: Sample) -> bool:
        x, y, _ = sample.place
        off = (x - a[0]) * normal[0] + (y - a[1]) * normal[1]
        along = math.dist((x, y), a) + math.dist((x, y), b) < math.dist(a, b) + 2 * OFF_WALL_MM
        return abs(off) < 3 * OFF_WALL_MM and along

    found = [s for s in samples_of(plan) if on_it(s)]
    if found:
        return found
    count = max(2, round(math.dist(a, b) / 200.0))
    spots = ((k + 0.5) / count for k in range(count))
    return [
        Sample(
            (a[0] + t * (b[0] - a[0]) + 30.0 * normal[0], a[1] + t * (b[1] - a[1]) + 30.0 * normal[1], 100.0),
            normal,
            1.0,
        )
        for t in spots
    ]


def _places(plan: RoomPlan) -> Iterator[Vec3]:
    """Where one can stand: a grid over the room, clear of walls and of what is not low."""
    xs, ys = [x for x, _ in plan.outline], [y for _, y in plan.outline]
    across, along = (max(1, round((max(v) - min(v)) / _STEP_MM)) for v in (xs, ys))
    eye_mm = min(EYE_MM, plan.wall_height_mm - 200.0)
    for i in range(across):
        for j in range(along):
            spot = (
                min(xs) + (i + 0.5) * (max(xs) - min(xs)) / across,
                min(ys) + (j + 0.5) * (max(ys) - min(ys)) / along,
            )
            free = inside(spot, plan.outline) and distance_to_walls(spot, plan.outline) >= _OFF_WALLS_MM
            if free and not any(_is_by(spot, b.outline) for b in plan.blocks if b.top_mm > 0.5 * eye_mm):
                yield (*spot, eye_mm)


def _is_by(spot: Vec2, outline: Sequence[Vec2]) -> bool:
    return inside(spot, outline) or distance_to_walls(spot, outline) < _OFF_BLOCKS_MM


def _aim(eye: Vec3, spots: Sequence[Vec2], size_px: tuple[int, int]) -> _Aim | None:
    """Toward the middle of the angle that the spots take up, as wide as they and the wall's height ask within what a
    lens gives. None when the eye stands behind the wall's line or all but in it."""
    turns = [math.atan2(y - eye[1], x - eye[0]) for x, y in spots]
    first = turns[len(turns) // 2]
    off = [math.remainder(t - first, math.tau) for t in turns]
    if max(off) - min(off) > math.radians(150.0):
        return None
    near = min(math.dist(eye[:2], spot) for spot in spots)
    tall = 2 * math.degrees(math.atan(HEIGHT_SEEN_MM / 2 / max(near, 1.0) * size_px[0] / size_px[1]))
    asked = max(math.degrees(max(off) - min(off)) * _BESIDE + 3.0, tall)
    return _Aim(first + (max(off) + min(off)) / 2, min(max(asked, LEAST_FIELD_DEG), MOST_FIELD_DEG))


def _crowded(plan: RoomPlan, eye: Vec3, aim: _Aim) -> float:
    """How much stands close before the eye, 0 to 1: furniture nearer than ``_NEAR_MM`` within the picture."""
    worst = 0.0
    for block in plan.blocks:
        for x, y in block.outline:
            away = math.hypot(x - eye[0], y - eye[1])
            off = math.remainder(math.atan2(y - eye[1], x - eye[0]) - aim.turn, math.tau)
            if abs(math.degrees(off)) < aim.field_deg / 2 and away < _NEAR_MM:
                worst = max(worst, 1.0 - away / _NEAR_MM)
    return worst


def _walled(plan: RoomPlan, eye: Vec3, aim: _Aim, near_mm: float) -> float:
    """Share of the picture's width, 0 to 1, that a wall nearer than ``near_mm`` takes up."""
    n, close = len(plan.outline), 0
    for k in range(_LOOKS):
        turn = aim.turn + math.atan(aim.half * (2 * (k + 0.5) / _LOOKS - 1))
        end = (eye[0] + near_mm * math.cos(turn), eye[1] + near_mm * math.sin(turn))
        close += any(crossing(eye[:2], end, plan.outline[i], plan.outline[(i + 1) % n]) is not None for i in range(n))
    return close / _LOOKS


def _level_view(eye: Vec3, aim: _Aim, spots: Sequence[Vec2], size_px: tuple[int, int]) -> View:
    """The level view of an aim, shifted so that the skirting's foot stands in the lower part of the picture."""
    c, s = math.cos(aim.turn), math.sin(aim.turn)
    ahead = [d for x, y in spots if (d := (x - eye[0]) * c + (y - eye[1]) * s) > 200.0]
    depth = min(ahead) + 0.35 * (max(ahead) - min(ahead)) if ahead else 1500.0
    tall = size_px[1] / size_px[0] * 2 * aim.half  # the picture's height on a plane one unit ahead
    foot = 0.5 + eye[2] / depth / tall
    shift = max(-_MOST_SHIFT, min(0.0, _BASE_AT - foot))
    return View(
        eye_mm=eye,
        target_mm=(eye[0] + 1000.0 * c, eye[1] + 1000.0 * s, eye[2]),
        field_of_view_deg=aim.field_deg,
        size_px=size_px,
        shift=shift,
    )


def _in_sight(plan: RoomPlan, mine: Sequence[Sample], view: View, heights: Sequence[float]) -> tuple[float, float]:
    """Share of the samples' length that is in the frame and seen, and that weighted by how squarely it faces."""
    at = view.project(np.array([s.place for s in mine]))
    wide, high = view.size_px
    whole = seen = square = 0.0
    for sample, (x, y, _) in zip(mine, at, strict=True):
        whole += sample.length_mm
        dx, dy = view.eye_mm[0] - sample.place[0], view.eye_mm[1] - sample.place[1]
        facing = (dx * sample.facing[0] + dy * sample.facing[1]) / max(math.hypot(dx, dy), 1e-9)
        if facing <= 0.05 or not (0 < x < wide and 0 < y < 0.97 * high):
            continue
        if is_seen(sample.place, view.eye_mm, plan.outline, heights, plan.blocks):
            seen += sample.length_mm
            square += sample.length_mm * facing
    return (seen / whole, square / whole) if whole else (0.0, 0.0)
