"""Runs and dry pieces on walls that bow: how far they stand out, their packers, and what is wrong with the wall."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from model3d.families.family import Family
from model3d.findings import Finding
from model3d.layout.flatness import ROW_6_MM, worst_unevenness
from model3d.layout.packing import piece_on_wall, stand_out_mm
from model3d.layout.run import lay_run
from model3d.layout.standing_out import moved_out
from model3d.layout.values import Piece, PieceOnWall, RunLayout
from model3d.rooms import CheckedPlan, Room, RunPlan, WallBow

_ROUNDS = 4
_SAME_MM = 1e-6


def lay_run_on_walls(
    family: Family, plan: CheckedPlan, run: RunPlan
) -> tuple[RunLayout, tuple[Finding, ...], tuple[PieceOnWall, ...]]:
    """A run laid out, its pieces standing out where a wall bows, and their packers.

    Where pieces stand out their lengths change, and with them the brackets that say how far: this is done over until
    it stays the same.
    """
    bows = {b.wall_id: b for b in plan.bows}
    outs: list[float | None] = [None] * len(run.spans)
    laid, findings = lay_run(family, plan, run)
    for _ in range(_ROUNDS):
        if not any(s.wall.id in bows for s in run.spans):
            return laid, findings, ()
        needed = _needed(family, run, laid, bows)
        grown = [_more(a, b) for a, b in zip(outs, needed, strict=True)]
        if all(abs((a or 0.0) - (b or 0.0)) <= _SAME_MM for a, b in zip(outs, grown, strict=True)):
            outs = grown
            break
        outs = grown
        laid, findings = lay_run(family, plan, run, [o or 0.0 for o in outs])
    found = []
    for out, pieces, span in zip(outs, _by_span(run, laid), run.spans, strict=True):
        if span.wall.id in bows:
            found += [piece_on_wall(family, p, bows[span.wall.id], plan.packers, out) for p in pieces]
    return laid, findings, tuple(found)


def _more(one: float | None, other: float | None) -> float | None:
    return other if one is None else one if other is None else max(one, other)


def _needed(family: Family, run: RunPlan, laid: RunLayout, bows: dict[str, WallBow]) -> list[float | None]:
    return [
        stand_out_mm(family, pieces, bows[span.wall.id]) if span.wall.id in bows and pieces else None
        for span, pieces in zip(run.spans, _by_span(run, laid), strict=True)
    ]


def _by_span(run: RunPlan, laid: RunLayout) -> list[list[Piece]]:
    """The pieces of each wall passed. A run can pass one wall at its beginning and again at its end."""
    found: list[list[Piece]] = [[] for _ in run.spans]
    number = 0
    for piece in laid.pieces:
        while run.spans[number].wall.id != piece.wall.id or not _within(run, number, piece):
            number += 1
        found[number].append(piece)
    return found


def _within(run: RunPlan, number: int, piece: Piece) -> bool:
    span = run.spans[number]
    middle = (piece.near_mm + piece.far_mm) / 2.0
    low, high = sorted((span.enters_mm, span.leaves_mm))
    return low <= middle <= high or number == len(run.spans) - 1


def dry_on_wall(family: Family, plan: CheckedPlan, piece: Piece) -> tuple[Piece, tuple[PieceOnWall, ...]]:
    """A dry piece, standing out where its wall bows."""
    bow = next((b for b in plan.bows if b.wall_id == piece.wall.id), None)
    if bow is None:
        return piece, ()
    out = stand_out_mm(family, [piece], bow)
    return replace(piece, wall=moved_out(piece.wall, out or 0.0)), (
        piece_on_wall(family, piece, bow, plan.packers, out),
    )


def bow_findings(plan: CheckedPlan, on_walls: Sequence[PieceOnWall]) -> Iterator[Finding]:
    """Walls past DIN 18202 row 6, pieces that stay bent, and packers too thick to hold."""
    for bow in plan.bows:
        yield from _wall_finding(plan.room, bow)
    for held in on_walls:
        if not held.straight:
            yield Finding(
                code="piece-bent",
                severity="warning",
                where=f"piece {held.mark}",
                message=f"packed out, it is still bent by {held.bend_mm:.1f} mm",
                remedy="Use thinner steps of packers, or read the wall at more places.",
                parts=(held.mark,),
                measured=held.bend_mm,
                limit=held.bend_limit_mm,
            )
        thickest = max(held.packers_mm, default=0.0)
        if thickest > plan.packers.most_mm:
            yield Finding(
                code="packers-thick",
                severity="warning",
                where=f"piece {held.mark}",
                message=f"a bracket needs {thickest:g} mm of packers, and {plan.packers.most_mm:g} mm are the most",
                remedy="Make the wall good behind that bracket, or fix a batten to it.",
                parts=(held.mark,),
                measured=thickest,
                limit=plan.packers.most_mm,
            )


def _wall_finding(room: Room, bow: WallBow) -> Iterator[Finding]:
    worst = worst_unevenness(bow.readings, ROW_6_MM)
    if worst is None or worst.passes:
        return
    wall = room.wall(bow.wall_id)
    yield Finding(
        code="wall-bowed",
        severity="warning",
        where=f"wall {bow.wall_id}",
        message=(
            f"{worst.gap_mm:.1f} mm off the straight over {worst.over_mm / 1000:.1f} m, at {worst.at_mm:.0f}: "
            f"DIN 18202 row 6 lets pass {worst.limit_mm:g} mm"
        ),
        remedy="Have the wall made good, or see that the gap behind the skirting is closed.",
        parts=(bow.wall_id,),
        measured=worst.gap_mm,
        limit=worst.limit_mm,
        place_mm=(*wall.point_mm(worst.at_mm), 0.0),
    )
