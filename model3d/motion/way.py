"""A group of meshes moved as one along a way past others that stand: what it meets first, all it meets, or how near
it comes.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from model3d.geometry.placement import Placement, Vec3, subtract
from model3d.motion.mesh import MotionMesh, Points
from model3d.motion.sweep import between, contact_place, first_contact, least_gap, placed


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MotionBody:
    """A mesh standing somewhere, room frame."""

    id: str
    mesh: MotionMesh
    placement: Placement


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Moving:
    """A mesh that goes through poses, room frame, in even steps: straight from each to the next, or turning by as
    little as ``turning_steps`` gives.
    """

    id: str
    mesh: MotionMesh
    poses: tuple[Placement, ...]

    def at(self, share: float) -> Placement:
        """Where it is when a share of its way is done."""
        steps = len(self.poses) - 1
        k = min(int(share * steps), steps - 1)
        return between(self.poses[k], self.poses[k + 1], share * steps - k)


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """A mover meets a standing body with ``share`` of its way done; 0 when it stands in it from the start."""

    mover: str
    standing: str
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Blocked:
    """What stops a way: the first contact, and where it is, room frame, mm."""

    contact: Contact
    place_mm: Vec3


@dataclass(frozen=True, slots=True, kw_only=True)
class Nearest:
    """How near the movers come to what stands: the two, the distance and the place midway between."""

    mover: str
    standing: str
    distance_mm: float
    place_mm: Vec3


@dataclass(frozen=True, slots=True, kw_only=True)
class Give:
    """How far the mover and the standing body of a pair may be drawn in beyond the skin: how deep the two are meant to
    stand in one another, whichever of them bends.
    """

    mover_mm: float = 0.0
    standing_mm: float = 0.0


RIGID = Give()
Meant = Callable[[str, str], Give | None]
First = Callable[[MotionMesh, Sequence[Placement], MotionMesh, Placement], float | None]
Memo = dict[tuple[object, ...], float | None]
SKIN_MM = 0.04  # contact is no collision: movers are drawn in by this much


def rigid(_mover: str, _standing: str) -> Give:
    """Nothing is meant to stand in anything."""
    return RIGID


def contacts(
    movers: Sequence[Moving],
    standing: Iterable[MotionBody],
    *,
    meant: Meant = rigid,
    memo: Memo | None = None,
    skin_mm: float = SKIN_MM,
    first: First | None = None,
) -> Iterator[Contact]:
    """The first contact of every pair that has one.

    ``meant`` says of a pair of ids (mover, standing) what may give, None when the pair does not count. ``memo`` carries
    answers between calls: the same meshes in the same relative places are asked once. Movers are drawn in by the skin.
    ``first`` answers for one pair: by sweeping when it is None.
    """
    memo = {} if memo is None else memo
    standing = tuple(standing)
    lows, highs = _boxes_of(standing)
    for mover in movers:
        low, high = _box(mover.mesh, mover.poses)
        for k in np.flatnonzero(np.all((lows <= high) & (highs >= low), axis=1)):
            body = standing[k]
            give = meant(mover.id, body.id)
            if give is not None:
                share = _asked(mover, body, give, skin_mm, memo, first or swept)
                if share is not None:
                    yield Contact(mover=mover.id, standing=body.id, share=share)


def blocked(
    movers: Sequence[Moving],
    standing: Iterable[MotionBody],
    *,
    meant: Meant = rigid,
    memo: Memo | None = None,
    skin_mm: float = SKIN_MM,
) -> Blocked | None:
    """The earliest contact on the way, None when it is free; see ``contacts``."""
    standing = tuple(standing)
    found = contacts(movers, standing, meant=meant, memo=memo, skin_mm=skin_mm)
    first = min(found, key=lambda c: c.share, default=None)
    if first is None:
        return None
    mover = next(m for m in movers if m.id == first.mover)
    body = next(b for b in standing if b.id == first.standing)
    there = mover.at(first.share)
    return Blocked(contact=first, place_mm=contact_place(mover.mesh, there, body.mesh, body.placement))


def nearest(
    movers: Sequence[Moving], standing: Iterable[MotionBody], *, meant: Meant = rigid, within_mm: float
) -> Nearest | None:
    """How near the movers come on a way known to be free; None when nothing comes within ``within_mm``.

    Only pairs count of which ``meant`` says that neither gives.
    """
    standing = tuple(standing)
    lows, highs = _boxes_of(standing)
    pairs: list[tuple[float, Moving, MotionBody]] = []
    for mover in movers:
        low, high = _box(mover.mesh, mover.poses)
        apart = np.linalg.norm(np.maximum(np.maximum(lows - high, low - highs), 0.0), axis=1)
        near = (k for k in np.flatnonzero(apart < within_mm) if meant(mover.id, standing[k].id) == RIGID)
        pairs += [(float(apart[k]), mover, standing[k]) for k in near]
    best: Nearest | None = None
    for apart_mm, mover, body in sorted(pairs, key=lambda p: p[0]):
        if apart_mm >= within_mm:
            break
        for start, end in pairwise(mover.poses):
            found = least_gap(mover.mesh, start, end, body.mesh, body.placement, within_mm=within_mm)
            if found is not None:
                within_mm = found[0]
                best = Nearest(mover=mover.id, standing=body.id, distance_mm=found[0], place_mm=found[1])
    return best


def _asked(mover: Moving, body: MotionBody, give: Give, skin_mm: float, memo: Memo, first: First) -> float | None:
    back = body.placement.inverse()
    moving, standing = mover.mesh.drawn(skin_mm + give.mover_mm), body.mesh.drawn(give.standing_mm)
    key = (moving, standing, _rounded(back @ mover.poses[0]), _rounded(back @ mover.poses[-1]), len(mover.poses))
    if key not in memo:
        memo[key] = first(moving, mover.poses, standing, body.placement)
    return memo[key]


def swept(moving: MotionMesh, poses: Sequence[Placement], standing: MotionMesh, at: Placement) -> float | None:
    """The share of a mesh's way done when it first meets a standing one, None when it does not."""
    for k, (start, end) in enumerate(pairwise(poses)):
        share = first_contact(moving, start, end, standing, at, begun=k > 0)
        if share is not None:
            return (k + share) / (len(poses) - 1)
    return None


def _rounded(placement: Placement) -> tuple[float, ...]:
    values = (*placement.origin_mm, *placement.x_axis, *placement.y_axis)
    return tuple(round(v, 6) + 0.0 for v in values)


def _boxes_of(bodies: Sequence[MotionBody]) -> tuple[Points, Points]:
    boxes = [_box(b.mesh, (b.placement,)) for b in bodies]
    return np.array([b[0] for b in boxes]).reshape(-1, 3), np.array([b[1] for b in boxes]).reshape(-1, 3)


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
