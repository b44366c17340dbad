"""The centre line of a link's hose at rest, in plain numbers.

Seen from above: straight, arc, straight. Over the grip g at each end the hose lies level on its spigot's
rigid tail. With s the way along the plan line from the end of the first grip and S the length between the
grips, the slack hangs down as z(s) = -h (1 - cos(2 pi s / S)) / 2, level at both ends, with the sag h such
that the centre line is as long as the hose. Frame: the hose's (``HoseSpec``), millimetres.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from model3d.geometry.placement import Placement, Vec3
from model3d.parts.fittings import HoseSpec

_NOTHING_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class HoseCurve:
    """The centre line: two straights, an arc of signed ``turn_rad`` between them, and the sag at the
    middle."""

    straight_mm: float
    arc_radius_mm: float
    turn_rad: float
    sag_mm: float
    grip_mm: float = 0.0

    @property
    def free_length_mm(self) -> float:
        """Length between the grips, seen from above."""
        return self.plan_length_mm - 2.0 * self.grip_mm

    @property
    def plan_length_mm(self) -> float:
        """S: its length seen from above."""
        return 2.0 * self.straight_mm + self.arc_radius_mm * abs(self.turn_rad)

    @property
    def length_mm(self) -> float:
        """Its true length along the sag."""
        return 2.0 * self.grip_mm + _sagging_length_mm(self.free_length_mm, self.sag_mm)

    @property
    def least_bend_radius_mm(self) -> float:
        """Least radius of curvature in space; infinite for a straight hose without slack.

        With slope z' and curvature k of the plan line, curvature^2 = (k^2 (1 + z'^2) + z''^2) / (1 + z'^2)^3.
        On each part it is greatest where the slope is 0: at the ends of the grips and in the middle of the
        arc.
        """
        sag = 2.0 * math.pi**2 * self.sag_mm / self.free_length_mm**2
        arc = 1.0 / self.arc_radius_mm if self.turn_rad else 0.0
        curvature = math.hypot(sag, arc)
        return 1.0 / curvature if curvature > 0.0 else math.inf

    @property
    def junctions_mm(self) -> tuple[float, ...]:
        """Where along the plan line the parts meet, both ends included."""
        whole = self.plan_length_mm
        marks = {0.0, whole}
        if self.grip_mm > _NOTHING_MM and self.sag_mm:
            marks |= {self.grip_mm, whole - self.grip_mm}
        if self.turn_rad and self.straight_mm > _NOTHING_MM and abs(self.straight_mm - self.grip_mm) > _NOTHING_MM:
            marks |= {self.straight_mm, whole - self.straight_mm}
        return tuple(sorted(marks))

    def is_grip(self, from_mm: float, to_mm: float) -> bool:
        """Whether a stretch of the plan line lies within a grip, straight and level."""
        return to_mm <= self.grip_mm + _NOTHING_MM or from_mm >= self.plan_length_mm - self.grip_mm - _NOTHING_MM

    @property
    def end(self) -> Placement:
        """Where the hose ends: origin on its centre line, x along its way out, z up."""
        x, y, heading = self._plan(self.plan_length_mm)
        c, s = math.cos(heading), math.sin(heading)
        return Placement(origin_mm=(x, y, 0.0), x_axis=(c, s, 0.0), y_axis=(-s, c, 0.0))

    def point(self, s_mm: float) -> Vec3:
        """The point above the place ``s_mm`` along the plan line."""
        x, y, _ = self._plan(s_mm)
        return (x, y, -self.sag_mm * (1.0 - math.cos(2.0 * math.pi * self._free_share(s_mm))) / 2.0)

    def tangent(self, s_mm: float) -> Vec3:
        """The unit direction there."""
        heading, slope = self._plan(s_mm)[2], self.slope(s_mm)
        level = 1.0 / math.sqrt(1.0 + slope * slope)
        return (math.cos(heading) * level, math.sin(heading) * level, slope * level)

    def slope(self, s_mm: float) -> float:
        """dz/ds there."""
        return -self.sag_mm * math.pi / self.free_length_mm * math.sin(2.0 * math.pi * self._free_share(s_mm))

    def _free_share(self, s_mm: float) -> float:
        """How far between the grips, 0 to 1; 0 and 1 over them."""
        return min(max((s_mm - self.grip_mm) / self.free_length_mm, 0.0), 1.0)

    def _plan(self, s_mm: float) -> tuple[float, float, float]:
        """x, y and heading (radians) of the plan line."""
        arc_mm = self.arc_radius_mm * abs(self.turn_rad)
        if s_mm <= self.straight_mm or arc_mm == 0.0:
            return (s_mm, 0.0, 0.0)
        r, sense = self.arc_radius_mm, math.copysign(1.0, self.turn_rad)
        angle = min((s_mm - self.straight_mm) / r, abs(self.turn_rad))
        x = self.straight_mm + r * math.sin(angle)
        y = sense * r * (1.0 - math.cos(angle))
        beyond = max(s_mm - self.straight_mm - arc_mm, 0.0)
        heading = sense * angle
        return (x + beyond * math.cos(heading), y + beyond * math.sin(heading), heading)


def hose_curve(spec: HoseSpec) -> HoseCurve:
    """The centre line of a hose at rest.

    Raises ValueError when the hose is shorter than the way it has to go, or a straight is below 0 or shorter than
    the tail in it.
    """
    if spec.straight_mm < 0.0:
        raise ValueError(f"{spec.length_mm} mm leave a straight of {spec.straight_mm:.3f} mm, below 0")
    if spec.grip_mm > spec.straight_mm + 1e-9:
        raise ValueError(f"a rigid tail of {spec.grip_mm} mm does not fit a straight of {spec.straight_mm:.3f} mm")
    turn = math.radians(spec.turn_deg)
    bare = HoseCurve(
        straight_mm=spec.straight_mm,
        arc_radius_mm=spec.arc_radius_mm,
        turn_rad=turn if abs(turn) * spec.arc_radius_mm > _NOTHING_MM else 0.0,
        sag_mm=0.0,
    )
    whole = bare.plan_length_mm
    if spec.length_mm < whole - 1e-9:
        raise ValueError(f"{spec.length_mm} mm do not reach along {whole:.3f} mm")
    grips = 2.0 * spec.grip_mm
    sag = sag_for_mm(whole - grips, spec.length_mm - grips) if spec.length_mm > whole else 0.0
    return HoseCurve(
        straight_mm=bare.straight_mm,
        arc_radius_mm=bare.arc_radius_mm,
        turn_rad=bare.turn_rad,
        sag_mm=sag,
        grip_mm=spec.grip_mm,
    )


def sag_for_mm(plan_length_mm: float, length_mm: float) -> float:
    """The sag that makes a line, ``plan_length_mm`` seen from above, ``length_mm`` long, by halving."""
    low, high = 0.0, length_mm
    while high - low > 4.0 * math.ulp(high):
        middle = (low + high) / 2.0
        if _sagging_length_mm(plan_length_mm, middle) < length_mm:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0


def _sagging_length_mm(plan_length_mm: float, sag_mm: float) -> float:
    """Integral of sqrt(1 + z'^2), z' = -(pi h / S) sin(2 pi s / S), over one period.

    By the midpoint rule, which for a smooth period is exact to rounding.
    """
    steepest = math.pi * sag_mm / plan_length_mm
    count = 64
    slopes = (steepest * math.sin(math.pi * (k + 0.5) / count) for k in range(count))
    return plan_length_mm * sum(math.sqrt(1.0 + slope * slope) for slope in slopes) / count


def stretches_mm(curve: HoseCurve, spacing_mm: float) -> tuple[tuple[float, ...], ...]:
    """Places along the plan line for each stretch (straight, arc, straight): even, ends included.

    None stand further apart than ``spacing_mm``.
    """
    marks = curve.junctions_mm
    found: list[tuple[float, ...]] = []
    for a, b in pairwise(marks):
        count = math.ceil((b - a) / spacing_mm)
        found.append(tuple(b if k == count else a + (b - a) * k / count for k in range(count + 1)))
    return tuple(found)
