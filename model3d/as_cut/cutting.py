"""Applying the lengths that pieces were cut to, and the pieces that are up, to a layout."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from model3d.as_cut.blame import each_once
from model3d.as_cut.changes import FaultKey, least_change
from model3d.as_cut.judging import Outcome, RunJudge
from model3d.as_cut.placing import Lengths, placed
from model3d.as_cut.said import findings_of, fitted_findings, unknown_findings
from model3d.as_cut.values import Change, CutLayout, EndAsCut, PieceAsCut
from model3d.families.family import Family
from model3d.figures import Figure
from model3d.findings import Finding
from model3d.layout import Layout, Piece, RunLayout
from model3d.rooms import CheckedPlan
from model3d.thermal import thermal_report
from model3d.thermal.growing import coupled_groups
from model3d.thermal.values import ThermalReport

SAME_WITHIN_MM = 0.01


def with_cuts(plan: CheckedPlan, layout: Layout, family: Family) -> CutLayout:
    """The layout with the plan's ``as_cut`` lengths and ``fitted`` pieces, and what comes of them.

    Without any, the layout itself. One that was refused is left as it is.
    """
    if not (plan.as_cut or plan.fitted) or layout.refused:
        return CutLayout(layout=layout, pieces=())
    lengths = {c.mark: c.length_mm for c in plan.as_cut}
    found = [*unknown_findings(plan, layout), *fitted_findings(plan, layout)]
    pieces: list[PieceAsCut] = []
    runs: list[RunLayout] = []
    for run in layout.runs:
        if not any(p.mark in lengths for p in run.pieces):
            runs.append(run)
            continue
        judge = RunJudge(plan, layout, family, run)
        outcome = judge.outcome(lengths)
        runs.append(outcome.layout.runs[0])
        pieces += each_once(tuple(_as_cut(plan, family, judge, outcome, lengths)), plan.fitted)
    dry = placed(replace(layout, runs=()), lengths, {}).dry_pieces
    pieces += [_dry_as_cut(p) for p in dry if p.planned_mm is not None]
    found += [f for p in pieces for f in findings_of(p, layout)]
    cut = replace(layout, runs=tuple(runs), dry_pieces=dry, findings=(*layout.findings, *found))
    return CutLayout(layout=_with_fitted(cut, frozenset(plan.fitted)), pieces=tuple(pieces))


def _with_fitted(layout: Layout, fitted: frozenset[str]) -> Layout:
    def marked(pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
        return tuple(replace(p, fitted=True) if p.mark in fitted else p for p in pieces)

    return replace(
        layout,
        runs=tuple(replace(r, pieces=marked(r.pieces)) for r in layout.runs),
        dry_pieces=marked(layout.dry_pieces),
    )


def _as_cut(
    plan: CheckedPlan, family: Family, judge: RunJudge, outcome: Outcome, lengths: dict[str, float]
) -> Iterator[PieceAsCut]:
    """Every piece of a run that was cut to a length of its own."""
    report = thermal_report(judge.plan, outcome.layout, family)
    run = outcome.layout.runs[0]
    laid_out = {p.mark: p for p in judge.run.pieces}
    for piece in run.pieces:
        if piece.mark not in lengths:
            continue
        planned = laid_out[piece.mark]
        off = lengths[piece.mark] - planned.cut_length_mm
        ends = _ends(run, piece, outcome, report, lengths)
        change = None
        wrong = {(f.code, f.parts) for e in ends for f in e.found}
        if wrong:
            others = [
                p
                for p in judge.run.pieces
                if p.wall.id == piece.wall.id and p.mark not in lengths and p.mark not in plan.fitted
            ]
            aside = _others_faults(judge, lengths, planned, wrong)
            up = piece.mark in plan.fitted
            change = least_change(judge, lengths, planned, off, others, up=up, aside=aside)
        yield PieceAsCut(
            mark=piece.mark, planned_mm=planned.cut_length_mm, cut_mm=lengths[piece.mark], ends=ends, change=change
        )


def _others_faults(judge: RunJudge, lengths: Lengths, planned: Piece, wrong: set[FaultKey]) -> frozenset[FaultKey]:
    """What would be wrong in the run with this piece cut as laid out: other pieces' mistakes, which no length of this
    one mends. Nothing when its own faults are among them.
    """
    others = {(f.code, f.parts) for f in judge.outcome({**lengths, planned.mark: planned.cut_length_mm}).faults}
    return frozenset() if wrong <= others else frozenset(others)


def _ends(
    run: RunLayout, piece: Piece, outcome: Outcome, report: ThermalReport, lengths: Lengths
) -> tuple[EndAsCut, EndAsCut]:
    """The two ends of a piece, or of the pieces that couplers make one with it.

    What is wrong with long legs is the earlier piece's doing, which they stand in; what is wrong with a hose that of
    each piece whose end has moved, and of the one that was cut where the other was not.
    """
    group = next(g for g in coupled_groups(run) if any(p.mark == piece.mark for p in g))
    first, last = group[0], group[-1]
    before = next((j.mark for j in run.joints if j.later == first.mark), None)
    after = next((j.mark for j in run.joints if j.earlier == last.mark), None)
    marks = {p.mark for p in group}
    own = [f for f in outcome.faults if len(f.parts) == 1 and f.parts[0] in marks]
    earlier = next((j.earlier for j in run.joints if j.mark == before), "")
    later = next((j.later for j in run.joints if j.mark == after), "")
    at_near = [
        f for f in outcome.faults if f.parts == (before,) and (_moved(first.near_out_mm) or earlier not in lengths)
    ]
    at_far = [f for f in outcome.faults if f.parts == (after,) and (_moved(last.far_out_mm) or later not in lengths)]
    at_far += [f for f in outcome.faults if len(f.parts) == 2 and f.parts[0] == after and f.parts[1] in marks] + own
    return (
        EndAsCut(
            end="near",
            joint=first.start.joint,
            mark=before,
            out_mm=first.near_out_mm,
            figures=_figures(report, before, long_legs=False),
            found=tuple(at_near),
        ),
        EndAsCut(
            end="far",
            joint=last.end.joint,
            mark=after,
            out_mm=last.far_out_mm,
            figures=_figures(report, after, long_legs=True),
            found=tuple(at_far),
        ),
    )


def _moved(out_mm: float) -> bool:
    return abs(out_mm) > SAME_WITHIN_MM


def _figures(report: ThermalReport, joint: str | None, *, long_legs: bool) -> tuple[Figure, ...]:
    """What is in a joint, hot and cold: insertions of the long legs in this piece with their window, or how far the
    hose's ends stand apart.
    """
    legs = [f for leg in report.long_legs if leg.joint == joint for f in (leg.least, *leg.states, leg.most)]
    hoses = [s.apart for hose in report.hoses if hose.joint == joint for s in hose.states]
    return (*(legs if long_legs else ()), *hoses)


def _dry_as_cut(piece: Piece) -> PieceAsCut:
    """A dry piece keeps its near end; what is left at its far end must take its growth."""
    planned = piece.planned_mm if piece.planned_mm is not None else piece.cut_length_mm
    short = -piece.growth_gap_mm
    near = EndAsCut(end="near", joint="none", mark=None, out_mm=0.0, figures=(), found=())
    found = (_dry_too_long(piece, short),) if short > SAME_WITHIN_MM else ()
    far = EndAsCut(end="far", joint="none", mark=None, out_mm=piece.far_out_mm, figures=(), found=found)
    off = math.ceil(10.0 * short) / 10.0
    change = Change(kind="cut-off", mark=piece.mark, by_mm=off, length_mm=piece.cut_length_mm - off) if found else None
    return PieceAsCut(mark=piece.mark, planned_mm=planned, cut_mm=piece.cut_length_mm, ends=(near, far), change=change)


def _dry_too_long(piece: Piece, short_mm: float) -> Finding:
    return Finding(
        code="growth-gap-too-small",
        severity="error",
        where=f"piece {piece.mark}, wall {piece.wall.id}",
        message=f"it is {short_mm:.1f} mm longer than the place it has to grow in",
        remedy="Cut it shorter.",
        parts=(piece.mark,),
        measured=piece.growth_gap_mm,
        limit=0.0,
    )
