"""Figures that say how they came about, and how they are shown."""

from model3d.figures.figure import Figure, FigureGroup
from model3d.figures.lengths import Units, feet_inches, in_units, plain, shown
from model3d.figures.lines import block, figure_line, is_number

__all__ = [
    "Figure",
    "FigureGroup",
    "Units",
    "block",
    "feet_inches",
    "figure_line",
    "in_units",
    "is_number",
    "plain",
    "shown",
]
