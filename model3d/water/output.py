"""Heat output of pieces: q = q50 (dT / 50)^n (form of EN 442-2), by the arithmetic and by the logarithmic
mean.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from model3d.families.family import Family
from model3d.figures import Figure, plain
from model3d.layout import Piece
from model3d.rooms import Heat, Temperatures

RATED_EXCESS_K = 50.0
OUTPUT_RULE = "q50 x length x (dT / 50)^n, form of EN 442-2"


@dataclass(frozen=True, slots=True, kw_only=True)
class Excess:
    """How much warmer the water is than the room. ``logarithmic`` is None where the returning water is no
    warmer than the room.
    """

    arithmetic: Figure
    logarithmic: Figure | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceOutput:
    """One piece's output at either mean, W."""

    mark: str
    run: str
    arithmetic: Figure
    logarithmic: Figure

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Its figures in order."""
        return (self.arithmetic, self.logarithmic)


def arithmetic_mean_k(flow_c: float, return_c: float, room_c: float) -> float:
    """(flow + return) / 2 - room."""
    return (flow_c + return_c) / 2.0 - room_c


def logarithmic_mean_k(flow_c: float, return_c: float, room_c: float) -> float:
    """(flow - return) / ln((flow - room) / (return - room)). Raises ValueError unless both are above the
    room.
    """
    hot, cool = flow_c - room_c, return_c - room_c
    if min(hot, cool) <= 0.0:
        raise ValueError(f"water at {flow_c:g} and {return_c:g} has no logarithmic mean over a room at {room_c:g}")
    return hot if math.isclose(hot, cool) else (hot - cool) / math.log(hot / cool)


def output_factor(excess_k: float, exponent: float) -> float:
    """(dT / 50)^n: the share of the rated output; nothing for water no warmer than the room."""
    return math.pow(max(excess_k, 0.0) / RATED_EXCESS_K, exponent)


def excess_of(temperatures: Temperatures, heat: Heat) -> Excess:
    """The excess of a plan's water over its room."""
    flow, back, room = temperatures.flow_c, temperatures.return_c, heat.room_c
    arithmetic = Figure(
        name="excess, arithmetic mean",
        formula=f"({flow:g} + {back:g}) / 2 - {room:g}",
        value=arithmetic_mean_k(flow, back, room),
        unit="K",
        rule="mean of the water less the room",
    )
    if min(flow, back) <= room:
        return Excess(arithmetic=arithmetic, logarithmic=None)
    logarithmic = Figure(
        name="excess, logarithmic mean",
        formula=f"({flow:g} - {back:g}) / ln(({flow:g} - {room:g}) / ({back:g} - {room:g}))",
        value=logarithmic_mean_k(flow, back, room),
        unit="K",
        rule="the water cools along the run",
    )
    return Excess(arithmetic=arithmetic, logarithmic=logarithmic)


def outputs_of(family: Family, excess: Excess, pieces: Sequence[Piece]) -> tuple[PieceOutput, ...]:
    """The output of each heated piece, at the mean excess of its run."""
    found = []
    for piece in pieces:
        if piece.run is None:
            continue
        arithmetic = _output(family, piece, excess.arithmetic, "arithmetic")
        logarithmic = _output(family, piece, excess.logarithmic or excess.arithmetic, "logarithmic")
        found.append(PieceOutput(mark=piece.mark, run=piece.run, arithmetic=arithmetic, logarithmic=logarithmic))
    return tuple(found)


def _output(family: Family, piece: Piece, excess: Figure, mean: str) -> Figure:
    rated, metres = family.rated_output, piece.cut_length_mm / 1000.0
    length = plain(metres, 4 if metres >= 0.1 else 7)  # a short piece's sum is open with so few digits
    factor = f"({plain(excess.value, 3)} / 50)^{rated.exponent:g}"
    return Figure(
        name=f"output of {piece.mark}, {mean} mean",
        formula=f"{rated.at_50_k_w_per_m:g} x {length} x {factor}",
        value=rated.at_50_k_w_per_m * metres * output_factor(excess.value, rated.exponent),
        unit="W",
        rule=OUTPUT_RULE,
    )
