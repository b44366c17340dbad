"""Bracket marks as a fitter measures them: from the nearest corner, with drilling heights, fixing and
cautions.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from model3d.families.family import Family
from model3d.findings import Finding
from model3d.layout.in_the_wall import cable_strips, corner_strips, fixing_of, level_strips, stud_faces
from model3d.layout.values import BracketSpot, Fixing, Layout, Piece
from model3d.rooms import CheckedPlan


def bracket_spots(plan: CheckedPlan, layout: Layout, family: Family) -> tuple[BracketSpot, ...]:
    """Every bracket of a layout, piece by piece. A place midway between two corners is given from the
    right one. A run whose floor was read at some walls is level at the others too, and drilled from the line there.
    """
    below = {p.mark: p.holes_down_mm for p in layout.over_floor}
    for run in layout.runs:
        down = next((below[p.mark] for p in run.pieces if p.mark in below), ())
        below |= {p.mark: down for p in run.pieces}
    packers = {p.mark: p.packers_mm for p in layout.on_walls}
    found: list[BracketSpot] = []
    for piece in layout.pieces:
        behind = packers.get(piece.mark, (0.0,) * len(piece.brackets))
        for spot, packer in zip(_spots(plan, family, piece), behind, strict=True):
            found.append(replace(spot, below_line_mm=below.get(piece.mark, ()), packers_mm=packer))
    return tuple(found)


def cable_cautions(layout: Layout, *, corners: bool = True) -> tuple[Finding, ...]:
    """A note for the brackets of each piece that are drilled where cables may run, one for each reason; without
    ``corners`` only those below, above or level with an accessory.
    """
    walls = {p.mark: p.wall for p in layout.pieces}
    groups: dict[tuple[str, tuple[str, ...]], list[BracketSpot]] = {}
    for spot in layout.spots:
        if spot.accessories or (corners and spot.cautions):
            groups.setdefault((spot.piece, spot.cautions), []).append(spot)
    found = []
    for (piece, cautions), spots in groups.items():
        first, wall = spots[0], walls[piece]
        numbers = ", ".join(str(s.number) for s in spots)
        found.append(
            Finding(
                code="bracket-in-cable-zone",
                severity="note",
                where=f"piece {piece}, bracket{'s' if len(spots) > 1 else ''} {numbers}, wall {wall.id}",
                message=f"cables may run where it is drilled: {'; '.join(cautions)}",
                remedy="Find the cables before you drill, and isolate them.",
                parts=(piece, *first.accessories),
                place_mm=(*wall.point_mm(first.along_mm), first.heights_mm[0]),
            )
        )
    return tuple(found)


def _spots(plan: CheckedPlan, family: Family, piece: Piece) -> Iterator[BracketSpot]:
    wall = piece.wall
    strips, corners = cable_strips(family, plan.room, wall), corner_strips(wall)
    level = level_strips(family, plan.room, wall)
    for number, bracket in enumerate(piece.brackets, start=1):
        along = bracket.along_mm
        right = along <= wall.length_mm / 2.0 + 1e-9
        met = [s for s in strips if s.holds(along)]
        cautions = [s.what for s in met + [s for s in corners if s.holds(along)]]
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
            accessories=tuple(dict.fromkeys([*(s.part for s in met), *(part for _, part in level)])),
        )


def _fixing(plan: CheckedPlan, piece: Piece, along_mm: float) -> Fixing:
    fixing = fixing_of(plan.fixings, piece.wall)
    if fixing is None:
        return "not said"
    if fixing.kind != "studs":
        return fixing.kind
    faces = stud_faces(fixing, piece.wall)
    return "stud" if any(s.low_mm - 1e-6 <= along_mm <= s.high_mm + 1e-6 for s in faces) else "between studs"
