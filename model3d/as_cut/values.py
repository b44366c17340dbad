"""What comes of pieces cut otherwise than laid out, in numbers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from model3d.figures import Figure
from model3d.findings import Finding
from model3d.layout import Layout
from model3d.layout.values import EndJoint

ChangeKind = Literal["cut-off", "cut-other", "new-piece"]


@dataclass(frozen=True, slots=True, kw_only=True)
class EndAsCut:
    """One end of a piece as cut: ``out_mm`` is how far its face stands outward of its place, positive an overlap,
    negative a gap. ``figures`` are what is in the joint then, hot and cold; ``found`` what no longer works there
    because of this piece.
    """

    end: Literal["near", "far"]
    joint: EndJoint
    mark: str | None
    out_mm: float
    figures: tuple[Figure, ...]
    found: tuple[Finding, ...]

    @property
    def faults(self) -> tuple[str, ...]:
        """What no longer works, in words."""
        return tuple(f.message for f in self.found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """The least change that makes it right: cut so much off the piece, cut another one (not cut yet) to another
    length, or cut a new piece of at least this length. ``length_mm`` is the length of piece ``mark`` afterwards.
    """

    kind: ChangeKind
    mark: str
    by_mm: float
    length_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceAsCut:
    """A piece with the length it was cut to.

    ``seals`` says that its joints hold, hot and cold, and that it can be fitted; ``change`` what to do when not, None
    when no change of length helps. ``waits_for`` is the piece whose change makes it right as well, None when nothing is
    wrong at its ends.
    """

    mark: str
    planned_mm: float
    cut_mm: float
    ends: tuple[EndAsCut, EndAsCut]
    change: Change | None
    waits_for: str | None = None

    @property
    def off_mm(self) -> float:
        """By how much it is longer than laid out."""
        return self.cut_mm - self.planned_mm

    @property
    def faults(self) -> tuple[str, ...]:
        """What does not work at either end."""
        return self.ends[0].faults + self.ends[1].faults

    @property
    def seals(self) -> bool:
        """Whether nothing is wrong."""
        return not self.faults


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLayout:
    """The layout with its pieces as cut and as fitted, what came of each cut, and findings on top of the layout's own
    (which ``layout`` has too).
    """

    layout: Layout
    pieces: tuple[PieceAsCut, ...]

    @property
    def said(self) -> frozenset[tuple[str, tuple[str, ...]]]:
        """Code and parts of what the findings of the cuts say already, so that no other check says it again."""
        return frozenset((f.code, f.parts) for p in self.pieces for e in p.ends for f in e.found)
