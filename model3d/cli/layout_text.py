"""A layout as plain text: one table a run, then joints and brackets."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.layout import Joint, Layout, Piece
from model3d.layout.values import End

HEADINGS = ("piece", "wall", "cut length", "toward the valve", "toward the return", "from", "to")


def layout_text(layout: Layout) -> str:
    """All runs and dry pieces. Positions are along the wall from its first corner (on the right as you face it), mm."""
    where = "positions along each wall from its first corner, on your right as you face it"
    blocks = [f"Family {layout.family_id}. Lengths in mm; {where}."]
    for run in layout.runs:
        with_walls = run.sense > 0
        sense = f"{'with' if with_walls else 'against'} the walls' sense"
        sense += f" (to the {'left' if with_walls else 'right'} as you face them)"
        blocks.append(f"Run {run.id}, {sense}:\n{_table([_row(p) for p in run.pieces])}")
        if run.joints:
            blocks.append("Joints:\n" + "\n".join(f"  {_joint(j)}" for j in run.joints))
        blocks.append("Brackets, middles from the end toward the valve:\n" + _brackets(run.pieces))
    if layout.dry_pieces:
        blocks.append(f"Dry pieces:\n{_table([_row(p) for p in layout.dry_pieces])}")
        blocks.append("Brackets, middles from the end nearer the first corner:\n" + _brackets(layout.dry_pieces))
    return "\n\n".join(blocks)


def _row(piece: Piece) -> tuple[str, ...]:
    return (
        piece.mark, piece.wall.id, f"{piece.cut_length_mm:.1f}", _end(piece.start), _end(piece.end),
        f"{piece.near_mm:.1f}", f"{piece.far_mm:.1f}",
    )


def _end(end: End) -> str:
    clip = f"clip {end.clip}" if end.clip != "none" else "no clip"
    return f"{end.joint}, {clip}, {end.allowance_mm:.1f}"


def _table(rows: Sequence[tuple[str, ...]]) -> str:
    widths = [max(len(r[i]) for r in (HEADINGS, *rows)) for i in range(len(HEADINGS))]
    right = {2, 5, 6}
    lines = []
    for row in (HEADINGS, *rows):
        cells = [c.rjust(w) if i in right else c.ljust(w) for i, (c, w) in enumerate(zip(row, widths, strict=True))]
        lines.append("  " + "  ".join(cells).rstrip())
    return "\n".join(lines)


def _joint(joint: Joint) -> str:
    where = f"corner {joint.corner.id}" if joint.corner else f"wall {joint.wall.id}"
    text = f"{joint.mark}  {joint.earlier} to {joint.later}  {joint.kind} at {where}: {joint.reason}"
    if joint.elbow is not None:
        work = joint.elbow
        text += f"; push home {work.push_home_mm:g}, draw out to {work.draw_out_to_mm:g}"
        text += f", the press draws {work.press_draws_mm:g}"
    return text


def _brackets(pieces: Sequence[Piece]) -> str:
    return "\n".join(f"  {p.mark}  " + "  ".join(f"{b.from_near_mm:.0f}" for b in p.brackets) for p in pieces)
