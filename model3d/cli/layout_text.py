"""A layout as plain text: one table a run, then joints and brackets."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.cli.marks_text import marks_text
from model3d.figures import Units, feet_inches, plain
from model3d.figures.lengths import length
from model3d.layout import Joint, Layout, Piece
from model3d.layout.surfaces_text import surfaces_text
from model3d.layout.values import End

HEADINGS = ("piece", "wall", "cut length", "toward the valve", "toward the return", "from", "to")


def layout_text(layout: Layout, units: Units = "mm") -> str:
    """All runs and dry pieces, lengths in the units asked for. Positions are along the wall from its first corner (on
    the right as you face it).
    """
    where = "positions along each wall from its first corner, on your right as you face it"
    in_what = "mm" if units == "mm" else "feet and inches, to the nearest 1/32"
    blocks = [f"Family {layout.family_id}. Lengths in {in_what}; {where}."]
    for run in layout.runs:
        with_walls = run.sense > 0
        sense = f"{'with' if with_walls else 'against'} the walls' sense"
        sense += f" (to the {'left' if with_walls else 'right'} as you face them)"
        blocks.append(f"Run {run.id}, {sense}:\n{_table([_row(p, units) for p in run.pieces])}")
        if run.joints:
            blocks.append("Joints:\n" + "\n".join(f"  {_joint(j, units)}" for j in run.joints))
        blocks.append("Brackets, middles from the end toward the valve:\n" + _brackets(run.pieces, units))
    if layout.dry_pieces:
        blocks.append(f"Dry pieces:\n{_table([_row(p, units) for p in layout.dry_pieces])}")
        blocks.append("Brackets, middles from the end nearer the first corner:\n" + _brackets(layout.dry_pieces, units))
    blocks += [text for text in (marks_text(layout, units), surfaces_text(layout, units)) if text]
    return "\n\n".join(blocks)


def _row(piece: Piece, units: Units) -> tuple[str, ...]:
    return (
        f"{piece.mark} (up)" if piece.fitted else piece.mark,
        piece.wall.id,
        length(piece.cut_length_mm, units),
        _end(piece.start, units),
        _end(piece.end, units),
        length(piece.near_mm, units),
        length(piece.far_mm, units),
    )


def _end(end: End, units: Units) -> str:
    clip = f"clip {end.clip}" if end.clip != "none" else "no clip"
    return f"{end.joint}, {clip}, {length(end.allowance_mm, units)}"


def _table(rows: Sequence[tuple[str, ...]]) -> str:
    widths = [max(len(r[i]) for r in (HEADINGS, *rows)) for i in range(len(HEADINGS))]
    right = {2, 5, 6}
    lines = []
    for row in (HEADINGS, *rows):
        cells = [c.rjust(w) if i in right else c.ljust(w) for i, (c, w) in enumerate(zip(row, widths, strict=True))]
        lines.append("  " + "  ".join(cells).rstrip())
    return "\n".join(lines)


def _joint(joint: Joint, units: Units) -> str:
    where = f"corner {joint.corner.id}" if joint.corner else f"wall {joint.wall.id}"
    text = f"{joint.mark}  {joint.earlier} to {joint.later}  {joint.kind} at {where}: {joint.reason}"
    if joint.elbow is not None:
        work = joint.elbow
        push, draw, press = (
            feet_inches(v) if units == "ft-in" else plain(v)
            for v in (work.push_home_mm, work.draw_out_to_mm, work.press_draws_mm)
        )
        text += f"; push home {push}, draw out to {draw}, the press draws {press}"
    return text


def _brackets(pieces: Sequence[Piece], units: Units) -> str:
    lines = (f"  {p.mark}  " + "  ".join(length(b.from_near_mm, units, 0) for b in p.brackets) for p in pieces)
    return "\n".join(lines)
