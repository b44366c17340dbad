"""A group of meshes moved as one along a chain of steps past others that stand: the first contact, or the way is
free.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from model3d.geometry.placement import Placement, Vec3, subtract
from model3d.motion.mesh import MotionMesh, Points
from model3d.motion.sweep import Contact, first_contact, placed


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MotionBody:
    """A mesh standing somewhere, room frame."""

    id: str
    mesh: MotionMesh
    placement: Placement


@dataclass(frozen=True, slots=True, kw_only=True)
class Blocked:
    """What stops a step: which mover and which standing body, the share of the step done, and where, room frame."""

    mover: str
    standing: str
    contact: Contact


Wanted = Callable[[str, str], bool]
Memo = dict[tuple[object, ...], Contact | None]


def blocked(
    movers: Sequence[tuple[MotionBody, Placement]], standing: Iterable[MotionBody], *, wanted: Wanted, memo: Memo
) -> Blocked | None:
    """The earliest contact of movers, each going from where it stands to the placement beside it, with what stands;
    None when free.

    ``wanted`` says whether a pair of ids counts. ``memo`` carries answers between calls: the same meshes in the same
    relative places are asked once.
    """
    standing = tuple(standing)
    boxes = [_box(body.mesh, (body.placement,)) for body in standing]
    best: Blocked | None = None
    for mover, end in movers:
        low, high = _box(mover.mesh, (mover.placement, end))
        for body, (b_low, b_high) in zip(standing, boxes, strict=True):
            if np.any(low > b_high) or np.any(high < b_low) or not wanted(mover.id, body.id):
                continue
            contact = _asked(mover, end, body, memo)
            if contact is not None and (best is None or contact.share < best.contact.share):
                best = Blocked(mover=mover.id, standing=body.id, contact=contact)
    return best


def _asked(mover: MotionBody, end: Placement, body: MotionBody, memo: Memo) -> Contact | None:
    back = body.placement.inverse()
    key = (id(mover.mesh), id(body.mesh), _rounded(back @ mover.placement), _rounded(back @ end))
    if key not in memo:
        memo[key] = first_contact(mover.mesh, mover.placement, end, body.mesh, body.placement)
    return memo[key]


def _rounded(placement: Placement) -> tuple[float, ...]:
    values = (*placement.origin_mm, *placement.x_axis, *placement.y_axis)
    return tuple(round(v, 6) + 0.0 for v in values)


def _box(mesh: MotionMesh, at: Sequence[Placement]) -> tuple[Points, Points]:
    corners = np.array(
        [[mesh.box[i][0], mesh.box[j][1], mesh.box[k][2]] for i in (0, 1) for j in (0, 1) for k in (0, 1)]
    )
    points = np.concatenate([placed(corners, p) for p in at])
    return points.min(axis=0), points.max(axis=0)


def turning_steps(
    start: Placement, about_mm: Vec3, turn_deg: float, reach_mm: float, sagitta_mm: float
) -> list[Placement]:
    """Placements along a turn about the upright through ``about_mm``, so close that no point within ``reach_mm``
    leaves its chords by more than ``sagitta_mm``. The first is ``start``.
    """
    fine = 2.0 * math.degrees(math.acos(max(0.0, 1.0 - sagitta_mm / max(reach_mm, sagitta_mm))))
    count = max(1, math.ceil(abs(turn_deg) / fine))
    return [turned_about(start, about_mm, turn_deg * i / count) for i in range(count + 1)]


def turned_about(at: Placement, about_mm: Vec3, turn_deg: float) -> Placement:
    """The placement turned about the upright through a point, counter-clockwise seen from above."""
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))

    def turn(v: Vec3) -> Vec3:
        return (c * v[0] - s * v[1], s * v[0] + c * v[1], v[2])

    arm = turn(subtract(at.origin_mm, about_mm))
    return Placement(
        origin_mm=(about_mm[0] + arm[0], about_mm[1] + arm[1], about_mm[2] + arm[2]),
        x_axis=turn(at.x_axis),
        y_axis=turn(at.y_axis),
        z_axis=turn(at.z_axis),
    )
