"""How a joint's figures came about: its turn and its allowances."""

from __future__ import annotations

import math

from model3d.figures import Figure, plain
from model3d.layout import Joint, Layout
from model3d.rooms import CheckedPlan
from model3d.why.terms import allowance_lines
from model3d.why.values import Explanation, Line, Section


def explain_joint(plan: CheckedPlan, layout: Layout, joint: Joint) -> Explanation:
    """The sums of a joint: its turn, and the allowance on each side."""
    pieces = {p.mark: p for p in layout.pieces}
    earlier, later = pieces[joint.earlier], pieces[joint.later]
    sections = []
    if joint.corner is not None:
        sections.append(Section(title=f"Corner {joint.corner.id}", lines=(_turn_line(plan, joint),), note=joint.reason))
    before, after = (
        allowance_lines(earlier.end, "allowance"),
        allowance_lines(later.start, "allowance of the later piece"),
    )
    alike = math.isclose(earlier.end.allowance_mm, later.start.allowance_mm, abs_tol=1e-9)
    also = f", and alike in {joint.later}" if alike else ""
    sections.append(Section(title=f"In piece {joint.earlier}{also}", lines=before))
    if not alike:
        sections.append(Section(title=f"In piece {joint.later}", lines=after))
    where = f"corner {joint.corner.id}" if joint.corner is not None else f"wall {joint.wall.id}, in-line"
    return Explanation(
        mark=joint.mark,
        title=f"Joint {joint.mark}, {joint.kind} at {where}: allowance",
        sections=tuple(sections),
        result=before[-1].figure,
    )


def _turn_line(plan: CheckedPlan, joint: Joint) -> Line:
    """The turn of a corner from the directions of its walls; with the survey's standard error where there is one."""
    corner = joint.corner
    if corner is None:
        raise ValueError(f"joint {joint.mark} is in-line")
    ring = next(r for r in plan.room.rings if any(c.id == corner.id for c in r.corners))
    number = [c.id for c in ring.corners].index(corner.id)
    before, after = ring.walls[number - 1], ring.walls[number]
    towards = [math.degrees(math.atan2(w.direction[1], w.direction[0])) for w in (before, after)]
    whole = round((corner.turn_deg - (towards[1] - towards[0])) / 360.0) * 360
    more = f" {'+' if whole > 0 else '-'} {abs(whole)}" if whole else ""
    first = f"- {plain(towards[0])}" if towards[0] >= 0 else f"+ {plain(-towards[0])}"
    figure = Figure(
        name="turn",
        formula=f"{plain(towards[1])} {first}{more}",
        value=corner.turn_deg,
        unit="deg",
        rule=f"direction of wall {after.id} less that of wall {before.id}{_spread(plan, ring.id, number)}",
    )
    return Line(figure=figure, symbols="tau")


def _spread(plan: CheckedPlan, ring_id: str, number: int) -> str:
    if plan.survey is None or ring_id != plan.room.outer.id:
        return ""
    return f"; the survey's standard error is {plan.survey.corners[number].turn_sigma_deg:.2f}"
