"""Explaining a mark: from a layout to the sums behind it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from model3d.families.family import Family
from model3d.layout import Layout
from model3d.rooms import CheckedPlan
from model3d.seals import seal_report
from model3d.sources import near_miss
from model3d.thermal import thermal_groups, thermal_report
from model3d.water import water_report
from model3d.why.brackets import bracket_sections
from model3d.why.joint import explain_joint
from model3d.why.piece import explain_dry, explain_piece
from model3d.why.run import explain_run, water_sections
from model3d.why.values import Explanation, Line, Section


class UnknownMark(LookupError):
    """No piece, no joint and no run has this mark."""


def explain(plan: CheckedPlan, layout: Layout, family: Family, mark: str) -> Explanation:
    """How the figures of a piece (its cut length), of a joint (its allowance, what is done with its elbows) or of a run
    (its output) came about.

    Growth, insertions, hoses, seals and water follow where the layout was not refused. Raises UnknownMark when there is
    no such mark.
    """
    run = next((r for r in layout.runs if r.id == mark), None)
    if run is not None and not layout.refused:
        return explain_run(plan, layout, family, run)
    found = _sums(plan, layout, family, mark)
    piece = next((p for p in layout.pieces if p.mark == mark), None)
    sections = [*found.sections, *(bracket_sections(plan, layout, family, piece) if piece is not None else ())]
    if not layout.refused:
        sections += _states(plan, layout, family, mark)
    return replace(found, sections=tuple(sections))


def _states(plan: CheckedPlan, layout: Layout, family: Family, mark: str) -> Iterator[Section]:
    """What becomes of it: warm and cold, wet and tight."""
    thermal = thermal_report(plan, layout, family)
    groups = [g for g in thermal_groups(thermal) if mark in g.marks]
    figures = [f for f in thermal.figures_of(mark) if f.rule != "cut length"]  # said above
    if figures:
        notes = "\n".join(n for g in groups for n in g.notes)
        yield Section(title="Warm and cold", lines=tuple(Line(figure=f) for f in figures), note=notes)
    joint = next((j for run in layout.runs for j in run.joints if j.mark == mark), None)
    if joint is not None:
        report = seal_report(family)
        own = [s.past_mouth for s in report.seals if s.leg.split(",")[0] == joint.kind]
        sealing = (*report.stretch.figures, *report.gland.figures, *own)
        yield Section(title="Seals", lines=tuple(Line(figure=f) for f in sealing))
    yield from water_sections(plan, water_report(plan, layout, family), mark)


def _sums(plan: CheckedPlan, layout: Layout, family: Family, mark: str) -> Explanation:
    for piece in layout.pieces:
        if piece.mark == mark:
            return explain_piece(plan, layout, family, piece) if piece.heated else explain_dry(plan, family, piece)
    for joint in (j for run in layout.runs for j in run.joints):
        if joint.mark == mark:
            return explain_joint(plan, layout, joint)
    marks = [r.id for r in layout.runs if not layout.refused] + [p.mark for p in layout.pieces]
    marks += [j.mark for run in layout.runs for j in run.joints]
    listed = ", ".join(marks) if marks else "none"
    raise UnknownMark(f"there is no mark '{mark}'{near_miss(mark, marks)} (marks: {listed})")
