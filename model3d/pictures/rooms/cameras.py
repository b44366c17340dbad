"""Where the customer's pictures are taken from: the plan's own viewpoints, and one by rule for each wall and corner."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from model3d.families.family import Family
from model3d.geometry.placement import Vec3
from model3d.layout import Layout
from model3d.pictures.raytrace.cutaway import Block, inside, stub_height, walls_to_cut
from model3d.pictures.raytrace.eye_level import wall_view
from model3d.pictures.raytrace.skirting_seen import RoomPlan, Viewpoint, samples_of
from model3d.pictures.raytrace.view import View
from model3d.pictures.raytrace.viewpoints import corner_view, overview
from model3d.pictures.rooms.shell import Shown
from model3d.rooms import CheckedPlan
from model3d.rooms.furniture import NamedView
from model3d.sources import near_miss

Size = tuple[int, int]
ABOVE, CORNER = "above", "corner"
USUAL_FIELD_DEG = 58.0
_LOW_MM = 150.0


class NoViewError(ValueError):
    """There is no viewpoint of that name, or nowhere to look from; the message says which there are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """A picture to take: the view, what of the room it shows, the walls (ids) it is of, whether it is taken in the
    closed room, and whether the plan gives its eye."""

    name: str
    view: View
    shown: Shown
    walls: frozenset[str]
    closed: bool
    by_eye: bool = False


def view_names(plan: CheckedPlan) -> tuple[str, ...]:
    """Every name that a picture can be asked for by: the plan's own, then ``above``, ``corner``, walls and corners."""
    ring = plan.room.outer
    usual = (ABOVE, CORNER, *(w.id for w in ring.walls), *(c.id for c in ring.corners))
    own = tuple(v.id for v in plan.viewpoints)
    return own + tuple(name for name in usual if name not in own)


def shot(plan: CheckedPlan, layout: Layout, family: Family, name: str, size_px: Size) -> Shot:
    """The picture of that name. Raises NoViewError."""
    room = room_plan(plan, layout, family)
    for own in plan.viewpoints:
        if own.id == name:
            return _named(plan, room, own, size_px)
    walls, corners = ([x.id for x in xs] for xs in (plan.room.outer.walls, plan.room.outer.corners))
    if name == ABOVE:
        return _above(plan, room, name, size_px, None)
    if name == CORNER:
        return _corner(plan, room, name, _best_corner(plan, layout), size_px)
    if name in walls:
        return _wall(plan, room, name, walls.index(name), size_px)
    if name in corners:
        return _corner(plan, room, name, corners.index(name), size_px)
    known = view_names(plan)
    raise NoViewError(f"there is no view '{name}'{near_miss(name, known)} (views: {', '.join(known)})")


def room_plan(plan: CheckedPlan, layout: Layout, family: Family) -> RoomPlan:
    """What a viewpoint is chosen from: outline, runs, and furniture and columns that may stand in the way."""
    runs = tuple(
        tuple(p.wall.point_mm(s, family.section.front_u_mm) for p in run.pieces for s in (p.near_mm, p.far_mm))
        for run in layout.runs
    )
    blocks = tuple(
        Block(outline=f.outline_mm, top_mm=f.height_mm)
        for f in plan.furniture
        if f.kind not in ("picture", "rug") and f.height_mm > _LOW_MM
    )
    columns = tuple(
        Block(outline=tuple(c.at_mm for c in reversed(ring.corners)), top_mm=plan.room.height_mm)
        for ring in plan.room.islands
    )
    return RoomPlan(
        outline=tuple(c.at_mm for c in plan.room.outer.corners),
        wall_height_mm=plan.room.height_mm,
        runs=runs,
        skirting_top_mm=family.section.floor_gap_mm + family.section.height_mm,
        wall_thickness_mm=plan.room.wall_thickness_mm,
        blocks=blocks + columns,
    )


def _named(plan: CheckedPlan, room: RoomPlan, own: NamedView, size_px: Size) -> Shot:
    walls, corners = ([x.id for x in xs] for xs in (plan.room.outer.walls, plan.room.outer.corners))
    if own.eye_mm is not None and own.target_mm is not None:
        return _free(plan, room, own, own.eye_mm, own.target_mm, size_px)
    if own.wall_id is not None:
        if own.wall_id not in walls:
            raise NoViewError(f"{own.id}: {own.wall_id} is no wall of the room's own ring")
        found = _wall(plan, room, own.id, walls.index(own.wall_id), size_px)
    elif own.corner_id is not None:
        if own.corner_id not in corners:
            raise NoViewError(f"{own.id}: {own.corner_id} is no corner of the room's own ring")
        found = _corner(plan, room, own.id, corners.index(own.corner_id), size_px, own)
    else:
        found = _above(plan, room, own.id, size_px, own.above_deg)
    if own.field_deg is None:
        return found
    return replace(found, view=replace(found.view, field_of_view_deg=own.field_deg))


