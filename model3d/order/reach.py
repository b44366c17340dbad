"""Room for hands and for screwdrivers at the joints of a run, measured by rays against the things of the room.

Rays stand 25 mm apart, so that nothing wider than that is missed. Only the room counts: what is fitted is moved by the
same hands.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Literal

import numpy as np

from model3d.checks.free_rooms import HAND_MM
from model3d.geometry.placement import Placement, Vec3, add, scale
from model3d.layout import Piece
from model3d.moves.shapes import Shapes
from model3d.parts.fittings import SpigotSpec
from model3d.scene import Part
from model3d.scene.values import SWEPT_ROLES

APART_MM = 25.0
REACH_MM = 500.0  # nothing further counts
END = Literal["start", "end"]
NOT_MET = SWEPT_ROLES | {"floor"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Free:
    """How far it is free, mm, and what ends it; None when nothing does within reach."""

    distance_mm: float | None = None
    what: str = ""


def above_end(shapes: Shapes, room: Sequence[Part], piece: Piece, end: END) -> Free:
    """Free above a piece where hands work at its end: from the top of the section up, over a hand's breadth of the end
    and as far in front of it.
    """
    section = shapes.family.section
    top = section.floor_gap_mm + section.height_mm
    out = _spread(section.stand_off_mm + 1.0, section.front_u_mm + HAND_MM)
    starts = [_at(piece, t, u, top) for t, u in product(_along(piece, end), out)]
    return _least(shapes, room, starts, (0.0, 0.0, REACH_MM))


def before_end(shapes: Shapes, room: Sequence[Part], piece: Piece, end: END) -> Free:
    """Free in front of a piece where hands work at its end, out from its front face, over its height."""
    section = shapes.family.section
    heights = _spread(section.floor_gap_mm + 1.0, section.floor_gap_mm + section.height_mm)
    starts = [_at(piece, t, section.front_u_mm, v) for t, v in product(_along(piece, end), heights)]
    n = piece.wall.normal
    return _least(shapes, room, starts, (n[0] * REACH_MM, n[1] * REACH_MM, 0.0))


def before_screw(shapes: Shapes, room: Sequence[Part], spigots: Iterable[Part]) -> Free:
    """Free before the screws of a link's spigots, from the crown of each head along its axis: of those whose screws
    stand up the uppermost alone.
    """
    found = [p for p in spigots if isinstance(p.spec, SpigotSpec)]
    highest = max((p.placement.origin_mm[2] for p in found), default=0.0)
    best = Free()
    for part in found:
        at, spec = part.placement, part.spec
        upright = abs(at.z_axis[2]) > 0.5
        if isinstance(spec, SpigotSpec) and not (upright and at.origin_mm[2] < highest - 1.0):
            crown = spec.leg.outside.height_mm / 2.0 + spec.screw_height_mm
            r = spec.screw_radius_mm
            starts = [at.point((spec.screw_x_mm + x, y, crown)) for x, y in ((0, 0), (r, 0), (-r, 0), (0, r), (0, -r))]
            best = _nearer(best, _least(shapes, room, starts, scale(at.z_axis, REACH_MM)))
    return best


def _along(piece: Piece, end: END) -> list[float]:
    """Places along the run from the near cut face: a hand's breadth of an end, from a little past its face."""
    if end == "start":
        return _spread(-APART_MM, HAND_MM)
    return _spread(piece.cut_length_mm - HAND_MM, piece.cut_length_mm + APART_MM)


def _at(piece: Piece, t: float, u: float, v: float) -> Vec3:
    x, y = piece.wall.point_mm(piece.near_mm + piece.sense * t, u)
    return (x, y, v)


def _spread(low: float, high: float) -> list[float]:
    """Places from low to high, no further apart than rays may be."""
    count = max(2, int(np.ceil((high - low) / APART_MM)) + 1)
    return [float(v) for v in np.linspace(low, high, count)]


def _least(shapes: Shapes, room: Iterable[Part], starts: Sequence[Vec3], way: Vec3) -> Free:
    best = Free()
    for part in room:
        if part.role not in NOT_MET:
            share = _share(shapes, part, starts, way)
            if share <= 1.0:
                reach = float(np.linalg.norm(way))
                best = _nearer(best, Free(distance_mm=share * reach, what=part.obstacle or part.name))
    return best


def _share(shapes: Shapes, part: Part, starts: Sequence[Vec3], way: Vec3) -> float:
    """The share of the way to where the first ray meets a part; inf when none does."""
    back: Placement = part.placement.inverse()
    own = np.array([back.point(s) for s in starts])
    ends = np.array([back.point(add(s, way)) for s in starts])
    mesh = shapes.mesh(part)
    low, high = np.minimum(own, ends).min(axis=0), np.maximum(own, ends).max(axis=0)
    if np.any(low > mesh.box[1]) or np.any(high < mesh.box[0]):
        return float(np.inf)
    return float(mesh.faces.nearest(own, ends - own)[0].min())


def _nearer(a: Free, b: Free) -> Free:
    if a.distance_mm is None or (b.distance_mm is not None and b.distance_mm < a.distance_mm):
        return b
    return a
