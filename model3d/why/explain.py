"""Explaining a mark: from a layout to the sums behind it."""

from __future__ import annotations

from dataclasses import replace

from model3d.families.family import Family
from model3d.layout import Layout
from model3d.rooms import CheckedPlan
from model3d.sources import near_miss
from model3d.thermal import thermal_report
from model3d.why.joint import explain_joint
from model3d.why.piece import explain_dry, explain_piece
from model3d.why.values import Explanation, Line, Section


class UnknownMark(LookupError):
    """No piece and no joint has this mark."""


def explain(plan: CheckedPlan, layout: Layout, family: Family, mark: str) -> Explanation:
    """How the figures of a piece (its cut length) or of a joint (its allowance, what is done with its elbows) came
    about.

    Growth, insertions, what is done with elbows, and hoses follow where the layout was not refused. Raises
    UnknownMark when there is no such mark.
    """
    found = _sums(plan, layout, family, mark)
    if layout.refused:
        return found
    figures = [f for f in thermal_report(plan, layout, family).figures_of(mark) if f.rule != "cut length"]  # said above
    if not figures:
        return found
    warm = Section(title="Warm and cold", lines=tuple(Line(figure=f) for f in figures))
    return replace(found, sections=(*found.sections, warm))


def _sums(plan: CheckedPlan, layout: Layout, family: Family, mark: str) -> Explanation:
    for piece in layout.pieces:
        if piece.mark == mark:
            return explain_piece(plan, layout, family, piece) if piece.heated else explain_dry(plan, family, piece)
    for joint in (j for run in layout.runs for j in run.joints):
        if joint.mark == mark:
            return explain_joint(plan, layout, joint)
    marks = [p.mark for p in layout.pieces] + [j.mark for run in layout.runs for j in run.joints]
    listed = ", ".join(marks) if marks else "none"
    raise UnknownMark(f"there is no mark '{mark}'{near_miss(mark, marks)} (marks: {listed})")
