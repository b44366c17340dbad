"""What comes of seeking an order, and of asking what must come off."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from model3d.geometry.placement import Vec3
from model3d.order.blocking import Near
from model3d.steps import Step

ChangeKind = Literal["obstacle off first", "link for elbow"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """One turn of an order: its step as it is done then, and the thing that goes up in it (None: a pressure test)."""

    step: Step
    thing: str | None

    @property
    def near(self) -> Near:
        """Whether a piece goes onto the links of its near end, or these are pushed in by hand afterwards."""
        return "by hand" if self.step.near_by_hand else "joined"


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """What stops a thing that is put up with others there: on which leg, how far along it, which part meets which and
    where (room frame), and how deep it would stand in it, as a ``Stop`` says; ``by`` is what it meets, a thing by its
    name, else the part's id.
    """

    thing: str
    by: str
    leg: str
    done_mm: float
    mover: str
    standing: str
    place_mm: Vec3
    depth_mm: float
    deepest: Literal["at the end", "on the way"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Trap:
    """A thing that no order puts up: by its preferred way it meets ``by``, and ``meeting`` tells how."""

    thing: str
    by: str
    meeting: Meeting


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A change of the plan that was tried and frees all that is trapped: what to do in words; ``what`` is the
    obstacle's id or the corner's.
    """

    kind: ChangeKind
    what: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Sought:
    """An order of fitting. ``usual`` says that the plan's own order goes; if not, ``reasons`` tell what stops it.

    ``turns`` is the whole order when nothing is trapped, else as much as goes up; ``changes`` are those that, all
    together, free what is trapped, none when no change tried does.
    """

    usual: bool
    turns: tuple[Turn, ...]
    reasons: tuple[Meeting, ...] = ()
    trapped: tuple[Trap, ...] = ()
    changes: tuple[Change, ...] = ()

    @property
    def steps(self) -> tuple[Step, ...]:
        """The steps in this order, numbered from 1."""
        return tuple(t.step for t in self.turns)


@dataclass(frozen=True, slots=True, kw_only=True)
class ComingOff:
    """One thing taken off: its moves in words, in turn."""

    thing: str
    moves: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Removed:
    """What must come off, in turn, to get a piece out, the piece itself last; or why it cannot be got out."""

    mark: str
    taken_off: tuple[ComingOff, ...]
    trapped: tuple[Trap, ...] = ()
