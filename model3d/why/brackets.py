"""Where a piece's brackets stand, how they are marked and drilled, and what goes behind them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from model3d.families.family import Family
from model3d.figures import Figure, plain
from model3d.layout import Layout, Piece
from model3d.layout.brackets import bracket_offsets_mm, end_range_mm
from model3d.layout.values import BracketSpot, PieceOnWall, PieceOverFloor
from model3d.rooms import CheckedPlan
from model3d.rooms.surfaces import AtAndValue
from model3d.why.values import Line, Section

SAME_MM = 0.01


def bracket_sections(plan: CheckedPlan, layout: Layout, family: Family, piece: Piece) -> Iterator[Section]:
    """Places along the piece, marks on the wall, and where they were read packers and gaps."""
    if not piece.brackets:
        return
    yield Section(
        title="Brackets, their middles from the near cut face",
        lines=tuple(Line(figure=f) for f in _places(family, piece)),
        note=_rule(family, piece),
    )
    spots = [s for s in layout.spots if s.piece == piece.mark]
    if spots:
        marks = tuple(Line(figure=f) for spot in spots for f in _marks(piece, spot))
        yield Section(title="Marks on the wall, from the nearest corner", lines=(*marks, *_holes(spots[0])))
    held = next((p for p in layout.on_walls if p.mark == piece.mark), None)
    if held is not None and held.stand_out_mm:
        yield Section(title="Packers behind the brackets", lines=tuple(_packers(plan, piece, held)))
    over = next((p for p in layout.over_floor if p.mark == piece.mark), None)
    if over is not None:
        yield Section(title="Over the floor", lines=tuple(_floor(plan, family, piece, over)))


def _planned_mm(piece: Piece) -> float:
    return piece.cut_length_mm if piece.planned_mm is None else piece.planned_mm


def _rule(family: Family, piece: Piece) -> str:
    spacing = family.bracket.spacing
    if len(piece.brackets) == 1:
        return f"one in the middle of a piece this short, under {spacing.single_below_mm:g} mm or too short for two"
    near, far = (end_range_mm(family, j) for j in (piece.start.joint, piece.end.joint))
    widest = max(b.from_near_mm - a.from_near_mm for a, b in pairwise(piece.brackets))
    return "\n".join(
        (
            f"first {near[0]:g} to {near[1]:g} mm from the near end, last {far[0]:g} to {far[1]:g} mm from the far end",
            f"others evenly between, {plain(widest)} mm apart at most; {spacing.most_mm:g} mm are allowed",
        )
    )


def _places(family: Family, piece: Piece) -> Iterator[Figure]:
    """Evenly between the first and the last, or moved off that place."""
    length = _planned_mm(piece)
    even = bracket_offsets_mm(family, length, piece.start.joint, piece.end.joint)
    places = [b.from_near_mm - piece.near_out_mm for b in piece.brackets]
    as_ruled = len(even) == len(places) and all(abs(a - b) <= SAME_MM for a, b in zip(even, places, strict=True))
    first, last, gaps = places[0], places[-1], len(places) - 1
    for number, (bracket, place) in enumerate(zip(piece.brackets, places, strict=True)):
        if gaps == 0:
            formula, rule = (f"{plain(length)} / 2", "the middle of the piece")
        elif number == 0:
            formula, rule = (plain(first), "chosen within its range from the near end")
        elif number == gaps:
            formula, rule = (f"{plain(length)} - {plain(length - last)}", "chosen within its range from the far end")
        else:
            formula = f"{plain(first)} + {number} x ({plain(last)} - {plain(first)}) / {gaps}"
            rule = "evenly between the first and the last"
        if not as_ruled and not _is_even(places, number, length):
            formula, rule = plain(place), "moved to where it can be drilled and holds: off boxes and pipes, onto studs"
        if piece.near_out_mm:
            formula, rule = f"{formula} + {plain(piece.near_out_mm)}", f"{rule}; it stays where it was on the wall"
        value = bracket.from_near_mm
        yield Figure(name=f"bracket {number + 1}, place", formula=formula, value=value, unit="mm", rule=rule)


def _is_even(places: list[float], number: int, length: float) -> bool:
    gaps = len(places) - 1
    wanted = length / 2.0 if gaps == 0 else places[0] + number * (places[-1] - places[0]) / gaps
    return abs(places[number] - wanted) <= SAME_MM


def _marks(piece: Piece, spot: BracketSpot) -> Iterator[Figure]:
    wall, from_near = piece.wall, piece.brackets[spot.number - 1].from_near_mm
    along = Figure(
        name=f"bracket {spot.number}, along the wall",
        formula=f"{plain(piece.near_mm)} {'+' if piece.sense > 0 else '-'} {plain(from_near)}",
        value=spot.along_mm,
        unit="mm",
        rule=f"from corner {wall.first_corner.id}: where the near cut face stands, and its place from there",
    )
    yield along
    right = spot.side == "right"
    yield Figure(
        name=f"bracket {spot.number}, mark",
        formula=plain(spot.along_mm) if right else f"{plain(wall.length_mm)} - {plain(spot.along_mm)}",
        value=spot.from_corner_mm,
        unit="mm",
        rule=f"from corner {spot.corner}, on your {spot.side} as you face the wall",
    )


def _holes(spot: BracketSpot) -> tuple[Line, ...]:
    return tuple(
        Line(
            figure=Figure(
                name=f"screw {number} above the floor",
                formula=plain(height),
                value=height,
                unit="mm",
                rule="family: holes of its bracket, above the finished floor",
            )
        )
        for number, height in enumerate(sorted(spot.heights_mm, reverse=True), 1)
    )


def _packers(plan: CheckedPlan, piece: Piece, held: PieceOnWall) -> Iterator[Line]:
    bow = next(b for b in plan.bows if b.wall_id == piece.wall.id)
    step = plan.packers.step_mm
    for number, (bracket, pack) in enumerate(zip(piece.brackets, held.packers_mm, strict=True), 1):
        off, text = _between(bow.readings, bracket.along_mm)
        yield Line(
            figure=Figure(
                name=f"wall behind bracket {number}, off its line",
                formula=text,
                value=off,
                unit="mm",
                rule="straight from reading to reading along the wall",
            )
        )
        yield Line(
            figure=Figure(
                name=f"packers behind bracket {number}",
                formula=f"{plain(pack / step)} x {plain(step)}",
                value=pack,
                unit="mm",
                rule=f"in steps of {plain(step)}, nearest to {plain(held.stand_out_mm)} - {plain(off)}: to one line",
            )
        )


def _floor(plan: CheckedPlan, family: Family, piece: Piece, over: PieceOverFloor) -> Iterator[Line]:
    level = next(f for f in plan.floor_levels if f.wall_id == piece.wall.id)
    holes = sorted(family.bracket.holes.heights_mm, reverse=True)
    highest = over.holes_down_mm[0] + holes[0]
    gap = family.section.floor_gap_mm
    for where, along, value in (("near", piece.near_mm, over.near_gap_mm), ("far", piece.far_mm, over.far_gap_mm)):
        down, text = _between(level.readings, along)
        yield Line(
            figure=Figure(
                name=f"floor below the line at the {where} end",
                formula=text,
                value=down,
                unit="mm",
                rule="straight from reading to reading along the wall",
            )
        )
        yield Line(
            figure=Figure(
                name=f"gap under the {where} end",
                formula=f"{plain(gap)} + {plain(down)} - {plain(highest)}",
                value=value,
                unit="mm",
                rule=f"the family's floor gap where the run's floor is highest, {plain(highest)} below the line",
            )
        )
    for number, (height, down) in enumerate(zip(holes, over.holes_down_mm, strict=True), 1):
        yield Line(
            figure=Figure(
                name=f"screw {number} below the line",
                formula=f"{plain(highest)} - {plain(height)}",
                value=down,
                unit="mm",
                rule="the highest floor below the line, less the height of the bracket's hole",
            )
        )


def _between(readings: tuple[AtAndValue, ...], along_mm: float) -> tuple[float, str]:
    """A value between readings, and its sum."""
    if along_mm <= readings[0][0]:
        return readings[0][1], plain(readings[0][1])
    for (a, low), (b, high) in pairwise(readings):
        if along_mm <= b:
            value = low + (high - low) * (along_mm - a) / (b - a)
            rise = f"({plain(high)} - {plain(low)})" if low >= 0 else f"({plain(high)} + {plain(-low)})"
            text = f"{plain(low)} + {rise} x ({plain(along_mm)} - {plain(a)}) / ({plain(b)} - {plain(a)})"
            return value, text
    return readings[-1][1], plain(readings[-1][1])
