"""The order of a plan's steps: the usual one where it goes, another where it does not, or what is trapped."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from model3d.moves.hose_bodies import hose_stop
from model3d.moves.trying import first_stop
from model3d.order.apart import Apart, Asked, Assembly, Removal, take_apart
from model3d.order.blocking import Blocking, WayUp
from model3d.order.job import Job, Things, things_of
from model3d.order.turns import turns_of
from model3d.order.values import Meeting, Sought, Trap

Tick = Callable[[str, int, int], None]


def seek(job: Job, *, tick: Tick | None = None) -> Sought:
    """The order found by taking the finished assembly apart; see ``Sought``. No change of the plan is tried here."""
    blocking = Blocking(job=job, things=things_of(job))
    asked = Asked(ticking(blocking, tick))
    apart = take_apart(asked.assembly, asked=asked)
    if apart.trapped:
        traps = tuple(traps_of(blocking, apart))
        return Sought(usual=False, turns=turns_of(blocking, _past_the_trapped(asked)), trapped=traps)
    usual = tuple(r.thing for r in apart.order) == asked.assembly.things
    usual = usual and all(r.way.near == "joined" for r in apart.order)
    reasons = () if usual else tuple(_reasons(blocking, asked, apart))
    return Sought(usual=usual, turns=turns_of(blocking, apart.order), reasons=reasons)


def ticking(blocking: Blocking, tick: Tick | None) -> Assembly[WayUp]:
    """The assembly to be taken apart, which says how far it is: things not yet known to be free count as to be done."""
    assembly = blocking.assembly()
    if tick is None:
        return assembly
    free: set[str] = set()

    def blockers(thing: str, way: WayUp, present: frozenset[str]) -> frozenset[str]:
        tick(thing, len(free), len(assembly.things))
        found = blocking(thing, way, present)
        if not found:
            free.add(thing)
        return found

    return Assembly(
        things=assembly.things,
        ways=assembly.ways,
        blockers=blockers,
        attached=assembly.attached,
        rests_on=assembly.rests_on,
    )


def meeting(blocking: Blocking, thing: str, way: WayUp, present: frozenset[str]) -> Meeting | None:
    """What a thing meets first on a way with these things there, None when it is free."""
    moved = blocking.things.named[thing]
    site = blocking.site(moved, way, present)
    stop = first_stop(site, blocking.legs(moved, way, present)) or (hose_stop(site) if site.group else None)
    if stop is None:
        return None
    return Meeting(
        thing=thing,
        by=blocking.things.owner.get(stop.standing, stop.standing),
        leg=stop.leg,
        done_mm=stop.done_mm,
        mover=stop.mover,
        standing=stop.standing,
        place_mm=stop.place_mm,
        depth_mm=stop.depth_mm,
        deepest=stop.deepest,
    )


def traps_of(blocking: Blocking, apart: Apart[WayUp]) -> Iterator[Trap]:
    """Of the trapped things each that meets something by its preferred way, with only the trapped there and what hangs
    on it left out: what it meets. The others are held by these alone.
    """
    trapped = frozenset(apart.trapped)
    for thing in apart.trapped:
        way = blocking.ways(blocking.things.named[thing])[0]
        met = meeting(blocking, thing, way, trapped - _all_hanging(blocking.things, thing))
        if met is not None:
            yield Trap(thing=thing, by=met.by, meeting=met)


def _all_hanging(things: Things, name: str) -> frozenset[str]:
    """What is attached to a thing or rests on it, and all that hangs on that."""
    found: set[str] = {name}
    for thing in things.all:
        on = things.attached.get(thing.name, frozenset()) | things.rests_on.get(thing.name, frozenset())
        if on & found:
            found.add(thing.name)
    return frozenset(found)


def _past_the_trapped(asked: Asked[WayUp]) -> list[Removal[WayUp]]:
    """What of the usual order goes up, in turn, without what cannot."""
    up: list[Removal[WayUp]] = []
    there: frozenset[str] = frozenset()
    assembly = asked.assembly
    for thing in assembly.things:
        needed = assembly.attached.get(thing, frozenset()) | assembly.rests_on.get(thing, frozenset())
        way = asked.free_way(thing, there | {thing}) if needed <= there else None
        if way is not None:
            up.append(Removal(thing=thing, way=way))
            there |= {thing}
    return up


def _reasons(blocking: Blocking, asked: Asked[WayUp], apart: Apart[WayUp]) -> Iterator[Meeting]:
    """Of every thing that the usual order stops, what it meets then; of every piece whose links are pushed in by hand
    after it, what it meets when it goes onto them.
    """
    by_hand = {r.thing for r in apart.order if r.way.near == "by hand"}
    for k, thing in enumerate(asked.assembly.things):
        before = frozenset(asked.assembly.things[:k])
        if thing in by_hand or asked.free_way(thing, before | {thing}) is None:
            met = meeting(blocking, thing, blocking.ways(blocking.things.named[thing])[0], before)
            if met is not None:
                yield met
