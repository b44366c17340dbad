"""What pieces as cut and as fitted say: findings, and text."""

from __future__ import annotations

from collections.abc import Iterator

from model3d.as_cut.values import Change, EndAsCut, PieceAsCut
from model3d.figures import Figure, Units, figure_line, in_units
from model3d.findings import Finding
from model3d.layout import Layout
from model3d.layout.values import EndJoint
from model3d.rooms import CheckedPlan

SEEN_MM = 0.05
_JOINTS: dict[EndJoint, str] = {
    "valve": "valve end",
    "link": "hoses",
    "elbow-long": "long legs",
    "elbow-short": "short legs",
    "return": "return end",
    "coupler": "coupler",
    "turn-back": "turn-back end",
    "none": "free",
}


def unknown_findings(plan: CheckedPlan, layout: Layout) -> Iterator[Finding]:
    """Marks in ``as_cut`` and ``fitted`` that no piece has."""
    marks = [p.mark for p in layout.pieces]
    for key, given in (("as_cut", [c.mark for c in plan.as_cut]), ("fitted", list(plan.fitted))):
        for mark in given:
            if mark not in marks:
                yield Finding(
                    code="unknown-mark",
                    severity="error",
                    where=f"'{key}' in the plan",
                    message=f"no piece is marked {mark} (marks: {', '.join(marks)})",
                    remedy="Give the mark of a piece; marks change when the room or the run does.",
                    parts=(mark,),
                )


def fitted_findings(plan: CheckedPlan, layout: Layout) -> Iterator[Finding]:
    """Pieces that are up before the one that stands between them and the valve."""
    up = set(plan.fitted)
    for run in layout.runs:
        missing = None
        for piece in run.pieces:
            if piece.mark not in up:
                missing = missing or piece.mark
            elif missing is not None:
                yield Finding(
                    code="fitted-out-of-order",
                    severity="warning",
                    where=f"run {run.id}",
                    message=f"piece {piece.mark} is up and {missing}, nearer the valve, is not",
                    remedy=f"Take {piece.mark} down, or see whether {missing} can still be slid in.",
                    parts=(piece.mark, missing),
                )


def findings_of(piece: PieceAsCut, layout: Layout) -> Iterator[Finding]:
    """What came of one cut: nothing when it is as laid out, a note when its joints hold, else an error with the
    change.
    """
    laid = next(p for p in layout.pieces if p.mark == piece.mark)
    place = (*laid.wall.point_mm((laid.near_mm + laid.far_mm) / 2.0), 0.0)
    if abs(piece.off_mm) <= SEEN_MM and piece.seals:
        return
    text = f"cut to {piece.cut_mm:.1f} mm, {_more(piece.off_mm)} than laid out: {_ends_text(piece)}"
    yield Finding(
        code="as-cut" if piece.seals else "as-cut-wrong",
        severity="note" if piece.seals else "error",
        where=f"piece {piece.mark}, wall {laid.wall.id}",
        message=f"{text}; {_holds(piece)}" if piece.seals else f"{text}; {'; '.join(piece.faults)}",
        remedy=_remedy(piece),
        parts=(piece.mark,),
        measured=piece.cut_mm,
        limit=piece.planned_mm,
        place_mm=place,
    )


def _most(figure: Figure) -> str:
    """What a hose's ends may stand apart at most stands in its rule alone."""
    limit = figure.rule.partition("; ")[2]
    return f" ({limit})" if limit.startswith("at most") else ""


def _holds(piece: PieceAsCut) -> str:
    once = "" if piece.waits_for is None else f" once {piece.waits_for} is changed"
    return f"its joints hold{once}, hot and cold"


def _remedy(piece: PieceAsCut) -> str:
    if not piece.seals:
        return change_text(piece.change)
    return "Nothing to do." if piece.waits_for is None else f"Nothing to do to it; see {piece.waits_for}."


def _more(by_mm: float) -> str:
    return f"{abs(by_mm):.1f} mm {'longer' if by_mm > 0 else 'shorter'}"


def _ends_text(piece: PieceAsCut) -> str:
    moved = [_end_text(e) for e in piece.ends if abs(e.out_mm) > SEEN_MM]
    return ", ".join(moved) if moved else "both ends where they were"


def _end_text(end: EndAsCut) -> str:
    what = "overlap" if end.out_mm > 0 else "gap"
    toward = "the valve" if end.end == "near" else "the return"
    where = f"at joint {end.mark}" if end.mark is not None else f"at its end toward {toward}"
    return f"{what} {abs(end.out_mm):.1f} mm {where}"


def change_text(change: Change | None) -> str:
    """The least change in words."""
    if change is None:
        return "No other length of it alone makes this right: see the pieces beside it, or lay the run out anew."
    if change.kind == "cut-off":
        return f"Cut {change.by_mm:.1f} mm off {change.mark}, to {change.length_mm:.1f} mm."
    if change.kind == "cut-other":
        return f"Cut {change.mark} {_more(change.by_mm)} than laid out, to {change.length_mm:.1f} mm."
    return f"Cut a new {change.mark}, at least {change.length_mm:.1f} mm long."


def cut_text(pieces: tuple[PieceAsCut, ...], units: Units = "mm") -> str:
    """Every piece as cut, with what is in its joints, as text."""
    lines = []
    for piece in pieces:
        verdict = _holds(piece) if piece.seals else "does not do"
        text = f"{piece.mark}: cut to {piece.cut_mm:.1f} mm, laid out {piece.planned_mm:.1f} mm ({_more(piece.off_mm)})"
        lines.append(in_units(f"{text}: {verdict}", units))
        for end in piece.ends:
            toward = "valve" if end.end == "near" else "return"
            out = _end_text(end) if abs(end.out_mm) > SEEN_MM else "in its place"
            lines.append(in_units(f"  toward the {toward}, {_JOINTS[end.joint]}: {out}", units))
            lines += [f"    {figure_line(f, units)}{_most(f)}" for f in end.figures]
            lines += [in_units(f"    WRONG: {fault}", units) for fault in end.faults]
        if not piece.seals:
            lines.append(in_units(f"  {change_text(piece.change)}", units))
    return "\n".join(lines)
