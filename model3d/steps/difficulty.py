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

from model3d.steps.things import called
from model3d.wording import ENGLISH, Catalogue

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
    """One reason and what it adds; ``key`` is that of its words in the catalogue, ``values`` are what they name."""

    points: Literal[1, 2]
    key: str
    values: tuple[tuple[str, str | float], ...] = ()

    def said(self, words: Catalogue) -> str:
        """The reason in plain words; parts of the model by what they are called."""
        return words.say(self.key, **{k: called(v, words) if isinstance(v, str) else v for k, v in self.values})

    @property
    def text(self) -> str:
        """The reason in English."""
        return self.said(ENGLISH)


@dataclass(frozen=True, slots=True, kw_only=True)
class Difficulty:
    """From 1 to 5, the word for it, and the reasons in the order of the table."""

    level: int
    reasons: tuple[Reason, ...]

    @property
    def word(self) -> str:
        """The level in an English word."""
        return ENGLISH.say(f"difficulty.{self.level}")

    @property
    def text(self) -> str:
        """The level, its word and the reasons, in one line of English."""
        return self.said(ENGLISH)

    def said(self, words: Catalogue) -> str:
        """The level, its word and the reasons, in one line."""
        word = words.say(f"difficulty.{self.level}")
        level = words.say("difficulty.level", level=self.level, most=HARDEST, word=word)
        why = "; ".join(r.said(words) for r in self.reasons)
        return words.say("difficulty.why", level=level, why=why) if why else level


def difficulty(found: Circumstances) -> Difficulty:
    """The rule of the table."""
    reasons = (*_clearance(found), *_joints(found), *_hands(found))
    return Difficulty(level=min(HARDEST, 1 + sum(r.points for r in reasons)), reasons=reasons)


def _clearance(found: Circumstances) -> Iterator[Reason]:
    if found.clearance_mm is not None and found.clearance_mm < NARROW_MM:
        values: tuple[tuple[str, str | float], ...] = (("mm", round(found.clearance_mm, 1)),)
        key = "difficulty.clearance"
        if found.clearance_from:
            key, values = "difficulty.clearance-past", (*values, ("what", found.clearance_from))
        yield Reason(points=2 if found.clearance_mm < TIGHT_MM else 1, key=key, values=values)


def _joints(found: Circumstances) -> Iterator[Reason]:
    if found.joints_at_once == 1:
        yield Reason(points=1, key="difficulty.joint")
    elif found.joints_at_once > 1:
        yield Reason(points=2, key="difficulty.joints", values=(("count", found.joints_at_once),))
    if found.fed_round:
        yield Reason(points=2, key="difficulty.fed-round")
    if found.bent_by_hand:
        yield Reason(points=1, key="difficulty.bent")
    if found.snags == 1:
        yield Reason(points=1, key="difficulty.snag")
    elif found.snags:
        yield Reason(points=1, key="difficulty.snags", values=(("count", found.snags),))


def _hands(found: Circumstances) -> Iterator[Reason]:
    above = found.above_mm is not None and found.above_mm < HAND_ABOVE_MM
    front = found.front_mm is not None and found.front_mm < HAND_FRONT_MM
    if above or front:
        values: tuple[tuple[str, str | float], ...] = ()
        if above:
            values += (("above", round(found.above_mm or 0.0)), ("over", found.above_what))
        if front:
            values += (("front", round(found.front_mm or 0.0)), ("before", found.front_what))
        key = "difficulty.hands" if above and front else f"difficulty.hands-{'above' if above else 'front'}"
        yield Reason(points=1, key=key, values=values)
    if found.screw_mm is not None and found.screw_mm < found.screw_asked_mm:
        room = (("mm", round(found.screw_mm)), ("asked", found.screw_asked_mm), ("what", found.screw_what))
        yield Reason(points=1, key="difficulty.screw", values=room)
