"""Pairs that touch, or all but touch, whose overlap is known by geometry alone.

Depth is the diameter of the widest ball that fits in the overlap; where that is no wider than contact, and the bodies
meet from one side, the least move that takes them apart.
"""

from __future__ import annotations

import math

import cadquery as cq

from model3d.geometry.placement import Placement, at
from tests.checks.cases import FREE, Answer, Case
from tests.checks.known_solids import (
    HERE,
    ball,
    box,
    drilled_plate,
    edge_bar,
    less,
    middle_box,
    prism,
    ring,
    rod,
    turned_z,
)
from tests.checks.round_answers import segment_mm2


def _on_its_corner(down_mm: float) -> Placement:
    """A box on its corner over a plate 10 thick, so far down in it."""
    return Placement(
        origin_mm=(30.0, 30.0, 10.0 - down_mm),
        x_axis=(math.sqrt(1 / 2), math.sqrt(1 / 6), math.sqrt(1 / 3)),
        y_axis=(-math.sqrt(1 / 2), math.sqrt(1 / 6), math.sqrt(1 / 3)),
        z_axis=(0.0, -math.sqrt(2 / 3), math.sqrt(1 / 3)),
    )


def _corner(down_mm: float, depth_mm: float) -> Answer:
    """A box's corner so far down in a plate: a pyramid of three square edges."""
    edge = down_mm * math.sqrt(3)
    return Answer(volume_mm3=edge**3 / 6, depth_mm=depth_mm, deep_to_mm=5e-4)


def _crescent_mm2(rod_mm: float, bore_mm: float, off_mm: float) -> float:
    """What of a circle stands out of a wider one, its middle so far off (the lens of two circles)."""
    near = (off_mm**2 + rod_mm**2 - bore_mm**2) / (2 * off_mm)
    far = off_mm - near
    shared = rod_mm**2 * math.acos(near / rod_mm) - near * math.sqrt(rod_mm**2 - near**2)
    shared += bore_mm**2 * math.acos(far / bore_mm) - far * math.sqrt(bore_mm**2 - far**2)
    return math.pi * rod_mm**2 - shared


def _saddle() -> cq.Solid:
    """A block with half a bore of radius 10.05 along z in its top."""
    return less(box(40, 20, 30, (-20, -20, -15)), rod(10.05, 60, -30))


def _slot(width_mm: float) -> cq.Solid:
    """A block with a slot along x, 10 deep."""
    return less(middle_box(40, 40, 20), box(60, width_mm, 20, (-30, -width_mm / 2, 0)))


def _angle() -> cq.Solid:
    """An L of flat bar."""
    return prism([(0, 0), (40, 0), (40, 6), (6, 6), (6, 30), (0, 30)], 20.0)


