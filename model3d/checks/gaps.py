"""Gaps under the clearance that two parts must keep, measured between fine meshes of the two."""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

import cadquery as cq
import numpy as np

from model3d.checks.clearances import MOST_MM, clearance_mm
from model3d.checks.engine.bodies import Body, box_pairs, placed_boxes
from model3d.checks.engine.verdict import Solids
from model3d.checks.trial import Trial
from model3d.geometry.placement import Vec3
from model3d.motion import MotionMesh, mesh_of
from model3d.motion.surface import Gap, gap
from model3d.parts.ends import ReturnEndSpec, ValveEndSpec
from model3d.parts.kinds import Spec
from model3d.parts.room import CylinderSpec
from model3d.scene import Part
from model3d.scene.values import ROOM_ROLES
from model3d.solids.build import solid

COARSE_MM, COARSE_DEG = 0.1, 15.0
FINE_MM, FINE_DEG = 0.005, 4.0
OFF_MM = 0.25  # what two coarse meshes may be off together
SUNK_MM = 0.1  # what stands out of its wall no further than this lies in it
SAME_MM = 0.01  # a gap so little under its clearance is no less


@dataclass(frozen=True, slots=True, kw_only=True)
class Tight:
    """Two parts nearer than they must be: the thing of the room first, or the part of another run."""

    thing: Part
    part: Part
    gap_mm: float
    asked_mm: float
    place_mm: Vec3


def any_two(_thing: Part, _part: Part) -> bool:
    """Every pair is asked."""
    return True


def tight_pairs(
    things: Sequence[Part], fitted: Sequence[Part], trial: Trial, asked_of: Callable[[Part, Part], bool] = any_two
) -> tuple[Tight, ...]:
    """Every pair of a thing and a part of a run, or of two runs, whose gap is under its clearance. Two that overlap
    have no gap to speak of: ask for clashes as well. ``asked_of`` says of a pair whether it is asked at all.
    """
    parts = [*things, *fitted]
    walls = {p.wall: p for p in things if p.role == "wall" and p.wall is not None}
    found = []
    for i, j in _near(parts, trial):
        a, b = parts[i], parts[j]
        asked = clearance_mm(a, b)
        if asked > 0.0 and _counts(a, b) and asked_of(a, b) and not _sunk(a, walls, trial):
            met = _gap(a, b, asked)
            if met is not None and met.distance_mm < asked - SAME_MM:
                place = a.placement.point(met.place_mm)
                found.append(Tight(thing=a, part=b, gap_mm=met.distance_mm, asked_mm=asked, place_mm=place))
    return tuple(found)


def _near(parts: Sequence[Part], trial: Trial) -> list[tuple[int, int]]:
    """Pairs of parts whose boxes come within the greatest clearance."""
    shapes: dict[Hashable, cq.Solid] = {p.spec: solid(p.spec) for p in parts}
    held = Solids(shapes=shapes, memory=trial.memory, contact_mm=trial.tolerance.contact_mm)
    hulls = [held.skin(p.spec).hull for p in parts]
    bodies = [Body(id=p.id, shape_key=p.spec, placement=p.placement) for p in parts]
    boxes = placed_boxes(bodies, [np.array([h.min(axis=0), h.max(axis=0)]) for h in hulls])
    return [(i, j) for i, j in box_pairs(boxes, margin_mm=MOST_MM + OFF_MM).tolist()]


def _counts(a: Part, b: Part) -> bool:
    """Whether two parts belong to two sides, and one is not the pipe that a tail of the other is joined to."""
    if b.role in ROOM_ROLES:
        return False
    if a.role in ROOM_ROLES:
        return not _joined(a, b)
    return a.run != b.run or (a.run is None and a.piece != b.piece)


def _sunk(thing: Part, walls: Mapping[str, Part], trial: Trial) -> bool:
    """Whether an obstacle lies in its wall, a back box or a chased pipe: brackets lie on it, and drilling is another
    matter.
    """
    wall = walls.get(thing.wall or "") if thing.role == "obstacle" else None
    return wall is not None and trial.reach_mm(thing, wall.placement)[1][1] < SUNK_MM


def _joined(thing: Part, part: Part) -> bool:
    """Whether a thing is an upright pipe under a tail of an end fitting: what the tail is joined to."""
    if not isinstance(thing.spec, CylinderSpec) or not isinstance(part.spec, ValveEndSpec | ReturnEndSpec):
        return False
    spec = part.spec
    offsets = spec.tail_offsets_mm if isinstance(spec, ValveEndSpec) else (spec.tail_offset_mm,)
    x, y, _ = part.placement.inverse().point(thing.placement.origin_mm)
    out = spec.block.bore_centres[0][0]
    upright = abs(thing.placement.z_axis[2]) > 0.5
    return upright and any(math.hypot(x + spec.block.hand * o, y - out) < spec.tail_radius_mm for o in offsets)


def _gap(a: Part, b: Part, asked_mm: float) -> Gap | None:
    """How far two parts stand apart where that is less than asked: looked for coarsely, then measured finely."""
    there = a.placement.inverse() @ b.placement
    one, other = (_mesh(p.spec, COARSE_MM, COARSE_DEG).surface for p in (a, b))
    if gap(one, other, there, within_mm=asked_mm + OFF_MM) is None:
        return None
    one, other = (_mesh(p.spec, FINE_MM, FINE_DEG).surface for p in (a, b))
    return gap(one, other, there, within_mm=asked_mm)


@cache
def _mesh(spec: Spec, deflection_mm: float, angle_deg: float) -> MotionMesh:
    return mesh_of(solid(spec), type(spec).__name__, deflection_mm=deflection_mm, angle_deg=angle_deg)
