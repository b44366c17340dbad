"""What would free a run of a leaf, a sash or a drawer that takes room as it opens; what is offered has been tried where
it can be.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from model3d.checks.case import Case, keep_out
from model3d.checks.swings import rehung, sector_of, stop_deg
from model3d.checks.trial import SPARE_MM
from model3d.geometry.placement import Vec3, scale
from model3d.parts.room import BoxSpec, WallSpec
from model3d.scene import Part

LEAST_OPEN_DEG: Mapping[str, float] = {"door-swing": 60.0, "sash-swing": 30.0, "cupboard-swing": 75.0}
"""What opens less is of no use. Common practice, no source."""
LEAST_DRAWN = 0.5  # the share of its travel that a drawer is pulled out at least; common practice, no source
FURTHEST_MM = 400.0  # nothing is asked to be moved further than this


def swept_ways(case: Case) -> list[str]:
    """Ways to keep what opens off the run, in the order in which a fitter would try them."""
    if case.thing.role == "drawer-travel":
        return [*_drawn_less(case), *moved_along(case), *keep_out(case)]
    called = {"door-swing": "the door", "sash-swing": "the sash"}.get(case.thing.role, words(case.thing))
    angle = stop_deg(case.thing, case.met, case.fitted, case.trial, LEAST_OPEN_DEG[case.thing.role])
    ways = [] if angle is None else [f"stop {called} at {angle:.0f} degrees"]
    ways += _rehung(case)
    if case.thing.role == "cupboard-swing":
        return [*ways, *moved_along(case), *keep_out(case)]
    ways.append("let it open out of the room")
    return [*ways, *keep_out(case)] if case.thing.role == "sash-swing" else ways


def words(thing: Part) -> str:
    """What opens, within a sentence."""
    return thing.name[:1].lower() + thing.name[1:]


def _rehung(case: Case) -> Iterator[str]:
    """On its other side; one sash of a pair has none."""
    pair = [p for p in case.room if p.role == "sash-swing" and p.obstacle == case.thing.obstacle]
    other = rehung(case.thing)
    if len(pair) < 2 and case.trial.is_free(other, case.fitted):
        side = "left" if math.cos(math.radians(sector_of(other).start_deg)) < 0.0 else "right"
        faced = "it" if case.thing.role == "cupboard-swing" else "the wall"
        yield f"hang it on its {side} side, as you face {faced}"


def _drawn_less(case: Case) -> Iterator[str]:
    """How far the drawer may be pulled out, whole millimetres, with 2 mm to spare."""
    spec = case.thing.spec
    if not isinstance(spec, BoxSpec):
        return
    wide, out, high = spec.size_mm

    def stands(by_mm: int) -> bool:
        return not case.free([replace(case.thing, spec=BoxSpec(size_mm=(wide, float(by_mm), high)))])

    if stands(1):
        return
    least = _first(stands, 1, math.ceil(out)) - 1 - math.ceil(SPARE_MM)
    if least >= LEAST_DRAWN * out:
        yield f"pull {words(case.thing)} out no further than {least} mm"


def _first(holds: Callable[[int], bool], low: int, high: int) -> int:
    """The least whole number past ``low`` from which something holds: it does at ``high``, and does not at ``low``."""
    return low + 1 + bisect_left(range(low + 1, high), True, key=holds)


def moved_along(case: Case) -> Iterator[str]:
    """How far what it is in is moved along its wall, or off the wall of the run where it stands on none: the shorter
    of the ways that leave everything clear, with 2 mm to spare.
    """
    found = []
    for way, most, text in _ways_off(case):

        def free(by_mm: int, way: Vec3 = way) -> bool:
            return case.free([case.thing.moved(scale(way, float(by_mm)))])

        if 0 < most <= FURTHEST_MM and free(most):
            by = _first(free, 0, most) + math.ceil(SPARE_MM)
            if _has_room(case, scale(way, float(by))) and case.goes_moved(scale(way, float(by))):
                found.append((by, text.format(by=by)))
    if found:
        yield min(found)[1]


def _ways_off(case: Case) -> Iterator[tuple[Vec3, int, str]]:
    """Ways in which the obstacle may be moved, how far it goes at most until it is past the boxes round all that it
    meets and clear of it, and the words for it.
    """
    own = next((w for w in case.walls if w.wall == case.thing.wall), None)
    wall = own if own is not None else next(iter(case.own_walls), None)
    if wall is None:
        return
    low, high = case.trial.reach_mm(case.thing, wall.placement)
    met = [case.trial.reach_mm(p, wall.placement) for p in case.met]
    x, y, name = wall.placement.x_axis, wall.placement.y_axis, case.thing.obstacle
    if own is None:
        out = math.ceil(max(b[1] for _, b in met) - low[1] + case.trial.spare_mm)
        yield y, out, f"move {name} {{by}} mm further out from wall {wall.wall}"
        return
    left = math.ceil(max(b[0] for _, b in met) - low[0] + case.trial.spare_mm)
    right = math.ceil(high[0] - min(a[0] for a, _ in met) + case.trial.spare_mm)
    yield x, left, f"move {name} {{by}} mm to the left along wall {wall.wall}"
    yield scale(x, -1.0), right, f"move {name} {{by}} mm to the right along wall {wall.wall}"


def _has_room(case: Case, by_mm: Vec3) -> bool:
    """Whether the bodies moved are still before their wall, and in nothing else that stands in the room: by the boxes
    round them.
    """
    if not case.bodies:
        return False
    others = [p for p in case.room if p.role in ("obstacle", "casing") and p.obstacle != case.thing.obstacle]
    for body in case.bodies:
        wall = next((w for w in case.walls if w.wall == body.wall), None)
        frame = body.placement if wall is None else wall.placement
        low, high = case.trial.reach_mm(body.moved(by_mm), frame)
        if wall is not None and isinstance(wall.spec, WallSpec):
            before_it = low[0] > -1.0 and high[0] < wall.spec.length_mm + 1.0
            if not before_it:
                return False
        for other in others:
            a, b = case.trial.reach_mm(other, frame)
            if all(a[i] < high[i] and b[i] > low[i] for i in range(3)):
                return False
    return True
