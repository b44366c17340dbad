"""Steps of the fitting and the moves in them, in numbers.

Run frame at a piece: t along the run from near to far, u out from the wall, v up. It can be left-handed; it is used for
distances only.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from model3d.geometry.placement import Vec3
from model3d.steps.difficulty import Difficulty
from model3d.wording import Language

MoveName = Literal["offer", "raise", "slide", "engage", "press"]
StepKind = Literal["brackets", "piece", "pressure-test", "covers"]
ActionKind = Literal["bench", "move", "after", "check"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveLeg:
    """One straight leg of a move: where the piece stands before and after it, as seen from its final place, in the
    run frame (t, u, v), mm.

    ``click`` says that a joint or the latch snaps at its end.
    """

    name: MoveName
    from_mm: Vec3
    to_mm: Vec3
    click: bool

    @property
    def length_mm(self) -> float:
        """How far the leg goes."""
        return math.dist(self.from_mm, self.to_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Approach:
    """How a piece comes to its offer: from a point, or swinging in about the upright line through its near end."""

    name: Literal["straight", "slanted", "above", "along", "swing"]
    from_mm: Vec3
    turn_deg: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Action:
    """One thing to do, in words; ``label`` numbers a leg of the move (as on its arrow).

    Work on the bench names its ``piece`` and ``end``; ``parts`` are its text, one thing to do an entry.
    """

    kind: ActionKind
    text: str
    label: str = ""
    piece: str = ""
    end: Literal["start", "end"] | None = None
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Snag:
    """A known snag of this step: what it is, at which end, and the leg (or the bench work) it comes with."""

    text: str
    end: Literal["start", "end"]
    during: Literal["bench"] | MoveName


@dataclass(frozen=True, slots=True, kw_only=True)
class Shift:
    """Where a part stands at a moment of a step, as a shift from its final place, room frame, mm."""

    part: str
    by_mm: Vec3


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of a run.

    ``pieces`` are the marks put up in it (several when coupled on the bench). ``travels`` are the ids of the parts
    that move with them, ``follows`` of those put in once they are up (links, covers, brackets: whatever is new and
    does not travel). ``approach`` and ``legs`` are the move, empty when nothing moves as one. ``pushed_home`` shifts
    the elbows of the far end while the piece moves, ``drawn_out`` once it is pressed; ``waiting`` are the elbows of
    the near end as they wait for this piece. ``near_by_hand`` says that the piece goes up with nothing at its near end
    to go onto, and the links there are pushed in by hand when both their pieces are up: in this step, if ``links_from``
    names the piece before it that is up. ``links_into`` names the piece beyond the far end that is up already, into
    which the other ends of the far links are pushed by hand.
    ``language`` is that of its words, ``difficulty`` how hard it is, None as long as its moves have not been looked at.
    """

    number: int
    kind: StepKind
    run: str | None
    title: str
    actions: tuple[Action, ...]
    pieces: tuple[str, ...] = ()
    travels: tuple[str, ...] = ()
    follows: tuple[str, ...] = ()
    approach: Approach | None = None
    legs: tuple[MoveLeg, ...] = ()
    pushed_home: tuple[Shift, ...] = ()
    drawn_out: tuple[Shift, ...] = ()
    waiting: tuple[Shift, ...] = ()
    near_by_hand: bool = False
    links_from: str | None = None
    links_into: str | None = None
    two_people: bool = False
    snags: tuple[Snag, ...] = ()
    language: Language = "en"
    difficulty: Difficulty | None = None
