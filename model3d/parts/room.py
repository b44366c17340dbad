"""The room and what stands in it, as plain bodies.

Wall frame: x along the wall from its first corner, y into the room with 0 at the wall's surface, z up from
the floor.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from model3d.geometry.outline import polygon
from model3d.geometry.placement import Vec2


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxSpec:
    """A box with a corner at the datum, ``size_mm`` along x, y, z."""

    size_mm: tuple[float, float, float]

    @property
    def volume_mm3(self) -> float:
        """Length times width times height."""
        return self.size_mm[0] * self.size_mm[1] * self.size_mm[2]


@dataclass(frozen=True, slots=True, kw_only=True)
class CylinderSpec:
    """A round bar or pipe (drawn solid) along +z from the datum, which is the centre of its lower end."""

    radius_mm: float
    length_mm: float

    @property
    def volume_mm3(self) -> float:
        """pi r^2 h."""
        return math.pi * self.radius_mm**2 * self.length_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class SlabSpec:
    """A flat body: a plan outline (anticlockwise points in the room's x, y) with holes (each a ring of
    points), from z = 0 up by ``thickness_mm``.
    """

    ring: tuple[Vec2, ...]
    holes: tuple[tuple[Vec2, ...], ...]
    thickness_mm: float

    @property
    def volume_mm3(self) -> float:
        """Ring area less the holes, times thickness (either sense of going round)."""
        area = abs(polygon(*self.ring).area_mm2) - sum(abs(polygon(*hole).area_mm2) for hole in self.holes)
        return area * self.thickness_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class WallHole:
    """An opening through a wall: from ``start_mm`` to ``end_mm`` along it, from ``bottom_mm`` to ``top_mm``
    up.
    """

    start_mm: float
    end_mm: float
    bottom_mm: float
    top_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WallSpec:
    """A wall: its surface along x from 0 to ``length_mm`` at y = 0, its back at y = -``thickness_mm``, mitred
    at both ends.

    ``back_start_mm`` and ``back_end_mm`` are where its back face starts and ends along x; where the mitres of
    a narrow wall would cross before its back, the wall ends in the edge where they meet. ``recesses`` are
    pockets (back boxes) as (start, end, bottom, top, depth), the depth from y = 0. Holes and recesses are cut to
    the wall; they do not overlap one another.

    ``face`` are the points (x, y), in order and both ends among them, through which the surface of a wall that bows
    goes straight from one to the next; none for a straight one.
    """

    length_mm: float
    height_mm: float
    thickness_mm: float
    back_start_mm: float
    back_end_mm: float
    holes: tuple[WallHole, ...]
    recesses: tuple[tuple[float, float, float, float, float], ...] = ()
    face: tuple[Vec2, ...] = ()

    @property
    def proudest_mm(self) -> float:
        """How far the surface stands out at most."""
        return max((y for _, y in self.face), default=0.0)

    def face_between(self, start_mm: float, end_mm: float) -> tuple[Vec2, ...]:
        """The surface from one x to another, counted from the first of them; none of a straight wall."""
        if not self.face:
            return ()
        inside = [(x - start_mm, y) for x, y in self.face if start_mm < x < end_mm]
        return ((0.0, self._y_at(start_mm)), *inside, (end_mm - start_mm, self._y_at(end_mm)))

    def _y_at(self, x_mm: float) -> float:
        for (a, low), (b, high) in zip(self.face, self.face[1:], strict=False):
            if a <= x_mm <= b and a < b:
                return low + (high - low) * (x_mm - a) / (b - a)
        return self.face[0][1] if x_mm < self.face[0][0] else self.face[-1][1]

    @property
    def plan(self) -> tuple[Vec2, ...]:
        """The wall seen from above, anticlockwise: four corners, or three when its mitres cross; its surface by all
        its points where it bows.
        """
        front = tuple(reversed(self.face)) or ((self.length_mm, 0.0), (0.0, 0.0))
        narrowing = self.length_mm - (self.back_end_mm - self.back_start_mm)
        if narrowing < self.length_mm:
            return (*front, (self.back_start_mm, -self.thickness_mm), (self.back_end_mm, -self.thickness_mm))
        there = self.length_mm / narrowing
        return (*front, (self.back_start_mm * there, -self.thickness_mm * there))

    @property
    def cut_outs(self) -> tuple[tuple[WallHole, float], ...]:
        """Every hole and recess with its depth from the surface, holes right through."""
        pockets = (
            (WallHole(start_mm=start, end_mm=end, bottom_mm=bottom, top_mm=top), depth)
            for start, end, bottom, top, depth in self.recesses
        )
        return (*((hole, self.thickness_mm) for hole in self.holes), *pockets)

    @property
    def volume_mm3(self) -> float:
        """Plan area times height, less, for every hole and recess, the part of the plan it takes times its
        height within the wall.
        """
        total = polygon(*self.plan).area_mm2 * self.height_mm
        for hole, depth_mm in self.cut_outs:
            up = min(hole.top_mm, self.height_mm) - max(hole.bottom_mm, 0.0)
            taken = plan_clipped(self.plan, hole.start_mm, hole.end_mm, depth_mm)
            if up > 0.0 and len(taken) > 2:
                total -= polygon(*taken).area_mm2 * up
        return total


def plan_clipped(plan: tuple[Vec2, ...], start_mm: float, end_mm: float, depth_mm: float) -> tuple[Vec2, ...]:
    """The part of a plan between two x and down to y = -``depth_mm``, cut by one line after another; empty when
    nothing is left. Of a plan that is not convex pieces may stay joined along a line that was cut by: without area.
    """
    for axis, limit, sign in ((0, start_mm, 1.0), (0, end_mm, -1.0), (1, -depth_mm, 1.0)):
        kept: list[Vec2] = []
        for here, there in zip(plan, (*plan[1:], *plan[:1]), strict=True):
            a, b = (here[axis] - limit) * sign, (there[axis] - limit) * sign
            if a >= 0.0:
                kept.append(here)
            if a * b < 0.0:
                f = a / (a - b)
                kept.append((here[0] + f * (there[0] - here[0]), here[1] + f * (there[1] - here[1])))
        if not kept:
            return ()
        plan = tuple(kept)
    return plan


@dataclass(frozen=True, slots=True, kw_only=True)
class CasingSpec:
    """A frame of three (door) or four (window) boards round an opening ``width_mm`` x ``height_mm``, standing
    ``depth_mm`` out along y.

    Datum: the lower corner of the opening at its start. Boards ``board_mm`` wide. ``sill`` closes the fourth
    side.
    """

    width_mm: float
    height_mm: float
    board_mm: float
    depth_mm: float
    sill: bool

    @property
    def volume_mm3(self) -> float:
        """The frame's outside less the opening, times depth."""
        up = self.height_mm + self.board_mm * (2.0 if self.sill else 1.0)
        frame = (self.width_mm + 2.0 * self.board_mm) * up - self.width_mm * self.height_mm
        return frame * self.depth_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class SectorSpec:
    """The room a door leaf sweeps: a sector of ``radius_mm`` from direction ``start_deg`` through
    ``sweep_deg`` (signed) about the datum, up by ``height_mm``.
    """

    radius_mm: float
    start_deg: float
    sweep_deg: float
    height_mm: float

    @property
    def volume_mm3(self) -> float:
        """r^2 |sweep| / 2 times height."""
        return self.radius_mm**2 * abs(math.radians(self.sweep_deg)) / 2.0 * self.height_mm
