"""Packers, gaps and heights as plain text."""

from __future__ import annotations

from model3d.figures import Units
from model3d.figures.lengths import length
from model3d.layout.values import Layout, PieceOnWall, PieceOverFloor


def surfaces_text(layout: Layout, units: Units = "mm") -> str:
    """Packers behind brackets on walls that bow, then gaps and drilling heights over a floor that was read; empty
    without either.
    """
    blocks, in_mm = [], ", mm" if units == "mm" else ""
    if layout.on_walls:
        lines = [
            f"  {p.mark}  {'  '.join(length(t, units) for t in p.packers_mm)}{_standing(p, units)}"
            for p in layout.on_walls
        ]
        blocks.append(f"Packers behind the brackets{in_mm}, in the order of the brackets:\n" + "\n".join(lines))
    if layout.over_floor:
        lines = [_over_floor(p, units) for p in layout.over_floor]
        blocks.append(f"Over the floor{in_mm}:\n" + "\n".join(lines))
    return "\n\n".join(blocks)


def _standing(piece: PieceOnWall, units: Units) -> str:
    if not piece.packed:
        return "  (it follows the wall)"
    cradle = f"; {length(piece.cradle_packers_mm, units)} behind the cradle" if piece.cradle_packers_mm else ""
    return f"  (its line stands {length(piece.stand_out_mm, units)} out from the wall's{cradle})"


def _over_floor(piece: PieceOverFloor, units: Units) -> str:
    near, far, least, most = (
        length(gap, units) for gap in (piece.near_gap_mm, piece.far_gap_mm, piece.least_gap_mm, piece.most_gap_mm)
    )
    holes = " and ".join(length(h, units) for h in piece.holes_down_mm)
    return (
        f"  {piece.mark}  gap {near} at the near end, {far} at the far end, {least} to {most} between; "
        f"holes {holes} below the level line"
    )
