"""How a piece's cut length came about."""

from __future__ import annotations

from dataclasses import dataclass

from model3d.families.family import Family
from model3d.figures import Figure, plain
from model3d.layout import Joint, Layout, Piece, RunLayout
from model3d.rooms import CheckedPlan, RunSpan
from model3d.why.terms import allowance_lines
from model3d.why.values import Explanation, Line, Section
from model3d.why.walls import span_lines, wall_line

OFF_MM = 0.01  # less than this between the sums and the cut length is rounding


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bound:
    """One end of a piece: its section, and where its cut face stands, counted from the run's beginning on the wall."""

    section: Section
    at_mm: float
    formula: str


def explain_piece(plan: CheckedPlan, layout: Layout, family: Family, piece: Piece) -> Explanation:
    """The sums of a run's piece: wall, allowances, growth gap, cut length, brackets."""
    run = next(r for r in layout.runs if r.id == piece.run)
    span = span_of(plan, run, piece)
    near, far = _near(run, span, piece), _far(run, span, piece)
    wall = Section(title=f"Wall {piece.wall.id}", lines=span_lines(plan, span))
    gap = _growth_section(plan, family, piece)
    gaps = f" - {plain(laid_out_gap_mm(piece))}" if gap is not None else ""
    alone = far.formula == "" and near.formula == ""
    if alone:
        formula = f"{plain(span.length_mm)} - {plain(piece.start.allowance_mm)} - {plain(piece.end.allowance_mm)}{gaps}"
    else:
        formula = f"{plain(far.at_mm)} - {plain(near.at_mm)}{gaps}"
    summed = far.at_mm - near.at_mm - laid_out_gap_mm(piece)
    result = _cut_length(piece, formula, summed)
    symbols = "wall - near allowance - far allowance" if alone else "far face - near face"
    cut = _cut_section(result, summed, formula, symbols + (" - growth gap" if gaps else ""))
    sections = [wall, near.section, far.section, *([gap] if gap is not None else []), cut]
    sections.append(_faces_section(piece, span.enters_mm, near.at_mm, "the run's beginning on the wall"))
    return Explanation(
        mark=piece.mark,
        title=f"Piece {piece.mark}, wall {piece.wall.id}: cut length",
        sections=tuple(sections),
        result=result,
    )


def laid_out_mm(piece: Piece) -> float:
    """The cut length as laid out."""
    return piece.cut_length_mm if piece.planned_mm is None else piece.planned_mm


def laid_out_gap_mm(piece: Piece) -> float:
    """The growth gap as laid out; 0 where the end is not free."""
    free = piece.end.joint in ("return", "turn-back", "none")
    return piece.growth_gap_mm + piece.far_out_mm if free else 0.0


def span_of(plan: CheckedPlan, run: RunLayout, piece: Piece) -> RunSpan:
    """The stretch of wall that a piece stands on. A run can pass one wall twice: at its beginning and at its end."""
    spans = [s for r in plan.runs if r.id == run.id for s in r.spans if s.wall.id == piece.wall.id]
    middle = (piece.near_mm + piece.far_mm) / 2.0
    return min(spans, key=lambda s: abs((s.enters_mm + s.leaves_mm) / 2.0 - middle) - s.length_mm / 2.0)


def _near(run: RunLayout, span: RunSpan, piece: Piece) -> _Bound:
    joint = next((j for j in run.joints if j.later == piece.mark), None)
    lines = allowance_lines(piece.start, "near allowance")
    if joint is not None and joint.corner is None:
        return _in_line(joint, span, lines, piece.start.allowance_mm, "Near end")
    title = "Near end, toward the valve: " + _what(joint, "valve end")
    section = Section(title=title, lines=lines, note=joint.reason if joint is not None else "")
    return _Bound(section=section, at_mm=piece.start.allowance_mm, formula="")


def _far(run: RunLayout, span: RunSpan, piece: Piece) -> _Bound:
    joint = next((j for j in run.joints if j.earlier == piece.mark), None)
    lines = allowance_lines(piece.end, "far allowance")
    if joint is not None and joint.corner is None:
        return _in_line(joint, span, lines, -piece.end.allowance_mm, "Far end")
    title = "Far end, toward the return: " + _what(joint, f"{piece.end.joint} end")
    section = Section(title=title, lines=lines, note=joint.reason if joint is not None else "")
    at = span.length_mm - piece.end.allowance_mm
    return _Bound(section=section, at_mm=at, formula="")


def _in_line(joint: Joint, span: RunSpan, lines: tuple[Line, ...], by_mm: float, title: str) -> _Bound:
    """An end at an in-line joint: half the joint off its middle."""
    middle = abs(joint.middle_mm - span.enters_mm)
    name = "near face" if by_mm > 0 else "far face"
    figure = Figure(
        name=name,
        formula=f"{plain(middle)} {'+' if by_mm > 0 else '-'} {plain(abs(by_mm))}",
        value=middle + by_mm,
        unit="mm",
        rule=f"from the middle of joint {joint.mark}, counted from the run's beginning on this wall",
    )
    section = Section(
        title=f"{title}: in-line {joint.kind} {joint.mark}, its middle {plain(middle)} from the run's beginning here",
        lines=(*lines, Line(figure=figure)),
        note=joint.reason,
    )
    return _Bound(section=section, at_mm=middle + by_mm, formula=figure.formula)


