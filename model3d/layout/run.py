"""A run laid out along its walls: joints at the corners, pieces between them."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.families.elbow_corner import elbow_corner
from model3d.families.family import Family
from model3d.findings import Finding
from model3d.layout.allowances import Situation, allowance_terms, engagement_mm, slide_mm
from model3d.layout.beyond import slide_is_barred
from model3d.layout.brackets import bracket_offsets_mm
from model3d.layout.corners import CornerChoice, choose, meeting_findings
from model3d.layout.settling import settled_pieces
from model3d.layout.spans import SpanLayout, growth_mm, lay_span
from model3d.layout.splitting import split_rules
from model3d.layout.standing_out import run_moved_out, stand_out_terms
from model3d.layout.values import BracketMark, ElbowWork, End, EndJoint, Joint, Piece, RunLayout, Term
from model3d.rooms import CheckedPlan, RunPlan, RunSpan

LEAST_PIECE_MARGIN_MM = 2.0
SidedJoint = tuple[EndJoint, tuple[Term, ...]]


def lay_run(
    family: Family, plan: CheckedPlan, run: RunPlan, outs_mm: Sequence[float] = ()
) -> tuple[RunLayout, tuple[Finding, ...]]:
    """Every piece and joint of one run, with what the arithmetic found.

    ``outs_mm`` is how far the pieces of each wall passed stand out from its line; nothing when not given.
    """
    outs = tuple(outs_mm) or (0.0,) * len(run.spans)
    run = run_moved_out(run, outs)
    rise = plan.temperatures.flow_c - plan.temperatures.install_c
    choices = tuple(choose(family, passed) for passed in run.corners)
    findings = [f for c in choices for f in c.findings]
    pieces: list[Piece] = []
    joints: list[Joint] = []
    for i, span in enumerate(run.spans):
        before = choices[i - 1] if i else None
        after = choices[i] if i < len(choices) else None
        first, last = _start_side(family, before), _end_side(family, plan, run, span, after, before)
        if i:
            first = (first[0], first[1] + stand_out_terms(run.corners[i - 1].corner, outs[i], outs[i - 1]))
        if after is not None:
            last = (last[0], last[1] + stand_out_terms(run.corners[i].corner, outs[i], outs[i + 1]))
        free = after is None and not (run.end_fitting == "return" and run.return_fixed)
        laid = lay_span(
            family,
            span,
            start_mm=_sum(first[1]),
            end_mm=_sum(last[1]),
            free_rise_k=max(rise, 0.0) if free else 0.0,
            run_id=run.id,
            rules=split_rules(family, plan, span, run.sense),
        )
        findings += laid.findings
        _append_span(family, run, span, laid, first, last, pieces, joints)
        if after is not None:
            joints.append(_corner_joint(family, run, i, after, pieces[-1].mark))
    findings += _meetings(family, joints, pieces, choices, max(rise, 0.0))
    settled, found = settled_pieces(plan, family, pieces)
    layout = RunLayout(
        id=run.id,
        sense=run.sense,
        turns_back=run.end_fitting == "turn-back",
        return_fixed=run.return_fixed,
        pieces=settled,
        joints=tuple(joints),
    )
    return layout, (*findings, *found, *_too_short(pieces))


def mark_of(run_id: str, index: int) -> str:
    """The mark of a run's piece, counting from 1 at the valve end."""
    return f"{run_id}-{index}"


def _sum(terms: tuple[Term, ...]) -> float:
    return sum(t.value_mm for t in terms)


def _start_side(family: Family, before: CornerChoice | None) -> SidedJoint:
    if before is None:
        return "valve", allowance_terms(family, "valve", Situation())
    return ("elbow-short" if before.kind == "elbow" else "link"), before.terms


def _end_side(
    family: Family,
    plan: CheckedPlan,
    run: RunPlan,
    span: RunSpan,
    after: CornerChoice | None,
    before: CornerChoice | None,
) -> SidedJoint:
    if after is not None:
        return ("elbow-long" if after.kind == "elbow" else "link"), after.terms
    near: EndJoint = "valve"
    if before is not None:
        near = "elbow-short" if before.kind == "elbow" else "link"
    elif span.joints:
        near = span.joints[-1].use
    barred = near not in ("valve", "coupler") and slide_is_barred(family, plan.room, span, run.sense)
    at = Situation(slides_mm=slide_mm(family, near) if barred else 0.0)
    return run.end_fitting, allowance_terms(family, run.end_fitting, at)


def end_of(family: Family, joint: EndJoint, terms: tuple[Term, ...]) -> End:
    """An end with its clip face from the family's table and its insertions."""
    insertion, most = 0.0, 0.0
    if joint == "elbow-long" and family.elbow is not None:
        insertion = family.elbow.long_leg_mm - family.elbow.stub_mm
        most = family.elbow.long_leg_mm - family.elbow.margin_mm
    elif joint != "none":
        insertion = most = engagement_mm(family, joint)
    clip = family.clip_faces[joint] if joint != "none" else "none"
    return End(joint=joint, clip=clip, terms=terms, insertion_mm=insertion, most_insertion_mm=most)