def _ids(plan: CheckedPlan, numbers: tuple[int, ...]) -> frozenset[str]:
    return frozenset(plan.room.outer.walls[i].id for i in numbers)


def _above(plan: CheckedPlan, room: RoomPlan, name: str, size_px: Size, turn_deg: float | None) -> Shot:
    point: Viewpoint = overview(room, size_px=size_px, toward_eye_deg=turn_deg)
    cut = _ids(plan, point.cut)
    walls = frozenset(
        w.id for w in plan.room.outer.walls if w.id not in cut and _faces(w.normal, w.start_mm, point.view)
    )
    return Shot(name=name, view=point.view, shown=Shown(cut=cut, stub_mm=point.stub_mm), walls=walls, closed=False)


def _faces(normal: tuple[float, float], start: tuple[float, float], view: View) -> bool:
    return normal[0] * (view.eye_mm[0] - start[0]) + normal[1] * (view.eye_mm[1] - start[1]) > 0


def _wall(plan: CheckedPlan, room: RoomPlan, name: str, wall: int, size_px: Size) -> Shot:
    try:
        point = wall_view(room, wall, size_px=size_px)
    except ValueError as reason:
        raise NoViewError(f"{name}: {reason}") from reason
    return Shot(name=name, view=point.view, shown=Shown(), walls=_ids(plan, (wall,)), closed=True)


def _corner(
    plan: CheckedPlan, room: RoomPlan, name: str, corner: int, size_px: Size, own: NamedView | None = None
) -> Shot:
    try:
        view = corner_view(room, corner, size_px=size_px).view
    except ValueError as reason:
        raise NoViewError(f"{name}: {reason}") from reason
    if own is not None and (own.distance_mm is not None or own.turn_deg is not None):
        view = _moved(plan, view, corner, own)
    walls = _ids(plan, ((corner - 1) % len(room.outline), corner))
    return Shot(name=name, view=view, shown=Shown(), walls=walls, closed=True)


def _moved(plan: CheckedPlan, view: View, corner: int, own: NamedView) -> View:
    """The view with its eye at the distance and turn off the corner's middle line that the plan asks for."""
    ring = plan.room.outer
    at = ring.corners[corner].at_mm
    before, after = ring.walls[corner - 1].normal, ring.walls[corner].normal
    middle = math.atan2(before[1] + after[1], before[0] + after[0])
    usual = math.dist(view.eye_mm[:2], at)
    was = math.atan2(view.eye_mm[1] - at[1], view.eye_mm[0] - at[0])
    turn = was if own.turn_deg is None else middle + math.radians(own.turn_deg)
    distance = usual if own.distance_mm is None else own.distance_mm
    eye = (at[0] + distance * math.cos(turn), at[1] + distance * math.sin(turn), view.eye_mm[2])
    return replace(view, eye_mm=eye)


def _free(plan: CheckedPlan, room: RoomPlan, own: NamedView, eye: Vec3, target: Vec3, size_px: Size) -> Shot:
    """From an eye that the plan gives. From over the walls the room is cut away; from beside it, the walls between
    are not seen."""
    view = View(eye_mm=eye, target_mm=target, field_of_view_deg=own.field_deg or USUAL_FIELD_DEG, size_px=size_px)
    wanted = [s.place for s in samples_of(room)] + [(*target[:2], 0.0)]
    between = () if inside(eye[:2], room.outline) else _between(plan, room, eye, wanted)
    over = eye[2] > plan.room.height_mm
    if over:
        shown = Shown(cut=_ids(plan, between), stub_mm=stub_height(room.skirting_top_mm, plan.room.height_mm))
    else:
        shown = Shown(unseen=_ids(plan, between))
    return Shot(name=own.id, view=view, shown=shown, walls=_in_front(plan, shown, view), closed=not over, by_eye=True)


def _between(plan: CheckedPlan, room: RoomPlan, eye: Vec3, wanted: Sequence[Vec3]) -> tuple[int, ...]:
    return walls_to_cut(room.outline, eye, plan.room.height_mm, plan.room.wall_thickness_mm, wanted)


def _in_front(plan: CheckedPlan, shown: Shown, view: View) -> frozenset[str]:
    """Whole walls whose room side faces the eye."""
    gone = shown.cut | shown.unseen
    return frozenset(w.id for w in plan.room.outer.walls if w.id not in gone and _faces(w.normal, w.start_mm, view))


def _best_corner(plan: CheckedPlan, layout: Layout) -> int:
    """The corner of a joint that is hardest to picture in the mind: an external one first, then a bay, then any."""
    ring = plan.room.outer.corners
    joints = {j.corner.id: j for run in layout.runs for j in run.joints if j.corner is not None}
    order = sorted(
        range(len(ring)),
        key=lambda k: (ring[k].id not in joints, ring[k].turn_deg >= 0, abs(abs(ring[k].turn_deg) - 90.0) < 5.0, k),
    )
    return order[0]
