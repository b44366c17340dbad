"""Where to look from: a room from above with the near walls cut, a close corner, a wall straight on.

Pure numbers from the room's outline (anticlockwise plan points), its wall height and the skirting's runs.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from model3d.geometry.placement import Vec2, Vec3
from model3d.pictures.raytrace.cutaway import (
    cut_walls,
    distance_to_walls,
    inside,
    inward_normal,
    stub_height,
    wall_direction,
    walls_to_cut,
)
from model3d.pictures.raytrace.framing import framed
from model3d.pictures.raytrace.skirting_seen import RoomPlan, Sample, Viewpoint, samples_of, share_seen
from model3d.pictures.raytrace.view import Light, View

__all__ = ["RoomPlan", "Viewpoint", "corner_view", "daylight", "overview"]

OVERVIEW_FIELD_DEG = 26.0
OVERVIEW_ELEVATION_DEG = 37.0
"""Long-lens view from above, as in architects' cut-away models (common practice, no source)."""

_BEST_TURN_DEG = 28.0


def _main_direction(plan: RoomPlan) -> float:
    """Direction (degrees, 0 to 90) most wall length runs along, a quarter turn counting as the same."""
    c = s = 0.0
    for wall in range(len(plan.outline)):
        x, y = wall_direction(plan.outline, wall)
        length = math.dist(plan.outline[wall], plan.outline[(wall + 1) % len(plan.outline)])
        turn = 4 * math.atan2(y, x)
        c, s = c + length * math.cos(turn), s + length * math.sin(turn)
    return math.degrees(math.atan2(s, c)) / 4 % 90.0


def _model_points(plan: RoomPlan, heights: Sequence[float]) -> list[Vec3]:
    """Corners of the walls' outer faces, floor and top, as they are to stand in the frame."""
    n = len(plan.outline)
    points: list[Vec3] = []
    for k, (x, y) in enumerate(plan.outline):
        before, after = inward_normal(plan.outline, k - 1), inward_normal(plan.outline, k)
        spread = max(1 + before[0] * after[0] + before[1] * after[1], 0.2)
        ox = x - plan.wall_thickness_mm * (before[0] + after[0]) / spread
        oy = y - plan.wall_thickness_mm * (before[1] + after[1]) / spread
        top = max(heights[k], heights[(k - 1) % n])
        points += [(ox, oy, 0.0), (ox, oy, top)]
    return points


def overview(
    plan: RoomPlan,
    *,
    size_px: tuple[int, int] = (1600, 1000),
    step_deg: float = 5.0,
    toward_eye_deg: float | None = None,
) -> Viewpoint:
    """The room from above, from the side that shows the most skirting, the walls that face away cut to a stub.

    Of the directions all round, ``step_deg`` apart, the one that shows the greatest length of run, the more squarely
    the better; a view turned about 28 degrees off the walls is preferred to one along or midway between them, and
    one that fills a wide picture to one that does not. ``toward_eye_deg`` gives the plan direction instead.
    """
    stub = stub_height(plan.skirting_top_mm, plan.wall_height_mm)
    samples = samples_of(plan)
    main = _main_direction(plan)
    best: tuple[float, Viewpoint] | None = None
    turns = [k * step_deg for k in range(round(360 / step_deg))] if toward_eye_deg is None else [toward_eye_deg]
    for turn in turns:
        view, cut = _from_above(plan, samples, turn, stub, size_px)
        heights = plan.heights_mm(cut, stub)
        seen, square = share_seen(plan, samples, view.eye_mm, heights)
        off = (turn - main) % 90.0
        lean = min(abs(off - _BEST_TURN_DEG), abs(off - 90 + _BEST_TURN_DEG)) / _BEST_TURN_DEG
        score = seen + 0.6 * square - 0.25 * lean - 0.15 * _distance(view) / 20_000.0
        if best is None or score > best[0] + 1e-9:
            best = (score, Viewpoint(view=view, cut=cut, stub_mm=stub, seen_share=seen))
    assert best is not None
    return best[1]


