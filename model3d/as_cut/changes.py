"""The least change of a length that makes a run right again."""

from __future__ import annotations

import math
from collections.abc import Iterable

from model3d.as_cut.judging import RunJudge
from model3d.as_cut.placing import Lengths
from model3d.as_cut.values import Change, ChangeKind
from model3d.layout import Piece

_STEP_MM = 0.1  # lengths are said to a tenth
_NEAR_MM = 0.02


FaultKey = tuple[str, tuple[str, ...]]
"""Code and parts of a finding."""


def least_change(
    judge: RunJudge,
    lengths: Lengths,
    piece: Piece,
    off_mm: float,
    uncut: Iterable[Piece],
    *,
    up: bool,
    aside: frozenset[FaultKey] = frozenset(),
) -> Change | None:
    """What to change so that ``piece``, longer than laid out by ``off_mm``, does: None when no length does.

    A piece too long is cut again, unless it is ``up``; for another one, a piece on its wall that is not cut yet takes
    up what is wrong, else a new one is cut. What is wrong elsewhere (``aside``) is left out of it.
    """
    if off_mm > 0 and not up:
        by = _least(judge, lengths, piece, lengths[piece.mark], -off_mm, aside)
        return None if by is None else _change("cut-off", piece, lengths[piece.mark], by)
    for other in uncut:
        by = _least(judge, lengths, other, other.cut_length_mm, -off_mm, aside)
        if by is not None:
            return _change("cut-other", other, other.cut_length_mm, by)
    by = _least(judge, lengths, piece, lengths[piece.mark], -off_mm, aside)
    return None if by is None else _change("cut-off" if off_mm > 0 else "new-piece", piece, lengths[piece.mark], by)


def _change(kind: ChangeKind, piece: Piece, length_mm: float, by_mm: float) -> Change:
    return Change(
        kind=kind,
        mark=piece.mark,
        by_mm=abs(by_mm) if kind == "cut-off" else by_mm,
        length_mm=length_mm + by_mm,
    )


def _least(
    judge: RunJudge,
    lengths: Lengths,
    piece: Piece,
    length_mm: float,
    whole_mm: float,
    aside: frozenset[FaultKey],
) -> float | None:
    """The least change of one length, up to ``whole_mm``, that leaves no faults; outward to a tenth. None when none
    does.
    """

    def right(by_mm: float) -> bool:
        faults = judge.outcome({**lengths, piece.mark: length_mm + by_mm}).faults
        return all((f.code, f.parts) in aside for f in faults)

    if not right(whole_mm):
        return None
    low, high = 0.0, whole_mm
    while abs(high - low) > _NEAR_MM:
        middle = (low + high) / 2.0
        low, high = (low, middle) if right(middle) else (middle, high)
    steps = math.floor(abs(high) / _STEP_MM + 0.05)
    for count in (steps, steps + 1):
        tenths = math.copysign(count * _STEP_MM, high)
        if right(tenths):
            return tenths
    return whole_mm
