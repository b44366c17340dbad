"""The figures of a report, each with the sum behind it, as text and as plain data."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from model3d.figures import Figure, FigureGroup, Units, block, plain
from model3d.figures.lengths import length
from model3d.figures.lines import IN_FEET

if TYPE_CHECKING:
    from model3d.nesting import Nesting
    from model3d.nesting.values import CutBar
    from model3d.rooms import Cutting


def groups_text(groups: Sequence[FigureGroup], units: Units = "mm") -> str:
    """Each group: its title, what is to be said in words, and a line for each figure with its rule under it."""
    blocks = ["\n".join(block(g.title, g.notes, [(f, "") for f in g.figures], units)) for g in groups]
    return "\n\n".join([IN_FEET, *blocks] if units == "ft-in" else blocks)


def groups_data(groups: Sequence[FigureGroup]) -> list[dict[str, Any]]:
    """The same as plain data, lengths in mm."""
    return [asdict(g) for g in groups]


def only_of(groups: Sequence[FigureGroup], mark: str) -> tuple[FigureGroup, ...]:
    """The groups that a piece, a joint or a run of this mark is in. Raises LookupError when there is none."""
    found = tuple(g for g in groups if mark in g.marks)
    if not found:
        marks = ", ".join(dict.fromkeys(m for g in groups for m in g.marks)) or "none"
        raise LookupError(f"there are no such figures of '{mark}' (marks: {marks})")
    return found


def nesting_groups(nesting: Nesting, cutting: Cutting, units: Units = "mm") -> tuple[FigureGroup, ...]:
    """What is cut from each bar, and what is left of it, section by section."""
    groups = []
    for section in nesting.sections:
        lines, lefts, count = [], [], {True: 0, False: 0}
        for bar in section.bars:
            count[bar.off_cut] += 1
            cuts = ", ".join(f"{c.mark} {length(c.length_mm, units)}" for c in bar.cuts)
            name = f"{'off-cut' if bar.off_cut else 'bar'} {count[bar.off_cut]}"
            lines.append(f"{name} of {length(bar.length_mm, units, 0)}: {cuts}; {length(bar.left_mm, units)} left")
            lefts.append(_left(name, bar, cutting))
        for what, kept in (("left worth keeping", section.kept_mm), ("in hand, not used", section.unused_mm)):
            if kept:
                lines.append(f"{what}: {', '.join(length(x, units) for x in kept)}")
        groups.append(
            FigureGroup(
                title=f"{'Heated' if section.heated else 'Dry'} pieces, cut from stock bars",
                figures=(*section.figures, *lefts),
                marks=tuple(c.mark for bar in section.bars for c in bar.cuts),
                notes=tuple(lines),
            )
        )
    return tuple(groups)


def _left(name: str, bar: CutBar, cutting: Cutting) -> Figure:
    cuts = " - ".join(plain(c.length_mm) for c in bar.cuts)
    formula = (
        f"{plain(bar.length_mm)} - {plain(cutting.end_trim_mm)} - {cuts} - {len(bar.cuts)} x {plain(cutting.kerf_mm)}"
    )
    rule = "bar less the first end's trim, its pieces, and a saw's cut after each"
    if bar.left_mm == 0.0:
        formula, rule = "0", "the last piece takes the bar's end"
    return Figure(name=f"left of {name}", formula=formula, value=bar.left_mm, unit="mm", rule=rule)