def corner_view(plan: RoomPlan, corner: int, *, size_px: tuple[int, int] = (1600, 1000)) -> Viewpoint:
    """A close view of a corner from a standing or sitting eye inside the room; no wall is cut.

    Of several distances, heights and turns off the corner's middle line, the one that shows the most of the
    skirting next to the corner, and the closest to about two metres off it. Raises ValueError for a corner the room
    does not have.
    """
    if not 0 <= corner < len(plan.outline):
        raise ValueError(f"corner {corner} is none of the room's {len(plan.outline)}")
    at = plan.outline[corner]
    before, after = inward_normal(plan.outline, corner - 1), inward_normal(plan.outline, corner)
    middle = math.degrees(math.atan2(before[1] + after[1], before[0] + after[0]))
    heights = plan.heights_mm((), 0.0)
    near = [s for s in samples_of(plan) if math.dist(s.place[:2], at) < 900.0]
    sides = _sides(near, before)
    best: tuple[float, Viewpoint] | None = None
    for distance in (2000.0, 1700.0, 1400.0, 1100.0, 850.0, 600.0, 400.0):
        for turn in (14.0, -14.0, 0.0, 28.0, -28.0, 45.0, -45.0, 60.0, -60.0):
            eye = _corner_eye(plan, at, middle + turn, distance)
            if eye is None:
                continue
            view = View(
                eye_mm=eye,
                target_mm=(*at, 0.55 * plan.skirting_top_mm),
                field_of_view_deg=min(60.0, 2 * math.degrees(math.atan2(760.0, distance))),
                size_px=size_px,
            )
            seen, square = share_seen(plan, near, eye, heights)
            even = min(share_seen(plan, side, eye, heights)[1] for side in sides)
            score = seen + 0.3 * square + 0.6 * even - abs(distance - 1700) / 6000 - abs(abs(turn) - 14) / 600
            if best is None or score > best[0] + 1e-9:
                best = (score, Viewpoint(view=view, cut=(), stub_mm=plan.wall_height_mm, seen_share=seen))
    if best is None:
        raise ValueError(f"there is no free place to look at corner {corner} from")
    return best[1]


def _sides(near: Sequence[Sample], before: Vec2) -> list[list[Sample]]:
    """The samples on the wall before a corner, whose inward normal is given, and those on the wall after it; all of
    them where only one has any."""
    first = [s for s in near if s.facing[0] * before[0] + s.facing[1] * before[1] > 0.999]
    second = [s for s in near if s not in first]
    return [side for side in (first, second) if side] or [list(near)]


def _from_above(
    plan: RoomPlan, samples: Sequence[Sample], turn_deg: float, stub_mm: float, size_px: tuple[int, int]
) -> tuple[View, tuple[int, ...]]:
    """The view from above out of a plan direction, and the walls to cut for it."""
    wanted = [s.place for s in samples] + _floor_points(plan)
    cut = cut_walls(plan.outline, turn_deg)
    toward = _toward(turn_deg, OVERVIEW_ELEVATION_DEG)
    for _ in range(2):
        points = _model_points(plan, plan.heights_mm(cut, stub_mm))
        view = framed(points, toward_eye=toward, field_of_view_deg=OVERVIEW_FIELD_DEG, size_px=size_px)
        cut = walls_to_cut(plan.outline, view.eye_mm, plan.wall_height_mm, plan.wall_thickness_mm, wanted)
    return view, cut


def _floor_points(plan: RoomPlan) -> list[Vec3]:
    xs, ys = [x for x, _ in plan.outline], [y for _, y in plan.outline]
    step = max((max(xs) - min(xs)) * (max(ys) - min(ys)), 1.0) ** 0.5 / 14
    found = []
    for i in range(int((max(xs) - min(xs)) / step) + 1):
        for j in range(int((max(ys) - min(ys)) / step) + 1):
            point = (min(xs) + (i + 0.5) * step, min(ys) + (j + 0.5) * step)
            if inside(point, plan.outline):
                found.append((*point, 0.0))
    return found


def _corner_eye(plan: RoomPlan, at: Vec2, turn_deg: float, distance: float) -> Vec3 | None:
    x = at[0] + distance * math.cos(math.radians(turn_deg))
    y = at[1] + distance * math.sin(math.radians(turn_deg))
    height = min(450.0 + 0.36 * distance, plan.wall_height_mm - 200.0)
    if not inside((x, y), plan.outline) or distance_to_walls((x, y), plan.outline) < 120.0:
        return None
    for block in plan.blocks:
        within = inside((x, y), block.outline) or distance_to_walls((x, y), block.outline) < 150.0
        if within and block.top_mm > height - 150.0:
            return None
    return (x, y, height)


def daylight(view: View, *, from_left: bool = True) -> Light:
    """A light that suits a view: the sun over the viewer's shoulder, 40 degrees to one side and 46 up, so that the
    two walls of a corner differ and shadows fall away from the eye."""
    dx, dy = view.eye_mm[0] - view.target_mm[0], view.eye_mm[1] - view.target_mm[1]
    side = -40.0 if from_left else 40.0
    turn = math.degrees(math.atan2(dy, dx)) + side
    return Light(sun_from=_toward(turn, 46.0))


def _toward(turn_deg: float, elevation_deg: float) -> Vec3:
    turn, rise = math.radians(turn_deg), math.radians(elevation_deg)
    return (math.cos(rise) * math.cos(turn), math.cos(rise) * math.sin(turn), math.sin(rise))


def _distance(view: View) -> float:
    return math.dist(view.eye_mm, view.target_mm)
