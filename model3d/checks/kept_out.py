"""Which stretch of a wall a run must leave to a thing that stands or moves in front of it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from model3d.checks.swings import swept_outline
from model3d.checks.trial import Trial
from model3d.geometry.placement import Placement, Vec2
from model3d.parts.room import SectorSpec, WallSpec
from model3d.scene import Part


def stretch_mm(thing: Part, wall: Part, run_parts: Sequence[Part], trial: Trial) -> tuple[int, int] | None:
    """From where to where along a wall, whole millimetres, nothing of a run may stand: the stretch that the
    thing takes of the depth the run takes there, and the spare. None when it takes none.
    """
    front = max(trial.reach_mm(part, wall.placement)[1][1] for part in run_parts) + trial.spare_mm
    outline = (
        swept_outline(thing, wall.placement)
        if isinstance(thing.spec, SectorSpec)
        else _box(thing, wall.placement, trial)
    )
    along = _along_within(outline, front)
    if along is None:
        return None
    return math.floor(along[0] - trial.spare_mm), math.ceil(along[1] + trial.spare_mm)


def stretch_text(thing: Part, wall: Part, run_parts: Sequence[Part], trial: Trial) -> str:
    """Where a run may stand on a wall so that it leaves the thing clear; empty where it may stand anywhere."""
    stretch = stretch_mm(thing, wall, run_parts, trial)
    if stretch is None or not isinstance(wall.spec, WallSpec):
        return ""
    low, high = stretch
    name = wall.wall or wall.id
    if low <= 0 and high >= wall.spec.length_mm:
        return f"off wall {name}"
    if low <= 0:
        return f"on wall {name} past {high} mm"
    if high >= wall.spec.length_mm:
        return f"on wall {name} short of {low} mm"
    return f"on wall {name} short of {low} mm or past {high} mm"


def _box(thing: Part, frame: Placement, trial: Trial) -> tuple[Vec2, ...]:
    (x0, y0, _), (x1, y1, _) = trial.reach_mm(thing, frame)
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def _along_within(outline: Sequence[Vec2], front_mm: float) -> tuple[float, float] | None:
    """The least and greatest x of the part of an outline with y up to ``front_mm``."""
    xs: list[float] = []
    for a, b in zip(outline, (*outline[1:], outline[0]), strict=True):
        if a[1] <= front_mm:
            xs.append(a[0])
        if (a[1] - front_mm) * (b[1] - front_mm) < 0.0:
            xs.append(a[0] + (front_mm - a[1]) / (b[1] - a[1]) * (b[0] - a[0]))
    return (min(xs), max(xs)) if xs else None
