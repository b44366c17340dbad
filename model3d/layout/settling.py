"""Every piece's brackets moved to where they can be drilled, and what cannot be helped."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from model3d.families.family import Family
from model3d.findings import Finding
from model3d.layout.barred_brackets import barred_findings
from model3d.layout.bracket_places import Ground, Places, bracket_places
from model3d.layout.in_the_wall import Span, barred, cable_strips, fixing_of, stud_faces
from model3d.layout.values import BracketMark, Piece
from model3d.rooms import CheckedPlan


def settled_pieces(
    plan: CheckedPlan, family: Family, pieces: Iterable[Piece]
) -> tuple[tuple[Piece, ...], tuple[Finding, ...]]:
    """Pieces with their brackets off back boxes and chased pipes, on studs where there are any, and off
    cable strips where that can be; findings say where it cannot.
    """
    settled: list[Piece] = []
    findings: list[Finding] = []
    grounds = [(piece, *_on_ground(plan, family, piece)) for piece in pieces]
    for piece, ground, places in grounds:
        brackets = tuple(
            BracketMark(along_mm=piece.near_mm + piece.sense * o, from_near_mm=o) for o in places.offsets_mm
        )
        settled.append(replace(piece, brackets=brackets))
        findings += _findings(family, piece, ground, places)
        findings += barred_findings(plan, family, piece, ground, places, [p for p, _, _ in grounds], _on_ground)
    return tuple(settled), tuple(findings)


def _on_ground(plan: CheckedPlan, family: Family, piece: Piece) -> tuple[Ground, Places]:
    """What is behind a piece, and its brackets on it; none for a piece that is no length."""
    if piece.cut_length_mm <= 0.0:
        return Ground(), Places(offsets_mm=tuple(b.from_near_mm for b in piece.brackets))
    ground = ground_of(plan, family, piece)
    return ground, bracket_places(family, piece.cut_length_mm, piece.start.joint, piece.end.joint, ground)


def ground_of(plan: CheckedPlan, family: Family, piece: Piece) -> Ground:
    """What a piece's brackets find behind it, measured from its near cut face."""
    fixing = fixing_of(plan.fixings, piece.wall)
    return Ground(
        barred=_seen(piece, barred(family, plan.room, piece.wall)),
        strips=_seen(piece, cable_strips(family, plan.room, piece.wall)),
        studs=_seen(piece, stud_faces(fixing, piece.wall)),
    )


def _seen(piece: Piece, spans: Iterable[Span]) -> tuple[Span, ...]:
    """Spans along the wall as spans from the near cut face; those beside the piece left out."""
    found = []
    for span in spans:
        a, b = sorted(piece.sense * (x - piece.near_mm) for x in (span.low_mm, span.high_mm))
        if b >= 0.0 and a <= piece.cut_length_mm:
            found.append(replace(span, low_mm=a, high_mm=b))
    return tuple(found)


def _findings(family: Family, piece: Piece, ground: Ground, places: Places) -> tuple[Finding, ...]:
    found = []
    for offset in places.offsets_mm:
        over = any(s.holds(offset) for s in ground.barred)
        if not over and ground.studs and not any(s.low_mm - 1e-6 <= offset <= s.high_mm + 1e-6 for s in ground.studs):
            message = f"bracket at {offset:.0f} mm meets no stud"
            remedy = "Use a fixing for hollow board there, or put a timber behind."
            found.append(_finding(piece, "bracket-off-stud", offset, message, remedy))
    if places.strained:
        spacing = family.bracket.spacing
        ends = (places.offsets_mm[0], piece.cut_length_mm - places.offsets_mm[-1])
        far = max(ends)
        message = f"the brackets nearest its ends stand {ends[0]:.0f} and {ends[1]:.0f} mm from them"
        remedy = "Put a timber or a fixing of another kind nearer the end, if the end gives."
        found.append(
            _finding(piece, "bracket-off-end", far, message, remedy, limit=spacing.end_most_mm)
        )
    return tuple(found)


def _finding(
    piece: Piece, code: str, offset: float, message: str, remedy: str, *, limit: float | None = None
) -> Finding:
    along = piece.near_mm + piece.sense * offset
    return Finding(
        code=code,
        severity="warning",
        where=f"piece {piece.mark}, wall {piece.wall.id}",
        message=message,
        remedy=remedy,
        parts=(piece.mark,),
        measured=offset,
        limit=limit,
        place_mm=(*piece.wall.point_mm(along), 0.0),
    )
