"""What is wrong in a joint between two pieces that were both cut: said of one of them, the one to change."""

from __future__ import annotations

from collections.abc import Container, Sequence
from dataclasses import replace

from model3d.as_cut.changes import FaultKey
from model3d.as_cut.values import PieceAsCut
from model3d.findings import Finding


def each_once(pieces: Sequence[PieceAsCut], up: Container[str]) -> tuple[PieceAsCut, ...]:
    """The pieces with each fault kept by one of them: by the one that is not up and takes the least change; the others
    wait for it.
    """
    keeper: dict[FaultKey, PieceAsCut] = {}
    for piece in pieces:
        for key in _keys(piece):
            if key not in keeper or _trouble(piece, up) < _trouble(keeper[key], up):
                keeper[key] = piece
    return tuple(_kept(piece, keeper) for piece in pieces)


def _keys(piece: PieceAsCut) -> list[FaultKey]:
    return [_key(f) for end in piece.ends for f in end.found]


def _key(finding: Finding) -> FaultKey:
    return finding.code, finding.parts


def _trouble(piece: PieceAsCut, up: Container[str]) -> tuple[bool, bool, float]:
    """How much trouble its change is: none that helps, one of a piece that is up, its length."""
    change = piece.change
    if change is None:
        return True, True, abs(piece.off_mm)
    return False, change.mark in up, abs(change.by_mm)


def _kept(piece: PieceAsCut, keeper: dict[FaultKey, PieceAsCut]) -> PieceAsCut:
    others = [keeper[k].mark for k in _keys(piece) if keeper[k].mark != piece.mark]
    if not others:
        return piece
    near, far = (
        replace(end, found=tuple(f for f in end.found if keeper[_key(f)].mark == piece.mark)) for end in piece.ends
    )
    kept = replace(piece, ends=(near, far))
    return kept if kept.faults else replace(kept, change=None, waits_for=others[0])