def _what(joint: Joint | None, otherwise: str) -> str:
    if joint is None or joint.corner is None:
        return otherwise
    kind = "internal" if joint.turn_deg > 0 else "external"
    return f"{joint.kind} {joint.mark} at {kind} corner {joint.corner.id}, turn {plain(joint.turn_deg)} degrees"


def _growth_section(plan: CheckedPlan, family: Family, piece: Piece) -> Section | None:
    """The growth gap at a free end with no stub between."""
    gap = laid_out_gap_mm(piece)
    if gap == 0.0:
        return None
    t = plan.temperatures
    alpha = family.material.expansion_per_k
    room = laid_out_mm(piece) + gap
    figure = Figure(
        name="growth gap",
        formula=f"{plain(room)} x (1 - 1/(1 + {alpha * 1e6:g}e-6 x ({t.flow_c:g} - {t.install_c:g})))",
        value=gap,
        unit="mm",
        rule=f"a free end with no stub between: room for the piece to grow, alpha L dT ({family.material.name})",
    )
    return Section(title="Growth gap", lines=(Line(figure=figure, symbols="room (1 - 1/(1 + alpha dT))"),))


def _cut_length(piece: Piece, formula: str, summed: float) -> Figure:
    off = piece.cut_length_mm - summed
    if abs(off) <= OFF_MM:
        rule = "wall between its ends, less both allowances, less the growth gap"
        return Figure(name="cut length", formula=formula, value=piece.cut_length_mm, unit="mm", rule=rule)
    return Figure(
        name="cut length",
        formula=plain(piece.cut_length_mm),
        value=piece.cut_length_mm,
        unit="mm",
        rule="as cut, given in the plan" if piece.planned_mm is not None else "given in the plan",
    )


def _cut_section(result: Figure, summed: float, formula: str, symbols: str) -> Section:
    if abs(result.value - summed) <= OFF_MM:
        return Section(title="Cut length", lines=(Line(figure=result, symbols=symbols),))
    rule = "wall between its ends, less both allowances, less the growth gap"
    sums = Figure(name="cut length by the sums", formula=formula, value=summed, unit="mm", rule=rule)
    off = result.value - summed
    return Section(
        title="Cut length",
        lines=(Line(figure=sums, symbols=symbols), Line(figure=result)),
        note=f"it is given in the plan, {plain(abs(off))} mm {'longer' if off > 0 else 'shorter'} than the sums say",
    )


def _faces_section(piece: Piece, begins_mm: float, near_at_mm: float, where: str) -> Section:
    """Where both cut faces stand along the wall."""
    sign, out = ("+" if piece.sense > 0 else "-"), piece.near_out_mm
    cut = f" {'-' if (out > 0) == (piece.sense > 0) else '+'} {plain(abs(out))}" if abs(out) > OFF_MM else ""
    corner = f"along wall {piece.wall.id} from corner {piece.wall.first_corner.id}"
    near = Figure(
        name="near cut face",
        formula=f"{plain(begins_mm)} {sign} {plain(near_at_mm)}{cut}",
        value=piece.near_mm,
        unit="mm",
        rule=f"{corner}: {where}, and the face from there",
    )
    far = Figure(
        name="far cut face",
        formula=f"{plain(piece.near_mm)} {sign} {plain(piece.cut_length_mm)}",
        value=piece.far_mm,
        unit="mm",
        rule=f"{corner}: the near face, and the cut length from there",
    )
    return Section(title="Where it stands", lines=(Line(figure=near), Line(figure=far)))


def explain_dry(plan: CheckedPlan, family: Family, piece: Piece) -> Explanation:
    """The sums of a dry piece: between its end caps, less its own growth in a warm room."""
    asked = next(d for d in plan.dry_pieces if d.id == piece.mark)
    length = asked.to_mm - asked.from_mm
    stretch = Figure(
        name="wall it covers",
        formula=f"{plain(asked.to_mm)} - {plain(asked.from_mm)}",
        value=length,
        unit="mm",
        rule="plan",
    )
    alpha, rise = family.material.expansion_per_k, family.dry_temperature_rise_k
    planned_gap = laid_out_gap_mm(piece)
    room = laid_out_mm(piece) + planned_gap
    gap = Figure(
        name="growth gap",
        formula=f"{plain(room)} x (1 - 1/(1 + {alpha * 1e6:g}e-6 x {rise:g}))",
        value=planned_gap,
        unit="mm",
        rule=f"grows by alpha L dT ({family.material.name}) as the room warms by {rise:g} K",
    )
    near, far, growth = (plain(v) for v in (piece.start.allowance_mm, piece.end.allowance_mm, planned_gap))
    formula = f"{plain(length)} - {near} - {far} - {growth}"
    result = _cut_length(piece, formula, laid_out_mm(piece))
    return Explanation(
        mark=piece.mark,
        title=f"Dry piece {piece.mark}, wall {piece.wall.id}: cut length",
        sections=(
            Section(title=f"Wall {piece.wall.id}", lines=(wall_line(plan, piece.wall), Line(figure=stretch))),
            Section(title="Near end", lines=allowance_lines(piece.start, "near allowance")),
            Section(title="Far end", lines=allowance_lines(piece.end, "far allowance")),
            Section(title="Growth gap", lines=(Line(figure=gap, symbols="room (1 - 1/(1 + alpha dT))"),)),
            _cut_section(result, laid_out_mm(piece), formula, "wall - caps - growth gap"),
            _faces_section(piece, asked.from_mm, piece.start.allowance_mm, "where it begins"),
        ),
        result=result,
    )
