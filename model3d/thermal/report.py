"""The thermal report of a layout, and what it finds wrong."""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence
from dataclasses import replace

from model3d.families.family import Family
from model3d.findings import Finding
from model3d.geometry.placement import Vec3
from model3d.layout import Joint, Layout, Piece
from model3d.layout.allowances import slide_mm
from model3d.rooms import CheckedPlan
from model3d.thermal.faults import (
    gap_too_small,
    held_twice,
    hose_faults,
    hose_past_crossing,
    hose_too_short,
    leg_outside,
)
from model3d.thermal.growing import growths_of
from model3d.thermal.hoses import hose_ends, link_hose
from model3d.thermal.long_legs import long_leg
from model3d.thermal.values import Growth, LinkHose, LongLeg, ThermalReport


def thermal_report(
    plan: CheckedPlan, layout: Layout, family: Family, *, shaped: Container[str] | None = None
) -> ThermalReport:
    """Growth of every piece, the four states of every long leg, every state of every hose, and what is
    wrong with them.

    The layout is one that was not refused: a link without hose enough for its corner has no state to
    report and is left out. ``shaped`` are the states whose hoses' shapes are worked out, all when it is left out.
    """
    moving = _moving(plan, layout, family)
    hoses: list[LinkHose] = []
    findings: list[Finding] = []
    for joint, earlier, later, cuts in _links(moving.growths, layout):
        hose = link_hose(family, joint, earlier, later, cut_mm=cuts, states=shaped)
        hoses.append(hose)
        findings += hose_faults(family, hose, _place(joint))
    return replace(moving, hoses=tuple(hoses), findings=(*moving.findings, *findings))


def growth_findings(plan: CheckedPlan, layout: Layout, family: Family) -> tuple[Finding, ...]:
    """What is wrong with growth, long legs and the reach of hoses, without the hoses' shapes, which take longer to work
    out.
    """
    return _moving(plan, layout, family).findings


Link = tuple[Joint, Growth, Growth, tuple[float, float]]


def _links(growths: Sequence[Growth], layout: Layout) -> Iterator[Link]:
    """Every link with hose enough for its corner, the growth on either side, and how far either cut face stands out."""
    of = {mark: growth for growth in growths for mark in growth.marks}
    pieces = {piece.mark: piece for piece in layout.pieces}
    for joint in (j for run in layout.runs for j in run.joints):
        if joint.kind == "link" and joint.straight_mm >= 0.0:
            cuts = (pieces[joint.earlier].far_out_mm, pieces[joint.later].near_out_mm)
            yield joint, of[joint.earlier], of[joint.later], cuts


def _moving(plan: CheckedPlan, layout: Layout, family: Family) -> ThermalReport:
    """Growth, long legs, and hoses that do not reach."""
    growths = growths_of(family, plan.temperatures, layout)
    of = {mark: growth for growth in growths for mark in growth.marks}
    pieces = {piece.mark: piece for piece in layout.pieces}
    legs: list[LongLeg] = []
    findings = [f for g in growths for f in held_twice(g, pieces)]
    findings += gap_too_small(plan, layout, of)
    for joint in (j for run in layout.runs for j in run.joints if j.kind == "elbow"):
        earlier = of[joint.earlier]
        slide, cut = _slide(family, pieces[earlier.marks[0]]), pieces[joint.earlier].far_out_mm
        leg = long_leg(family, joint, earlier, slide_mm=slide, cut_mm=cut)
        legs.append(leg)
        findings += leg_outside(leg, _place(joint))
    for joint, first, second, cuts in _links(growths, layout):
        ends = hose_ends(family, first, second, cut_mm=cuts)
        findings += hose_too_short(family, joint, ends, _place(joint))
        findings += hose_past_crossing(family, joint, ends, _place(joint))
    return ThermalReport(growths=growths, long_legs=tuple(legs), hoses=(), findings=tuple(findings))


def _slide(family: Family, first: Piece) -> float:
    """How far a piece slides to engage its near end; one at the valve end does not."""
    return 0.0 if first.start.joint == "valve" else slide_mm(family, first.start.joint)


def _place(joint: Joint) -> Vec3:
    at = joint.corner.at_mm if joint.corner is not None else joint.wall.point_mm(joint.middle_mm)
    return (*at, 0.0)
