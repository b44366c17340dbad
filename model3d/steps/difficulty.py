"""How hard a step or a corner is, from 1 to 5 in plain words: points added up by the table below, each with its reason.

The rule and its figures are ours: common practice names what makes a joint hard, and no source weighs it. A step has
one point to begin with; past four more it stays at 5.

| what | points |
| --- | --- |
| least clearance on the way under 10 mm; under 3 mm | 1; 2 |
| a joint that engages while the piece moves; two or more that do so at once | 1; 2 |
| links fed round an external corner (in practice the hardest corners) | 2 |
| links bent by hand between two pieces that are up | 1 |
| a known snag | 1 |
| hands hidden: less than 120 mm free above the piece where a joint is made, or less than 400 mm in front of it | 1 |
| no room for a screwdriver at a link's screws: less than its family asks for | 1 |
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

WORDS = {1: "easy", 2: "plain", 3: "needs care", 4: "hard", 5: "very hard"}
HARDEST = 5
NARROW_MM, TIGHT_MM = 10.0, 3.0  # clearances on the way: a finger's breadth; less than a hand holds steady
HAND_ABOVE_MM = 120.0  # a fist with a fitting in it
HAND_FRONT_MM = 400.0  # a kneeling person's shoulder in front of the piece


@dataclass(frozen=True, slots=True, kw_only=True)
class Circumstances:
    """What makes a step or a corner hard. Figures in mm; None where nothing is near, or there is nothing of the kind.

    ``joints_at_once`` counts pairs of fittings that engage in the same movement; ``above_mm`` and ``front_mm`` are free
    above the piece and in front of it where a joint is made; ``screw_mm`` is free before a link's screw, of
    ``screw_asked_mm``.
    """

    clearance_mm: float | None = None
    clearance_from: str = ""
    joints_at_once: int = 0
    fed_round: bool = False
    bent_by_hand: bool = False
    snags: int = 0
    above_mm: float | None = None
    above_what: str = ""
    front_mm: float | None = None
    front_what: str = ""
    screw_mm: float | None = None
    screw_asked_mm: float = 0.0
    screw_what: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """One reason, in plain words, and what it adds."""

    points: Literal[1, 2]
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Difficulty:
    """From 1 to 5, the word for it, and the reasons in the order of the table."""

    level: int
    reasons: tuple[Reason, ...]

    @property
    def word(self) -> str:
        """The level in a word."""
        return WORDS[self.level]

    @property
    def text(self) -> str:
        """The level, its word and the reasons, in one line."""
        said = "; ".join(r.text for r in self.reasons)
        return f"{self.level} of {HARDEST}, {self.word}" + (f": {said}" if said else "")


def difficulty(found: Circumstances) -> Difficulty:
    """The rule of the table."""
    reasons = (*_clearance(found), *_joints(found), *_hands(found))
    return Difficulty(level=min(HARDEST, 1 + sum(r.points for r in reasons)), reasons=reasons)


def _clearance(found: Circumstances) -> Iterator[Reason]:
    if found.clearance_mm is not None and found.clearance_mm < NARROW_MM:
        past = f" past {found.clearance_from}" if found.clearance_from else ""
        text = f"{found.clearance_mm:.1f} mm to spare{past}"
        yield Reason(points=2 if found.clearance_mm < TIGHT_MM else 1, text=text)


def _joints(found: Circumstances) -> Iterator[Reason]:
    if found.joints_at_once == 1:
        yield Reason(points=1, text="a joint engages while the piece moves")
    elif found.joints_at_once > 1:
        yield Reason(points=2, text=f"{found.joints_at_once} joints engage at once")
    if found.fed_round:
        yield Reason(points=2, text="links fed round an external corner")
    if found.bent_by_hand:
        yield Reason(points=1, text="hoses bent by hand between two pieces that are up")
    if found.snags:
        yield Reason(points=1, text="a known snag" if found.snags == 1 else f"{found.snags} known snags")


def _hands(found: Circumstances) -> Iterator[Reason]:
    hidden = []
    if found.above_mm is not None and found.above_mm < HAND_ABOVE_MM:
        hidden.append(f"{found.above_mm:.0f} mm free above, under {found.above_what}")
    if found.front_mm is not None and found.front_mm < HAND_FRONT_MM:
        hidden.append(f"{found.front_mm:.0f} mm free in front, before {found.front_what}")
    if hidden:
        yield Reason(points=1, text="little room for hands: " + ", ".join(hidden))
    if found.screw_mm is not None and found.screw_mm < found.screw_asked_mm:
        text = f"{found.screw_mm:.0f} mm for a screwdriver that needs {found.screw_asked_mm:g}, by {found.screw_what}"
        yield Reason(points=1, text=text)
