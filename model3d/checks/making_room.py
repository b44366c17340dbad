"""What would leave the room and the clearances that a run asks for, in trade words; what is offered has been tried
where it can be.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from model3d.checks.case import Case, case_of, keep_out
from model3d.checks.free_rooms import FreeRoom
from model3d.checks.gaps import Tight
from model3d.checks.remedies import either, moved_off
from model3d.checks.room_to_work import Lack, lacking
from model3d.checks.swept_remedies import moved_along, swept_ways
from model3d.checks.trial import Trial
from model3d.layout import Joint, Layout
from model3d.scene import Scene
from model3d.scene.values import ROOM_ROLES, SWEPT_ROLES

FURTHEST_MM = 400.0  # no link is asked to be put further along than this


def remedy_of_lacks(
    lacks: Sequence[Lack], layout: Layout, scene: Scene, rooms: Sequence[FreeRoom], trial: Trial
) -> str:
    """What would free the rooms of one code that one thing takes from one run."""
    thing, first = lacks[0].thing, lacks[0].room
    places = [p for lack in lacks for p in lack.room.places]
    case = case_of(scene, thing, places, trial, places)
    ways = _off(case) if thing.role in ROOM_ROLES else []
    if first.code == "screw-access":
        moved = _link_elsewhere(lacks, layout, scene, rooms, trial)
        return either([*ways, *moved]) or "Reach the screws with an offset screwdriver."
    if first.code == "hand-room":
        pieces = list(dict.fromkeys(str(lack.room.serves.piece) for lack in lacks))
        later = f"leave it off until {' and '.join(pieces)} {'is' if len(pieces) == 1 else 'are'} up"
        ways = [*ways, *([later] if thing.role == "obstacle" else [])]
        return either(ways) or "Put the joint or the bracket where hands reach it."
    if thing.role in ROOM_ROLES - SWEPT_ROLES:
        ways = [*ways, *keep_out(case)]
    return either(ways) or "Begin the run further from it."


def remedy_of_tight(tight: Sequence[Tight], scene: Scene, trial: Trial) -> str:
    """What would give the parts of one run their clearance from one thing, or from another run."""
    thing, asked = tight[0].thing, max(t.asked_mm for t in tight)
    if thing.role not in ROOM_ROLES:
        short = math.ceil(max(t.asked_mm - t.gap_mm for t in tight) - 1e-6)
        return f"End one of the two runs, or the dry piece, {short} mm further from the other."
    spared = replace(trial, spare_mm=max(trial.spare_mm, asked))
    case = case_of(scene, thing, [t.part for t in tight], spared)
    ways = _off(case)
    ways = ways if thing.role in SWEPT_ROLES else [*ways, *keep_out(case)]
    return either(ways) or "Keep the run clear of it."


def _off(case: Case) -> list[str]:
    """The thing moved, or made to open less."""
    if case.thing.role in SWEPT_ROLES:
        return swept_ways(case)
    if case.thing.role != "obstacle":
        return []
    return moved_off(case) or list(moved_along(case))


def _link_elsewhere(
    lacks: Sequence[Lack], layout: Layout, scene: Scene, rooms: Sequence[FreeRoom], trial: Trial
) -> list[str]:
    """Where along its wall an in-line link would leave its screws free of all that stands in the room: tried."""
    marks = {lack.room.serves.joint for lack in lacks}
    joint = next((j for run in layout.runs for j in run.joints if j.mark in marks), None)
    if joint is None or joint.corner is not None or len(marks) > 1:
        return []
    mine = [r for r in rooms if r.code == "screw-access" and r.serves.joint == joint.mark]
    wall = next((p for p in scene.parts if p.role == "wall" and p.wall == joint.wall.id), None)
    if wall is None:
        return []
    low, high = trial.reach_mm(lacks[0].thing, wall.placement)
    reaches = [trial.reach_mm(p, wall.placement) for r in mine for p in r.places]
    first, last = min(a[0] for a, _ in reaches), max(b[0] for _, b in reaches)
    places = (
        ("short of", math.floor(joint.middle_mm - (last - low[0] + trial.spare_mm))),
        ("past", math.ceil(joint.middle_mm + (high[0] - first + trial.spare_mm))),
    )
    free = [f"{words} {at} mm" for words, at in places if _goes_at(joint, at, mine, layout, scene, trial)]
    return [f"put link {joint.mark} {' or '.join(free)} on wall {joint.wall.id}"] if free else []


def _goes_at(
    joint: Joint, at_mm: float, mine: Sequence[FreeRoom], layout: Layout, scene: Scene, trial: Trial
) -> bool:
    """Whether a link put elsewhere still has its two pieces beside it, and its screws free."""
    beside = [p for p in layout.pieces if p.mark in (joint.earlier, joint.later)]
    low, high = min(p.low_mm for p in beside), max(p.high_mm for p in beside)
    by = at_mm - joint.middle_mm
    if abs(by) > FURTHEST_MM or not low < at_mm < high:
        return False
    shift = (joint.wall.direction[0] * by, joint.wall.direction[1] * by, 0.0)
    moved = [replace(r, places=tuple(p.moved(shift) for p in r.places)) for r in mine]
    return not lacking(moved, scene.parts, trial)
