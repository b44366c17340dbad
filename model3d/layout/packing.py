"""Packers behind the brackets of a wall that bows.

Where a piece held on the bare wall stays within its straightness, it follows the wall, without packers. Where it
would not, all brackets of the wall come to one straight line, parallel to the wall's line and as far out as the
wall's proudest bracket.
"""

from __future__ import annotations

from collections.abc import Sequence

from model3d.families.family import Family
from model3d.layout.flatness import greatest_bend_mm, straight_within
from model3d.layout.values import BracketMark, Piece, PieceOnWall
from model3d.rooms import Packers, WallBow

Faces = tuple[tuple[float, float], ...]


def wall_faces(brackets: Sequence[BracketMark], bow: WallBow) -> Faces:
    """The wall's face behind each bracket: (along, off the wall's line), in order along the wall."""
    return tuple(sorted((b.along_mm, bow.off_at_mm(b.along_mm)) for b in brackets))


def stand_out_mm(family: Family, pieces: Sequence[Piece], bow: WallBow) -> float | None:
    """How far a wall's pieces stand out from its line; None where they follow the bare wall."""
    faces = [wall_faces(p.brackets, bow) for p in pieces]
    if all(straight_within(f, family.straightness_mm_per_m) for f in faces):
        return None
    return max(0.0, *(off for f in faces for _, off in f))


def piece_on_wall(family: Family, piece: Piece, bow: WallBow, packers: Packers, out_mm: float | None) -> PieceOnWall:
    """The packers of one piece, in the order of its brackets, and how straight it then is."""
    offs = [(b.along_mm, bow.off_at_mm(b.along_mm)) for b in piece.brackets]
    packs = [0.0 if out_mm is None else _packer(out_mm - off, packers.step_mm) for _, off in offs]
    held = sorted((along, off + pack) for (along, off), pack in zip(offs, packs, strict=True))
    return PieceOnWall(
        mark=piece.mark,
        stand_out_mm=out_mm or 0.0,
        packers_mm=tuple(packs),
        bend_mm=greatest_bend_mm(held),
        bend_limit_mm=family.straightness_mm_per_m * (held[-1][0] - held[0][0]) / 1000.0,
        straight=straight_within(held, family.straightness_mm_per_m),
    )


def _packer(thickness_mm: float, step_mm: float) -> float:
    """The nearest thickness there is."""
    return max(0.0, round(thickness_mm / step_mm) * step_mm)
