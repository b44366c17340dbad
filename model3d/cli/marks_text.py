"""Brackets as a fitter marks and drills them, as plain text: from the nearest corner of each wall."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from model3d.figures import Units
from model3d.figures.lengths import length
from model3d.layout import BracketSpot, Layout

HEADINGS = ("bracket", "wall", "mark", "drill at", "packers", "fixing", "cables may run")
ALWAYS = 4
"""So many columns are shown even where there is nothing in them."""


def marks_text(layout: Layout, units: Units = "mm") -> str:
    """All brackets in order, piece by piece; a column that would be empty is left out. Empty without brackets."""
    rows = [_row(spot, units) for spot in layout.spots]
    if not rows:
        return ""
    kept = [i for i in range(len(HEADINGS)) if i < ALWAYS or any(row[i] for row in rows)]
    shown = [[row[i] for i in kept] for row in (HEADINGS, *rows)]
    widths = [max(len(row[k]) for row in shown) for k in range(len(kept))]
    lines = ["  " + "  ".join(c.ljust(w) for c, w in zip(row, widths, strict=True)).rstrip() for row in shown]
    title = f"Marks on the walls{', mm' if units == 'mm' else ''}"
    how = "each bracket's middle from the nearest corner, on that side as you face the wall"
    return f"{title}: {how};\nits screws {_screws(layout.spots)}:\n" + "\n".join(lines)


def _screws(spots: Sequence[BracketSpot]) -> str:
    if any(s.below_line_mm for s in spots):
        return "above the finished floor, or below the level line where the floor was read"
    return "above the finished floor"


def _row(spot: BracketSpot, units: Units) -> tuple[str, ...]:
    return (
        f"{spot.piece}/{spot.number}",
        spot.wall,
        f"{length(spot.from_corner_mm, units)} from {spot.corner}, {spot.side}",
        _heights(spot, units),
        length(spot.packers_mm, units) if spot.packers_mm else "",
        "" if spot.fixing == "not said" else spot.fixing,
        "; ".join(spot.cautions),
    )


def _heights(spot: BracketSpot, units: Units) -> str:
    if spot.below_line_mm:
        return f"{_listed(spot.below_line_mm, units, 1)} below the line"
    return _listed(spot.heights_mm, units, 0)


def _listed(values: Iterable[float], units: Units, decimals: int) -> str:
    return " and ".join(length(v, units, decimals) for v in values)
