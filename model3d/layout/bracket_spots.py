"""Bracket marks as a fitter measures them: from the nearest corner, with drilling heights, fixing and
cautions.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from model3d.families.family import Family
from model3d.findings import Finding
from model3d.layout.in_the_wall import cable_strips, corner_strips, fixing_of, level_strips, stud_faces
from model3d.layout.values import Layout, Piece
from model3d.rooms import CheckedPlan

Fixing = Literal["masonry", "board", "stud", "between studs", "not said"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketSpot:
    """One bracket to mark and drill: ``number`` counts from the piece's near end; ``corner`` is the
    nearest corner of its wall, on the ``side`` as you face the wall, ``from_corner_mm`` away to the
    bracket's middle, measured along the wall.

    ``heights_mm`` are of the screws above the finished floor; where the floor was read, ``below_line_mm``
    are theirs below the level line, the highest first, and go before them. ``packers_mm`` go behind it on
    a wall that bows. ``cautions`` say where cables may run (BS 7671, 522.6).
    """

    piece: str
    number: int
    wall: str
    corner: str
    side: Literal["left", "right"]
    from_corner_mm: float
    along_mm: float
    heights_mm: tuple[float, ...]
    fixing: Fixing
    cautions: tuple[str, ...] = ()
    below_line_mm: tuple[float, ...] = ()
    packers_mm: float = 0.0


def bracket_spots(plan: CheckedPlan, layout: Layout, family: Family) -> tuple[BracketSpot, ...]:
    """Every bracket of a layout, piece by piece. A place midway between two corners is given from the
    right one.
    """
    below = {p.mark: p.holes_down_mm for p in layout.over_floor}
    packers = {p.mark: p.packers_mm for p in layout.on_walls}
    found: list[BracketSpot] = []
    for piece in layout.pieces:
        behind = packers.get(piece.mark, (0.0,) * len(piece.brackets))
        for spot, packer in zip(_spots(plan, family, piece), behind, strict=True):
            found.append(replace(spot, below_line_mm=below.get(piece.mark, ()), packers_mm=packer))
    return tuple(found)


def cable_cautions(plan: CheckedPlan, layout: Layout, family: Family) -> tuple[Finding, ...]:
    """A note for every bracket that is drilled where cables may run."""
    walls = {p.mark: p.wall for p in layout.pieces}
    return tuple(
        Finding(
            code="bracket-in-cable-zone",
            severity="note",
            where=f"piece {s.piece}, bracket {s.number}, wall {s.wall}",
            message=f"{s.from_corner_mm:.0f} mm from {s.corner}: cables may run, {'; '.join(s.cautions)}",
            remedy="Find the cables before you drill, and isolate them.",
            parts=(s.piece,),
            measured=s.along_mm,
            place_mm=(*walls[s.piece].point_mm(s.along_mm), s.heights_mm[0]),
        )
        for s in bracket_spots(plan, layout, family)
        if s.cautions
    )


def _spots(plan: CheckedPlan, family: Family, piece: Piece) -> Iterator[BracketSpot]:
    wall = piece.wall
    strips = cable_strips(plan.room, wall) + corner_strips(wall)
    level = level_strips(family, plan.room, wall)
    for number, bracket in enumerate(piece.brackets, start=1):
        along = bracket.along_mm
        right = along <= wall.length_mm / 2.0 + 1e-9
        cautions = [s.what for s in strips if s.holds(along)]
        cautions += [f"level with {part}, at {height:g}" for height, part in level]
        yield BracketSpot(
            piece=piece.mark,
            number=number,
            wall=wall.id,
            corner=wall.first_corner.id if right else wall.last_corner.id,
            side="right" if right else "left",
            from_corner_mm=along if right else wall.length_mm - along,
            along_mm=along,
            heights_mm=family.bracket.holes.heights_mm,
            fixing=_fixing(plan, piece, along),
            cautions=tuple(cautions),
        )


def _fixing(plan: CheckedPlan, piece: Piece, along_mm: float) -> Fixing:
    fixing = fixing_of(plan.fixings, piece.wall)
    if fixing is None:
        return "not said"
    if fixing.kind != "studs":
        return fixing.kind
    faces = stud_faces(fixing, piece.wall)
    return "stud" if any(s.low_mm - 1e-6 <= along_mm <= s.high_mm + 1e-6 for s in faces) else "between studs"
