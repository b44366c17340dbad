"""Packers, gaps and heights as plain text."""

from __future__ import annotations

from model3d.layout.values import Layout


def surfaces_text(layout: Layout) -> str:
    """Packers behind brackets on walls that bow, then gaps and drilling heights over a floor that was read; empty
    without either.
    """
    blocks = []
    if layout.on_walls:
        lines = [
            f"  {p.mark}  {'  '.join(f'{t:g}' for t in p.packers_mm)}{_standing(p.stand_out_mm)}"
            for p in layout.on_walls
        ]
        blocks.append("Packers behind the brackets, mm, in the order of the brackets:\n" + "\n".join(lines))
    if layout.over_floor:
        lines = [
            f"  {p.mark}  gap {p.near_gap_mm:.1f} at the near end, {p.far_gap_mm:.1f} at the far end, "
            f"{p.least_gap_mm:.1f} to {p.most_gap_mm:.1f} between; "
            f"holes {' and '.join(f'{h:.1f}' for h in p.holes_down_mm)} below the level line"
            for p in layout.over_floor
        ]
        blocks.append("Over the floor, mm:\n" + "\n".join(lines))
    return "\n\n".join(blocks)


def _standing(out_mm: float) -> str:
    return f"  (its line stands {out_mm:.1f} out from the wall's)" if out_mm else ""
