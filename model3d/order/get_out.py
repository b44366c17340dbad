"""What must come off, at least, to get one thing out of an assembly. It knows nothing of what the things are."""

from __future__ import annotations

import heapq
from collections.abc import Hashable, Iterator
from itertools import count
from typing import TypeVar

from model3d.order.apart import Apart, Asked, Assembly, Removal, take_apart, taken_from

W = TypeVar("W", bound=Hashable)
MOST_STATES = 2000  # sets looked at before any set that will do is taken


def get_out(assembly: Assembly[W], thing: str, *, asked: Asked[W] | None = None) -> tuple[Removal[W], ...] | Apart[W]:
    """The fewest removals that end with the thing, in turn; or, when it is trapped, how far taking apart gets.

    Sets of things to take off are looked at by size: whatever stands in a way, hangs on a thing or rests on it joins
    the set, one set for every way. Past ``MOST_STATES`` sets the answer is one from which nothing can be left out.
    Raises KeyError when there is no such thing.
    """
    if thing not in assembly.things:
        raise KeyError(thing)
    asked = Asked(assembly) if asked is None else asked
    whole = frozenset(assembly.things)
    turns = count()
    start = frozenset({thing})
    heap = [(1, next(turns), start)]
    seen = {start}
    while heap and len(seen) <= MOST_STATES:
        _, _, group = heapq.heappop(heap)
        removals = taken_from(asked, group, whole)
        if removals is not None:
            return removals
        for larger in _joined(asked, group, whole):
            if larger not in seen:
                seen.add(larger)
                heapq.heappush(heap, (len(larger), next(turns), larger))
    apart = take_apart(assembly, asked=asked)
    return apart if thing in apart.trapped else _pruned(asked, apart.removals, thing, whole)


def _joined(asked: Asked[W], group: frozenset[str], whole: frozenset[str]) -> Iterator[frozenset[str]]:
    """The set with what must go before one of it: of the first that lacks something, all its ways; when none lacks any
    by some way but they hold each other, every way of everyone.
    """
    present = whole - group
    stuck = []
    for thing in sorted(group):
        hanging = frozenset(other for other, _ in asked.hanging(thing, present))
        if hanging:
            yield group | hanging
            return
        sets = [asked.blocking(thing, way, present) for way in asked.assembly.ways.get(thing, ())]
        larger = [group | s for s in sets if s and s <= whole]
        if all(sets):
            yield from larger
            return
        stuck += larger
    yield from stuck


def _pruned(
    asked: Asked[W], removals: tuple[Removal[W], ...], thing: str, whole: frozenset[str]
) -> tuple[Removal[W], ...]:
    """Nothing left in that could stay, the last tried first."""
    k = next(i for i, r in enumerate(removals) if r.thing == thing)
    kept = removals[: k + 1]
    for removal in reversed(kept[:-1]):
        group = frozenset(r.thing for r in kept) - {removal.thing}
        fewer = taken_from(asked, group, whole)
        if fewer is not None:
            at = next(i for i, r in enumerate(fewer) if r.thing == thing)
            kept = fewer[: at + 1]
    return kept
