"""Takes a finished assembly apart, and so finds an order in which it goes together. It knows nothing of what the things
are.

Whatever stands in a way does so by itself: taking other things away never bars a way that was free. So what can go now
can go later as well, going on with whatever can go misses no order, and what is left at the last is trapped whatever
one tries. Things go one at a time: an assembly that comes apart only by moving two at once counts as trapped.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Hashable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Generic, Literal, TypeVar

W = TypeVar("W", bound=Hashable)
How = Literal["stands in the way", "attached", "rests"]
NONE: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Assembly(Generic[W]):
    """Things in the order in which they usually go together.

    ``ways`` are those by which each thing can go, the preferred first; every way ends in free space, clear of all that
    there is. ``blockers(thing, way, present)`` names what of the things present (the thing itself left out), or of what
    is fixed and never goes, stands in the way or where it ends: at least one when there is any. ``attached`` names for
    a thing what it is attached to, ``rests_on`` what it rests on: both have to be there first, and neither goes while
    it is there.
    """

    things: tuple[str, ...]
    ways: Mapping[str, tuple[W, ...]]
    blockers: Callable[[str, W, frozenset[str]], frozenset[str]]
    attached: Mapping[str, frozenset[str]] = field(default_factory=dict)
    rests_on: Mapping[str, frozenset[str]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Removal(Generic[W]):
    """One thing taken away, and by which of its ways."""

    thing: str
    way: W


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold(Generic[W]):
    """Why a thing cannot go: ``by`` stands in ``way``; or is attached to it or rests on it, when ``way`` is None."""

    thing: str
    by: str
    how: How
    way: W | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart(Generic[W]):
    """What came of taking apart: the removals in turn, what is trapped, in the usual order, and the pairs that trap."""

    removals: tuple[Removal[W], ...]
    trapped: tuple[str, ...]
    holds: tuple[Hold[W], ...]

    @property
    def order(self) -> tuple[Removal[W], ...]:
        """The order of putting together: the removals backwards. A whole one only when nothing is trapped."""
        return tuple(reversed(self.removals))

    @property
    def locked(self) -> tuple[str, ...]:
        """Those of the trapped that no way lets out, even if nothing hung on them."""
        barred = {h.thing for h in self.holds if h.how == "stands in the way"}
        return tuple(t for t in self.trapped if t in barred)


class Asked(Generic[W]):
    """What is known of an assembly's ways. Each answer is kept as a set that blocks: while one of it is there, the way
    is not asked about again; nor is one that was free, once more has gone.
    """

    def __init__(self, assembly: Assembly[W]) -> None:
        self.assembly = assembly
        self.questions = 0
        self._all = frozenset(assembly.things)
        self._blocking: dict[tuple[str, W], frozenset[str]] = {}
        self._free: dict[tuple[str, W], frozenset[str]] = {}

    def blocking(self, thing: str, way: W, present: frozenset[str]) -> frozenset[str]:
        """Some of what stands in a way, none when it is free; all of it where ``blockers`` names all."""
        key = (thing, way)
        here = present - {thing}
        if key in self._free and here <= self._free[key]:
            return NONE
        known = self._standing(self._blocking.get(key, NONE), here)
        if known:
            return known
        self.questions += 1
        found = self.assembly.blockers(thing, way, here)
        if thing in found or self._standing(found, here) != found:
            raise ValueError(f"what blocks {thing} must be there and not be {thing} itself: {sorted(found)}")
        self._blocking[key] = self._blocking.get(key, NONE) | found
        if not found:
            self._free[key] = here
        return found

    def free_way(self, thing: str, present: frozenset[str]) -> W | None:
        """The first of a thing's ways that is free, None when it is held."""
        if any(self._hangs(thing, other) for other in present):
            return None
        ways = self.assembly.ways.get(thing, ())
        return next((w for w in ways if not self.blocking(thing, w, present)), None)

    def hanging(self, thing: str, present: Collection[str]) -> Iterator[tuple[str, How]]:
        """What of the things present is attached to a thing or rests on it."""
        for other in self.assembly.things:
            if other in present:
                if thing in self.assembly.attached.get(other, NONE):
                    yield other, "attached"
                if thing in self.assembly.rests_on.get(other, NONE):
                    yield other, "rests"

    def _hangs(self, thing: str, other: str) -> bool:
        return thing in self.assembly.attached.get(other, NONE) or thing in self.assembly.rests_on.get(other, NONE)

    def _standing(self, named: frozenset[str], present: frozenset[str]) -> frozenset[str]:
        """Those of the named that are there: present, or fixed and no thing of the assembly."""
        return frozenset(n for n in named if n in present or n not in self._all)


def take_apart(assembly: Assembly[W], *, asked: Asked[W] | None = None) -> Apart[W]:
    """Take away whatever can go, of those that can the one that usually comes last, until all is gone or the rest is
    trapped.

    The order that comes of it keeps to the usual one as far as it can: of the things that could come last, the last
    comes last, and so on backwards. Raises ValueError when ``blockers`` names what is not there.
    """
    asked = Asked(assembly) if asked is None else asked
    present = frozenset(assembly.things)
    removals: list[Removal[W]] = []
    while present:
        found = _next(asked, present, present)
        if found is None:
            break
        removals.append(found)
        present -= {found.thing}
    trapped = tuple(t for t in assembly.things if t in present)
    return Apart(removals=tuple(removals), trapped=trapped, holds=tuple(_holds(asked, trapped, present)))


def order_goes(assembly: Assembly[W], order: Collection[str], *, asked: Asked[W] | None = None) -> bool:
    """Whether things go together in this order: each by some way past those before it, and with all that it needs."""
    asked = Asked(assembly) if asked is None else asked
    up: set[str] = set()
    for thing in order:
        needed = assembly.attached.get(thing, NONE) | assembly.rests_on.get(thing, NONE)
        if not needed & set(assembly.things) <= up or asked.free_way(thing, frozenset({*up, thing})) is None:
            return False
        up.add(thing)
    return True


def _next(asked: Asked[W], among: frozenset[str], present: frozenset[str]) -> Removal[W] | None:
    """Of some of the things, the last one that can go."""
    for thing in reversed(asked.assembly.things):
        if thing in among:
            way = asked.free_way(thing, present)
            if way is not None:
                return Removal(thing=thing, way=way)
    return None


def _holds(asked: Asked[W], trapped: tuple[str, ...], present: frozenset[str]) -> Iterator[Hold[W]]:
    for thing in trapped:
        for other, how in asked.hanging(thing, present - {thing}):
            yield Hold(thing=thing, by=other, how=how)
        for way in asked.assembly.ways.get(thing, ()):
            for other in sorted(asked.blocking(thing, way, present)):
                yield Hold(thing=thing, by=other, how="stands in the way", way=way)


def taken_from(asked: Asked[W], group: frozenset[str], present: frozenset[str]) -> tuple[Removal[W], ...] | None:
    """How some of the things come away while all others that are present stay; None when they do not all."""
    removals: list[Removal[W]] = []
    left = group
    while left:
        found = _next(asked, left, present)
        if found is None:
            return None
        removals.append(found)
        left, present = left - {found.thing}, present - {found.thing}
    return tuple(removals)
