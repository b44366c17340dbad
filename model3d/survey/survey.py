"""A room's survey, from readings to corners and a report."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from model3d.geometry.placement import Vec2
from model3d.survey.adjust import Adjustment, adjust
from model3d.survey.judge import chi_square_limit, judged_readings, suspicion_of
from model3d.survey.network import slopes
from model3d.survey.readings import AngleReading, LengthReading, Reading
from model3d.survey.report import JudgedReading, SurveyedCorner, SurveyedWall, SurveyReport

if TYPE_CHECKING:
    from model3d.survey.network import Floats


def survey(start: Sequence[Vec2], readings: Sequence[Reading]) -> SurveyReport:
    """The room adjusted: its first corner at (0, 0), its first wall along x.

    ``start`` are the corners roughly, anticlockwise, in that frame. Raises NotFixed when the readings leave a corner
    free to move.
    """
    adjustment = adjust(start, readings)
    judged = judged_readings(adjustment, readings)
    return SurveyReport(
        redundancy=adjustment.redundancy,
        squares=adjustment.squares,
        limit=chi_square_limit(adjustment.redundancy),
        misclosure_mm=_misclosure(adjustment, judged),
        angle_misclosure_deg=_angle_misclosure(len(start), readings),
        readings=judged,
        corners=_corners(adjustment),
        walls=_walls(adjustment),
        suspicion=suspicion_of(start, adjustment, readings, judged) if adjustment.redundancy > 0 else None,
    )


def _corners(adjustment: Adjustment) -> tuple[SurveyedCorner, ...]:
    count = len(adjustment.points)
    spread = [math.sqrt(max(float(v), 0.0)) for v in adjustment.covariance.diagonal()]
    angles: list[Reading] = [
        AngleReading(name="", corner=i, toward=(i + 1) % count, back=(i - 1) % count, value_deg=180.0, sigma_deg=1.0)
        for i in range(count)
    ]
    sigmas = _propagated(adjustment, angles)
    return tuple(
        SurveyedCorner(
            at_mm=(float(x), float(y)),
            sigma_mm=(spread[2 * i], spread[2 * i + 1]),
            turn_deg=_turn(adjustment.points, i),
            turn_sigma_deg=sigmas[i],
        )
        for i, (x, y) in enumerate(adjustment.points)
    )


def _walls(adjustment: Adjustment) -> tuple[SurveyedWall, ...]:
    count = len(adjustment.points)
    lengths: list[Reading] = [
        LengthReading(name="", first=i, second=(i + 1) % count, value_mm=0.0, sigma_mm=1.0) for i in range(count)
    ]
    return tuple(
        SurveyedWall(length_mm=math.dist(adjustment.points[i], adjustment.points[(i + 1) % count]), sigma_mm=sigma)
        for i, sigma in enumerate(_propagated(adjustment, lengths))
    )


def _propagated(adjustment: Adjustment, made: Sequence[Reading]) -> list[float]:
    """Standard errors of figures made from the adjusted coordinates, by the law of propagation."""
    across = slopes(adjustment.points, made)
    return [math.sqrt(max(float(row @ adjustment.covariance @ row), 0.0)) for row in across]


def _turn(points: Floats, i: int) -> float:
    count = len(points)
    (ax, ay), (bx, by) = points[i] - points[i - 1], points[(i + 1) % count] - points[i]
    return math.degrees(math.atan2(ax * by - ay * bx, ax * bx + ay * by))


def _misclosure(adjustment: Adjustment, judged: Sequence[JudgedReading]) -> Vec2:
    """Where walls and turns as read end, from where they began; those not read are taken as adjusted."""
    points = adjustment.points
    count = len(points)
    lengths = [math.dist(points[i], points[(i + 1) % count]) for i in range(count)]
    turns = [_turn(points, i) for i in range(count)]
    for j in judged:
        r = j.reading
        if isinstance(r, LengthReading) and (r.first + 1) % count == r.second:
            lengths[r.first] = r.value_mm
        elif isinstance(r, AngleReading) and r.toward == (r.corner + 1) % count and r.back == (r.corner - 1) % count:
            turns[r.corner] = 180.0 - r.value_deg
    x = y = heading = 0.0
    for i in range(count):
        x += lengths[i] * math.cos(heading)
        y += lengths[i] * math.sin(heading)
        heading += math.radians(turns[(i + 1) % count])
    return (x, y)


def _angle_misclosure(count: int, readings: Sequence[Reading]) -> float | None:
    """Interior angles round a room add up to (n - 2) 180 degrees."""
    interior = {
        r.corner: r.value_deg
        for r in readings
        if isinstance(r, AngleReading) and r.toward == (r.corner + 1) % count and r.back == (r.corner - 1) % count
    }
    return sum(interior.values()) - (count - 2) * 180.0 if len(interior) == count else None
