"""Figures on lines: name, sum in symbols and in numbers, value; and the rule that they follow."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.figures.figure import Figure
from model3d.figures.lengths import Units, in_units, shown

IN_FEET = "The sums are in millimetres, 25.4 to the inch; lengths to the nearest 1/32 inch."


def figure_line(figure: Figure, units: Units = "mm", symbols: str = "") -> str:
    """``name = symbols = sum = value``; a sum that is a number by itself is left out. The sum is in millimetres, its
    value in the units asked for.
    """
    value = shown(figure.value, figure.unit, units)
    parts = [figure.name, symbols, "" if is_number(figure.formula) else figure.formula, value]
    return " = ".join(p for p in parts if p)


def block(title: str, notes: Sequence[str], lines: Sequence[tuple[Figure, str]], units: Units = "mm") -> list[str]:
    """A title, what is to be said in words, and figures with their symbols, each rule under the last that follows
    it.
    """
    text = [title, *(f"  ({in_units(note, units)})" for note in notes)]
    for k, (figure, symbols) in enumerate(lines):
        text.append(f"  {figure_line(figure, units, symbols)}")
        if k + 1 == len(lines) or lines[k + 1][0].rule != figure.rule:
            text.append(f"      {figure.rule}")
    return text


def is_number(text: str) -> bool:
    """Whether a sum is nothing but a number."""
    try:
        float(text)
    except ValueError:
        return False
    return True