def _append_span(
    family: Family,
    run: RunPlan,
    span: RunSpan,
    laid: SpanLayout,
    first: SidedJoint,
    last: SidedJoint,
    pieces: list[Piece],
    joints: list[Joint],
) -> None:
    count = len(laid.stretches)
    for i, stretch in enumerate(laid.stretches):
        start = first if i == 0 else (laid.joints[i - 1], allowance_terms(family, laid.joints[i - 1], Situation()))
        end = last if i == count - 1 else (laid.joints[i], allowance_terms(family, laid.joints[i], Situation()))
        index = len(pieces) + 1
        near, far = (span.enters_mm + run.sense * q for q in (stretch.near_mm, stretch.far_mm))
        offsets = bracket_offsets_mm(family, stretch.length_mm, start[0], end[0])
        pieces.append(
            Piece(
                mark=mark_of(run.id, index),
                run=run.id,
                index=index,
                wall=span.wall,
                sense=run.sense,
                near_mm=near,
                far_mm=far,
                cut_length_mm=stretch.length_mm,
                growth_gap_mm=stretch.growth_gap_mm,
                start=end_of(family, start[0], start[1]),
                end=end_of(family, end[0], end[1]),
                brackets=tuple(BracketMark(along_mm=near + run.sense * o, from_near_mm=o) for o in offsets),
            )
        )
        if i < count - 1:
            gap_mm = laid.stretches[i + 1].near_mm - stretch.far_mm
            joints.append(
                Joint(
                    mark=f"{run.id}-J{len(joints) + 1}",
                    kind=laid.joints[i],
                    earlier=mark_of(run.id, index),
                    later=mark_of(run.id, index + 1),
                    wall=span.wall,
                    corner=None,
                    turn_deg=0.0,
                    run_turn_deg=0.0,
                    straight_mm=gap_mm / 2.0 - family.link.stub_mm if laid.joints[i] == "link" else 0.0,
                    middle_mm=far + run.sense * gap_mm / 2.0,
                    reason="in-line",
                )
            )


def _corner_joint(family: Family, run: RunPlan, index: int, choice: CornerChoice, earlier: str) -> Joint:
    corner = run.corners[index].corner
    number = int(earlier.rsplit("-", 1)[1])
    return Joint(
        mark=f"{run.id}-J{number}",
        kind=choice.kind,
        earlier=earlier,
        later=mark_of(run.id, number + 1),
        wall=run.spans[index].wall,
        corner=corner,
        turn_deg=corner.turn_deg,
        run_turn_deg=run.sense * corner.turn_deg,
        straight_mm=choice.straight_mm,
        elbow=_elbow_work(family) if choice.kind == "elbow" else None,
        reason=choice.reason,
    )


def _elbow_work(family: Family) -> ElbowWork:
    at = elbow_corner(family)
    return ElbowWork(
        insertion_mm=at.cold_mm,
        push_home_mm=at.push_home_by_mm,
        draw_out_to_mm=at.draw_out_to_mm,
        press_draws_mm=at.press_draws_mm,
    )


def _meetings(
    family: Family, joints: list[Joint], pieces: list[Piece], choices: tuple[CornerChoice, ...], rise_k: float
) -> list[Finding]:
    """Corners whose two ends would meet when the pieces that are really there grow; coupled pieces grow as one."""
    found: list[Finding] = []
    at_corners = [i for i, j in enumerate(joints) if j.corner is not None]
    for i, choice in zip(at_corners, choices, strict=True):
        corner = joints[i].corner
        before, after = pieces[i].cut_length_mm, pieces[i + 1].cut_length_mm
        for k in range(i - 1, -1, -1):
            if joints[k].kind != "coupler":
                break
            before += pieces[k].cut_length_mm
        for k in range(i + 1, len(joints)):
            if joints[k].kind != "coupler":
                break
            after += pieces[k + 1].cut_length_mm
        if corner is not None:
            found += meeting_findings(family, corner, choice, growth_mm(family, max(before, after), rise_k))
    return found


def _too_short(pieces: list[Piece]) -> list[Finding]:
    """A piece can be no shorter than the full insertions at its two ends plus 2 mm."""
    found = []
    for p in pieces:
        least = p.start.most_insertion_mm + p.end.most_insertion_mm + LEAST_PIECE_MARGIN_MM
        if p.cut_length_mm >= least:
            continue
        code = "piece-too-short" if p.cut_length_mm > 0 else "no-room-for-piece"
        found.append(
            Finding(
                code=code,
                severity="error",
                where=f"piece {p.mark}, wall {p.wall.id}",
                message=f"cut length {p.cut_length_mm:.1f} mm: the fittings at its ends need {least:.1f} mm",
                remedy="End the run before this wall, or join the corners around it another way.",
                parts=(p.mark,),
                measured=p.cut_length_mm,
                limit=least,
                place_mm=(*p.wall.point_mm((p.near_mm + p.far_mm) / 2), 0.0),
            )
        )
    return found
