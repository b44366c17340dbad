"""The room and what stands in it, as plain bodies.

Wall frame: x along the wall from its first corner, y into the room with 0 at the wall's surface, z up from the floor.
"""

from __future__ import annotations

from dataclasses import dataclass

from model3d.geometry.placement import Vec2


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxSpec:
    """A box with a corner at the datum, ``size_mm`` along x, y, z."""

    size_mm: tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class CylinderSpec:
    """A round bar or pipe (drawn solid) along +z from the datum, which is the centre of its lower end."""

    radius_mm: float
    length_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SlabSpec:
    """A flat body: a plan outline (anticlockwise points in the room's x, y) with holes (each a ring of points), from z = 0 up by ``thickness_mm``."""

    ring: tuple[Vec2, ...]
    holes: tuple[tuple[Vec2, ...], ...]
    thickness_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WallHole:
    """An opening through a wall: from ``start_mm`` to ``end_mm`` along it, from ``bottom_mm`` to ``top_mm`` up."""

    start_mm: float
    end_mm: float
    bottom_mm: float
    top_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WallSpec:
    """A wall: its surface along x from 0 to ``length_mm`` at y = 0, its back at y = -``thickness_mm``, mitred at both ends.

    ``back_start_mm`` and ``back_end_mm`` are where its back face starts and ends along x. ``recesses`` are pockets (back boxes) as
    (start, end, bottom, top, depth).
    """

    length_mm: float
    height_mm: float
    thickness_mm: float
    back_start_mm: float
    back_end_mm: float
    holes: tuple[WallHole, ...]
    recesses: tuple[tuple[float, float, float, float, float], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CasingSpec:
    """A frame of three (door) or four (window) boards round an opening ``width_mm`` x ``height_mm``, standing ``depth_mm`` out along y.

    Datum: the lower corner of the opening at its start. Boards ``board_mm`` wide. ``sill`` closes the fourth side.
    """

    width_mm: float
    height_mm: float
    board_mm: float
    depth_mm: float
    sill: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SectorSpec:
    """The room a door leaf sweeps: a sector of ``radius_mm`` from direction ``start_deg`` through ``sweep_deg`` (signed) about the datum, up by ``height_mm``."""

    radius_mm: float
    start_deg: float
    sweep_deg: float
    height_mm: float
