"""Runs along walls whose pieces stand out from the wall's line: their corners move with them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from model3d.geometry.placement import Placement
from model3d.layout.values import Term
from model3d.rooms import Corner, RunPlan, Wall

STAND_OUT = "stand-out"
"""The name of the allowance's term."""
_LEAST_SINE = 0.17  # at turns under 10 degrees the hose takes the step


def moved_out(wall: Wall, out_mm: float) -> Wall:
    """The wall with its frame as far into the room as its pieces stand out: what is placed on it stands so too."""
    if out_mm == 0.0:
        return wall
    (x, y, z), (nx, ny) = wall.frame.origin_mm, wall.normal
    frame = Placement(
        origin_mm=(x + out_mm * nx, y + out_mm * ny, z),
        x_axis=wall.frame.x_axis,
        y_axis=wall.frame.y_axis,
        z_axis=wall.frame.z_axis,
    )
    return replace(wall, frame=frame)


def run_moved_out(run: RunPlan, outs_mm: Sequence[float]) -> RunPlan:
    """The run with each of its walls moved out."""
    spans = tuple(replace(s, wall=moved_out(s.wall, out)) for s, out in zip(run.spans, outs_mm, strict=True))
    return replace(run, spans=spans)


def stand_out_terms(corner: Corner, own_mm: float, other_mm: float) -> tuple[Term, ...]:
    """What is added to an allowance at a corner: the lines of pieces that stand out meet elsewhere than the walls'
    lines.

    ``own_mm`` is how far the piece itself stands out, ``other_mm`` the one beyond the corner. By plane geometry it is
    (other - own cos tau) / sin tau along the piece's own wall. None where neither stands out.
    """
    turn = math.radians(corner.turn_deg)
    if (own_mm == 0.0 and other_mm == 0.0) or abs(math.sin(turn)) < _LEAST_SINE:
        return ()
    value = (other_mm - own_mm * math.cos(turn)) / math.sin(turn)
    formula = f"({other_mm:g} - {own_mm:g} cos({corner.turn_deg:g})) / sin({corner.turn_deg:g})"
    return (Term(name=STAND_OUT, formula=formula, value_mm=value),)
