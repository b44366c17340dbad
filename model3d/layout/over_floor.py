"""Level runs over a floor that is not: the gap under each piece, and bracket heights from the level line.

A run is level. Its height is set where the floor under it is highest: there the family's floor gap is kept.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from model3d.families.family import Family
from model3d.findings import Finding
from model3d.layout.flatness import ROW_3_MM, worst_unevenness
from model3d.layout.values import Layout, Piece, PieceOverFloor
from model3d.rooms import CheckedPlan, FloorLevel

SEEN_MM = 5.0  # a gap this much over the family's is seen (common practice, no source)


def pieces_over_floor(plan: CheckedPlan, family: Family, layout: Layout) -> tuple[PieceOverFloor, ...]:
    """The pieces whose wall's floor was read: each run level in itself, each dry piece too."""
    levels = {f.wall_id: f for f in plan.floor_levels}
    found: list[PieceOverFloor] = []
    for pieces in [*(r.pieces for r in layout.runs), *((d,) for d in layout.dry_pieces)]:
        read = [p for p in pieces if p.wall.id in levels]
        if not read:
            continue
        highest = min(down for p in read for down in _downs(levels[p.wall.id], p))
        found += [_over_floor(family, p, levels[p.wall.id], highest) for p in read]
    return tuple(found)


def _downs(level: FloorLevel, piece: Piece) -> tuple[float, ...]:
    """How far the floor lies below the line along a piece: at its ends, and where it was read between them."""
    between = (down for at, down in level.readings if piece.low_mm < at < piece.high_mm)
    return (level.down_at_mm(piece.near_mm), level.down_at_mm(piece.far_mm), *between)


def _over_floor(family: Family, piece: Piece, level: FloorLevel, highest_mm: float) -> PieceOverFloor:
    gaps = [family.section.floor_gap_mm + down - highest_mm for down in _downs(level, piece)]
    holes = sorted(family.bracket.holes.heights_mm, reverse=True)
    return PieceOverFloor(
        mark=piece.mark,
        near_gap_mm=gaps[0],
        far_gap_mm=gaps[1],
        least_gap_mm=min(gaps),
        most_gap_mm=max(gaps),
        holes_down_mm=tuple(highest_mm - h for h in holes),
    )


def floor_findings(
    plan: CheckedPlan, family: Family, layout: Layout, over: Sequence[PieceOverFloor]
) -> Iterator[Finding]:
    """Floors past DIN 18202 row 3, gaps that are seen, and walls of a run whose floor was not read."""
    for level in plan.floor_levels:
        worst = worst_unevenness(level.readings, ROW_3_MM)
        if worst is not None and not worst.passes:
            wall = plan.room.wall(level.wall_id)
            yield Finding(
                code="floor-uneven",
                severity="warning",
                where=f"floor at wall {level.wall_id}",
                message=(
                    f"{worst.gap_mm:.1f} mm off the straight over {worst.over_mm / 1000:.1f} m, at {worst.at_mm:.0f}: "
                    f"DIN 18202 row 3 lets pass {worst.limit_mm:g} mm"
                ),
                remedy="See that the gap under the skirting is closed there.",
                parts=(level.wall_id,),
                measured=worst.gap_mm,
                limit=worst.limit_mm,
                place_mm=(*wall.point_mm(worst.at_mm), 0.0),
            )
    most = family.section.floor_gap_mm + SEEN_MM
    for piece in over:
        if piece.most_gap_mm > most:
            yield Finding(
                code="floor-gap",
                severity="note",
                where=f"piece {piece.mark}",
                message=f"the gap under it grows from {piece.least_gap_mm:.1f} to {piece.most_gap_mm:.1f} mm",
                remedy="Scribe a strip to the floor, or let the floor covering take it up.",
                parts=(piece.mark,),
                measured=piece.most_gap_mm,
                limit=most,
            )
    yield from _unread(layout, {p.mark for p in over})


def _unread(layout: Layout, read: set[str]) -> Iterator[Finding]:
    for run in layout.runs:
        missing = [p for p in run.pieces if p.mark not in read]
        if not missing or len(missing) == len(run.pieces):
            continue
        walls = ", ".join(dict.fromkeys(p.wall.id for p in missing))
        yield Finding(
            code="floor-not-read",
            severity="warning",
            where=f"run {run.id}",
            message=f"the floor was not read at {walls}: the run's height is set by the other walls alone",
            remedy="Read the floor there too, from the same level line.",
            parts=tuple(p.mark for p in missing),
        )
