"""Packers behind the brackets of a wall that bows.

Where a piece held on the bare wall stays within its straightness, it follows the wall, without packers. Where it
would not, all brackets of the wall come to one straight line, parallel to the wall's line and as far out as the
wall's face behind its proudest bracket. A bracket's plate rests on the proudest place behind it, and its packers are
the thickest that go behind it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from model3d.families.family import Family
from model3d.layout.flatness import greatest_bend_mm, straight_within, straightness_limit_mm
from model3d.layout.values import BracketMark, Piece, PieceOnWall
from model3d.rooms import Packers, WallBow

Faces = tuple[tuple[float, float], ...]


def wall_faces(family: Family, brackets: Sequence[BracketMark], bow: WallBow) -> Faces:
    """The wall's face behind each bracket, where it stands out most: (along, off the wall's line), in order along the
    wall.
    """
    return tuple(sorted((b.along_mm, _behind(family, b, bow)) for b in brackets))


def _behind(family: Family, bracket: BracketMark, bow: WallBow) -> float:
    half = family.bracket.width_mm / 2.0
    return bow.proudest_mm(bracket.along_mm - half, bracket.along_mm + half)


def stand_out_mm(family: Family, pieces: Sequence[Piece], bow: WallBow) -> float | None:
    """How far a wall's pieces stand out from its line; None where they follow the bare wall."""
    faces = [wall_faces(family, p.brackets, bow) for p in pieces]
    if all(straight_within(f, family.straightness_mm_per_m) for f in faces):
        return None
    cradles = [bow.proudest_mm(*at) for p in pieces if (at := cradle_mm(family, p)) is not None]
    return max(0.0, *cradles, *(off for f in faces for _, off in f))


def cradle_mm(family: Family, piece: Piece) -> tuple[float, float] | None:
    """From where to where along the wall a piece's valve cradle stands; None without a valve."""
    if piece.start.joint != "valve":
        return None
    cradle = family.valve_end.cradle
    return piece.near_mm - piece.sense * cradle.start_mm, piece.near_mm - piece.sense * cradle.end_mm


def piece_on_wall(family: Family, piece: Piece, bow: WallBow, packers: Packers, out_mm: float | None) -> PieceOnWall:
    """The packers of one piece, in the order of its brackets, and how straight it then is."""
    offs = [(b.along_mm, _behind(family, b, bow)) for b in piece.brackets]
    packs = [0.0 if out_mm is None else _packer(out_mm - off, packers.step_mm) for _, off in offs]
    cradle = None if out_mm is None else cradle_mm(family, piece)
    held = sorted((along, off + pack) for (along, off), pack in zip(offs, packs, strict=True))
    return PieceOnWall(
        mark=piece.mark,
        stand_out_mm=out_mm or 0.0,
        packers_mm=tuple(packs),
        cradle_packers_mm=_packer((out_mm or 0.0) - bow.proudest_mm(*cradle), packers.step_mm) if cradle else 0.0,
        packed=out_mm is not None,
        bend_mm=greatest_bend_mm(held),
        bend_limit_mm=straightness_limit_mm(family.straightness_mm_per_m, held[-1][0] - held[0][0]),
        straight=straight_within(held, family.straightness_mm_per_m),
    )


def _packer(thickness_mm: float, step_mm: float) -> float:
    """The greatest thickness there is that goes in."""
    return max(0.0, math.floor(thickness_mm / step_mm + 1e-9) * step_mm)
