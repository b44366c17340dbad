"""Where pieces stand once they are cut to other lengths. Coupled pieces move as one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from model3d.layout import BracketMark, ElbowWork, End, Joint, Layout, Piece, RunLayout
from model3d.thermal.growing import coupled_groups

Lengths = Mapping[str, float]
"""Cut lengths by mark, mm."""
Shifts = Mapping[str, float]
"""By the mark of a group's first piece: how far the group's near face stands outward of its place, mm."""


def off_mm(group: tuple[Piece, ...], lengths: Lengths) -> float:
    """By how much a group of coupled pieces is longer than laid out."""
    return sum(lengths.get(p.mark, p.cut_length_mm) - p.cut_length_mm for p in group)


def placed(layout: Layout, lengths: Lengths, shifts: Shifts) -> Layout:
    """The layout, laid out for its own lengths, with pieces of these."""
    runs = tuple(_placed_run(run, lengths, shifts) for run in layout.runs)
    return replace(layout, runs=runs, dry_pieces=tuple(_placed_piece(p, lengths, 0.0) for p in layout.dry_pieces))


def _placed_run(run: RunLayout, lengths: Lengths, shifts: Shifts) -> RunLayout:
    pieces: dict[str, Piece] = {}
    for group in coupled_groups(run):
        out = shifts.get(group[0].mark, 0.0)
        for piece in group:
            pieces[piece.mark] = _placed_piece(piece, lengths, out)
            out = -(lengths.get(piece.mark, piece.cut_length_mm) - piece.cut_length_mm - out)
    joints = tuple(_placed_joint(j, pieces) for j in run.joints)
    return replace(run, pieces=tuple(pieces.values()), joints=joints)


def _placed_piece(piece: Piece, lengths: Lengths, near_out_mm: float) -> Piece:
    """A piece whose near face stands outward by so much; brackets stay where they are on the wall."""
    cut = lengths.get(piece.mark, piece.cut_length_mm)
    far_out = cut - piece.cut_length_mm - near_out_mm
    if near_out_mm == 0.0 and cut == piece.cut_length_mm:
        return piece
    near, far = piece.near_mm - piece.sense * near_out_mm, piece.far_mm + piece.sense * far_out
    free = piece.end.joint in ("return", "turn-back", "none")
    return replace(
        piece,
        near_mm=near,
        far_mm=far,
        cut_length_mm=cut,
        planned_mm=piece.cut_length_mm,
        near_out_mm=near_out_mm,
        far_out_mm=far_out,
        growth_gap_mm=piece.growth_gap_mm - far_out if free else piece.growth_gap_mm,
        end=_placed_end(piece.end, far_out),
        brackets=tuple(
            BracketMark(along_mm=b.along_mm, from_near_mm=piece.sense * (b.along_mm - near)) for b in piece.brackets
        ),
    )


def _placed_end(end: End, out_mm: float) -> End:
    """A long leg stands deeper in a piece that reaches further."""
    return replace(end, insertion_mm=end.insertion_mm + out_mm) if end.joint == "elbow-long" else end


def _placed_joint(joint: Joint, pieces: Mapping[str, Piece]) -> Joint:
    earlier = pieces[joint.earlier]
    if joint.kind == "coupler":
        return replace(joint, middle_mm=joint.middle_mm + earlier.sense * earlier.far_out_mm)
    if joint.elbow is None or earlier.far_out_mm == 0.0:
        return joint
    work, out = joint.elbow, earlier.far_out_mm
    return replace(
        joint,
        elbow=ElbowWork(
            insertion_mm=work.insertion_mm + out,
            push_home_mm=work.push_home_mm - out,
            draw_out_to_mm=work.draw_out_to_mm + out,
            press_draws_mm=work.press_draws_mm,
        ),
    )
