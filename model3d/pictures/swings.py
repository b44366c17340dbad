"""The path of a turning leg as points in the room."""

from __future__ import annotations

import math

from model3d.geometry.placement import Vec3, add, cross, dot, length, scale, subtract
from model3d.pictures.stage import Swing


def turned(point_mm: Vec3, centre_mm: Vec3, axis: Vec3, turn_deg: float) -> Vec3:
    """A point turned about the line through ``centre_mm`` along ``axis`` (Rodrigues' formula, right-hand
    rule).
    """
    unit = scale(axis, 1 / length(axis))
    arm = subtract(point_mm, centre_mm)
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    swept = add(add(scale(arm, c), scale(cross(unit, arm), s)), scale(unit, dot(unit, arm) * (1 - c)))
    return add(centre_mm, swept)


def arc(swing: Swing, lead_deg: float = 0.0, steps: int = 24) -> tuple[Vec3, ...]:
    """Points of a swing from its start (or ``lead_deg`` before it) to its end."""
    sign = 1.0 if swing.turn_deg >= 0 else -1.0
    angles = [-sign * lead_deg + (swing.turn_deg + sign * lead_deg) * k / steps for k in range(steps + 1)]
    return tuple(turned(swing.start_mm, swing.centre_mm, swing.axis, angle) for angle in angles)
