"""Where a wall's length comes from, and what of it a run takes."""

from __future__ import annotations

import math

from model3d.figures import Figure, plain
from model3d.rooms import CheckedPlan, RunSpan, Wall
from model3d.survey import LengthReading
from model3d.why.values import Line

LESS_THAN_SEEN_MM = 0.005


def wall_line(plan: CheckedPlan, wall: Wall) -> Line:
    """A wall's length: as surveyed, else from its corners."""
    reading = _surveyed(plan, wall)
    if reading is not None:
        read, residual = reading
        sign = "-" if residual < 0 else "+"
        figure = Figure(
            name=f"wall {wall.id}",
            formula=f"{plain(read)} {sign} {plain(abs(residual))}",
            value=wall.length_mm,
            unit="mm",
            rule="as read, and corrected by the survey's adjustment (least squares)",
        )
        return Line(figure=figure, symbols="reading + correction")
    (x1, y1), (x2, y2) = wall.start_mm, wall.end_mm
    figure = Figure(
        name=f"wall {wall.id}",
        formula=f"sqrt(({_minus(x2, x1)})^2 + ({_minus(y2, y1)})^2)",
        value=wall.length_mm,
        unit="mm",
        rule=f"distance of its corners {wall.first_corner.id} and {wall.last_corner.id}",
    )
    return Line(figure=figure, symbols="sqrt(dx^2 + dy^2)")


def _minus(a: float, b: float) -> str:
    return f"{plain(a)} - {plain(b)}" if b >= 0 else f"{plain(a)} + {plain(-b)}"


def _surveyed(plan: CheckedPlan, wall: Wall) -> tuple[float, float] | None:
    """The reading of a wall and its correction, None when it was not read."""
    if plan.survey is None or wall.ring != plan.room.outer.id:
        return None
    number = [w.id for w in plan.room.outer.walls].index(wall.id)
    for judged in plan.survey.readings:
        r = judged.reading
        if isinstance(r, LengthReading) and (r.first, r.second) == (number, (number + 1) % len(plan.room.outer.walls)):
            return r.value_mm, judged.residual
    return None


def span_lines(plan: CheckedPlan, span: RunSpan) -> tuple[Line, ...]:
    """The wall, and the part of it between the run's ends on it."""
    wall = wall_line(plan, span.wall)
    if math.isclose(span.length_mm, span.wall.length_mm, abs_tol=LESS_THAN_SEEN_MM):
        return (wall,)
    high, low = max(span.enters_mm, span.leaves_mm), min(span.enters_mm, span.leaves_mm)
    figure = Figure(
        name="wall between the run's ends",
        formula=f"{plain(high)} - {plain(low)}",
        value=span.length_mm,
        unit="mm",
        rule=f"the run goes from {plain(span.enters_mm)} to {plain(span.leaves_mm)} along the wall, from corner "
        f"{span.wall.first_corner.id}",
    )
    return (wall, Line(figure=figure))
