"""What would free an overlap, in trade words; what is offered has been tried where it can be."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from model3d.checks.case import Case, keep_out
from model3d.checks.swept_remedies import swept_ways
from model3d.checks.trial import Trial, exact_reach_mm
from model3d.geometry.placement import Placement
from model3d.scene import Part
from model3d.scene.values import SWEPT_ROLES

HIGHEST_RAISE_MM = 400.0  # a thing that would have to go higher is moved otherwise
OPENING_ROLES = ("casing", "sill", "window-frame", "glass", "door-leaf")


def remedy_of(case: Case) -> str:
    """What would free a run of a thing of the room."""
    if case.thing.role in SWEPT_ROLES:
        return either(swept_ways(case))
    if case.thing.role == "obstacle":
        return either([*moved_off(case), *keep_out(case)])
    if case.thing.role in OPENING_ROLES:
        return either([*keep_out(case)]) or "End the run clear of it."
    if case.thing.role == "wall":
        return _wall(case)
    return "Check the family's floor gap and the lengths of its tails."


def either(ways: Sequence[str]) -> str:
    """Ways as one sentence; empty when there are none."""
    said = "; or ".join(way for way in ways if way)
    return said[:1].upper() + said[1:] + "." if said else ""


def moved_off(case: Case) -> list[str]:
    """How far an obstacle is to be moved out from the wall, or up, until nothing of what is fitted there is
    in it, nor in the way of its fitting: tried.
    """
    ways: list[str] = []
    for wall in case.own_walls[:1]:
        low, high = case.trial.reach_mm(case.thing, wall.placement)
        reaches = [case.trial.reach_mm(part, wall.placement) for part in case.on(wall)]
        beside = [(a, b) for a, b in reaches if a[0] < high[0] and b[0] > low[0]]
        out = math.ceil(
            max((b[1] for a, b in beside if a[2] < high[2] and b[2] > low[2]), default=low[1])
            - low[1]
            + case.trial.spare_mm
        )
        up = math.ceil(
            max((b[2] for a, b in beside if a[1] < high[1] and b[1] > low[1]), default=low[2])
            - low[2]
            + case.trial.spare_mm
        )
        stands_off = low[1] > case.trial.spare_mm
        if stands_off and case.goes_moved(wall.placement.vector((0.0, float(out), 0.0))):
            ways.append(f"move {case.thing.obstacle} {out} mm further out from wall {wall.wall}")
        may_rise = low[2] > case.trial.spare_mm and up <= HIGHEST_RAISE_MM
        if may_rise and case.goes_moved((0.0, 0.0, float(up))):
            ways.append(f"raise it {up} mm")
    return ways


def _wall(case: Case) -> str:
    deepest = max(-exact_reach_mm(part, case.thing.placement)[0][1] for part in case.met)
    name = case.thing.wall or case.thing.name
    return (
        f"Measure again: wall {name} stands {deepest:.1f} mm too near for what is laid out. "
        f"Correct the room in the plan, and let the lengths follow."
    )


def between_parts(a: Part, b: Part, fitted: Sequence[Part], trial: Trial) -> str:
    """What would free two parts of one another."""
    for clip, other in ((a, b), (b, a)):
        if clip.role == "clip" and other.role != "piece":
            turned = turned_over(clip)
            mates = [p for p in fitted if p.joint == other.joint or p.id == other.id or p.piece == clip.piece]
            if trial.is_free(turned, mates):
                return f"Turn the clip over: it must face {turned.face}."
    for ring, other in ((a, b), (b, a)):
        if ring.role == "o-ring" and other.id in ring.presses_on:
            meant = f"{ring.presses_mm:.2f} mm"
            return f"It is to be squeezed by {meant}: check the O-ring's section and its gland in the family."
    if a.run != b.run:
        return "End one of the two runs, or the dry piece, further from the other."
    if a.piece != b.piece and a.wall == b.wall and None not in (a.piece, b.piece):
        return f"Check the cut lengths of {a.piece} and {b.piece}, and the length of wall {a.wall}."
    for piece in (a, b):
        if piece.role in ("piece", "dry-piece"):
            return f"Check the cut length of {piece.piece}, and the family's figures for the two."
    return "Check the family's figures for these two parts."


def turned_over(clip: Part) -> Part:
    """The same clip facing the other way: turned about the way into its piece."""
    over = Placement(y_axis=(0.0, -1.0, 0.0), z_axis=(0.0, 0.0, -1.0))
    return replace(clip, placement=clip.placement @ over, face="back" if clip.face == "front" else "front")