SLIGHT: tuple[Case, ...] = (
    Case(
        name="a corner .025 in a plate",
        a=lambda: box(60, 60, 10),
        b=lambda: box(20, 20, 20),
        b_at=_on_its_corner(0.025),
        answer=_corner(0.025, 0.025),
    ),
    Case(
        name="a corner .1 in a plate",
        a=lambda: box(60, 60, 10),
        b=lambda: box(20, 20, 20),
        b_at=_on_its_corner(0.1),
        answer=_corner(0.1, 2 * 0.1 * math.sqrt(3) / (3 + math.sqrt(3))),
    ),
    Case(
        name="a corner .015 in a plate",
        a=lambda: box(60, 60, 10),
        b=lambda: box(20, 20, 20),
        b_at=_on_its_corner(0.015),
        answer=FREE,
    ),
    Case(
        name="edges cross .025 deep",
        a=lambda: edge_bar(-1),
        b=lambda: edge_bar(1),
        a_at=at(0, 0, 0.0125),
        b_at=turned_z(90, (0, 0, -0.0125)),
        answer=Answer(volume_mm3=0.05 * 0.05 * 0.025 / 6, depth_mm=0.025, place_mm=(0, 0, 0), deep_to_mm=5e-4),
    ),
    Case(
        name="edges cross .015 deep",
        a=lambda: edge_bar(-1),
        b=lambda: edge_bar(1),
        a_at=at(0, 0, 0.0075),
        b_at=turned_z(90, (0, 0, -0.0075)),
        answer=FREE,
    ),
    Case(name="a rod .015 deep in a saddle", a=_saddle, b=lambda: rod(10, 60, -30), b_at=at(0, -0.065, 0), answer=FREE),
    Case(
        name="a rod .05 deep in a saddle",
        a=_saddle,
        b=lambda: rod(10, 60, -30),
        b_at=at(0, -0.1, 0),
        answer=Answer(volume_mm3=_crescent_mm2(10, 10.05, 0.1) * 30, depth_mm=0.05, deep_to_mm=0.003),
    ),
    Case(
        name="a ring lies on a plate",
        a=lambda: box(60, 60, 10),
        b=lambda: ring(20, 2),
        b_at=at(30, 30, 12),
        answer=FREE,
    ),
    Case(
        name="a ring lies .05 in a plate",
        a=lambda: box(60, 60, 10),
        b=lambda: ring(20, 2),
        b_at=at(30, 30, 11.95),
        answer=Answer(volume_mm3=segment_mm2(2, 0.05) * 40 * math.pi, depth_mm=0.05, deep_to_mm=0.003),
    ),
    Case(name="a ring on a ring", a=lambda: ring(20, 2), b=lambda: ring(20, 2), b_at=at(0, 0, 4), answer=FREE),
    Case(
        name="a ring in the groove it was turned with",
        a=lambda: less(rod(21, 30, -15), ring(22, 2)),
        b=lambda: ring(22, 2),
        b_at=HERE,
        answer=FREE,
    ),
    Case(name="rods end to end", a=lambda: rod(5, 40), b=lambda: rod(5, 40), b_at=at(0, 0, 40), answer=FREE),
    Case(
        name="rods .04 in one another, end to end",
        a=lambda: rod(5, 40),
        b=lambda: rod(5, 40),
        b_at=at(0, 0, 39.96),
        answer=Answer(volume_mm3=math.pi * 25 * 0.04, depth_mm=0.04, deep_to_mm=1e-3),
    ),
    Case(
        name="a bar in a slot of its width",
        a=lambda: _slot(12),
        b=lambda: middle_box(60, 12, 20),
        b_at=at(0, 0, 10),
        answer=FREE,
    ),
    Case(
        name="a bar .06 too wide for its slot",
        a=lambda: _slot(12),
        b=lambda: middle_box(60, 12.06, 20),
        b_at=at(0, 0, 10),
        answer=Answer(volume_mm3=2 * 0.03 * 40 * 10, depth_mm=0.03),
    ),
    Case(name="an angle in an angle", a=_angle, b=_angle, b_at=at(6, 6, 0), answer=FREE),
    Case(
        name="an angle that bites in an angle",
        a=_angle,
        b=_angle,
        b_at=at(5.9, 6, 0),
        answer=Answer(volume_mm3=0.1 * 24 * 20, depth_mm=0.1),
    ),
    Case(
        name="a pin .2 too long for its hole",
        a=lambda: less(box(40, 40, 20, (-20, -20, -20)), rod(4, 20, -12)),
        b=lambda: rod(4, 30, -12.2),
        b_at=HERE,
        answer=Answer(volume_mm3=math.pi * 16 * 0.2, depth_mm=0.2),
    ),
    Case(name="a ball in a hole of its size", a=lambda: drilled_plate(8), b=lambda: ball(8), b_at=HERE, answer=FREE),
    Case(
        name="a ball .1 too thick for its hole",
        a=lambda: drilled_plate(8),
        b=lambda: ball(8.05),
        b_at=HERE,
        answer=Answer(volume_mm3=4 / 3 * math.pi * (8.05**2 - 64) ** 1.5, depth_mm=0.05, deep_to_mm=0.005),
    ),
)
