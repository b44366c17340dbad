"""Taking apart: puzzles with known answers, and small assemblies against trying every order."""

from __future__ import annotations

import time

import pytest
from hypothesis import given, settings

from model3d.order.apart import Asked, Assembly, order_goes, take_apart
from tests.order.puzzles import Table, drawn, slid_out, tables

ROOM_WITH_A_SHUT_CORNER = """
    #####
    #ab.#
    #c###
    #.#..
    ###..
"""


def names(assembly: Assembly[str]) -> str:
    """The order of putting together, as letters."""
    return "".join(r.thing for r in take_apart(assembly).order)


def test_a_stack_in_a_shaft_goes_from_the_bottom() -> None:
    """Things in a shaft open at the top go in from the bottom one up, whatever their usual order, and in no other."""
    shaft = slid_out(drawn("#d#\n#a#\n#c#\n#b#\n###"), fixed="#")
    assert names(shaft) == "bcad"
    goes = [
        order
        for order in (("b", "c", "a", "d"), ("a", "b", "c", "d"), ("b", "c", "d", "a"))
        if order_goes(shaft, order)
    ]
    assert goes == [("b", "c", "a", "d")]


def test_the_usual_order_is_kept_when_it_goes() -> None:
    """Where nothing stands in anything's way, the order is the usual one, by the preferred way."""
    apart = take_apart(slid_out(drawn("a.b.c.d")))
    assert [r.thing for r in apart.order] == ["a", "b", "c", "d"]
    assert {r.way for r in apart.removals} == {"up"}


def test_only_what_is_in_the_way_changes_place() -> None:
    """Of six things of which the second must be there before the first, the others keep their turns."""
    assembly = Table(
        blocks={("a", 0): frozenset(), ("b", 0): frozenset("a"), **{(t, 0): frozenset() for t in "cdef"}},
        attached={},
        things=tuple("abcdef"),
    ).assembly()
    assert [r.thing for r in take_apart(assembly).order] == list("bacdef")


def test_a_head_behind_lips_is_trapped() -> None:
    """A head behind lips can go no way and neither can they: both are trapped, each named as what holds the other."""
    apart = take_apart(slid_out(drawn("aaaaa\nabbba\naabaa\n..b..")))
    assert apart.removals == ()
    assert apart.trapped == ("a", "b")
    assert {(h.thing, h.by) for h in apart.holds} == {("a", "b"), ("b", "a")}
    assert {h.way for h in apart.holds if h.thing == "b"} == {"up", "left", "right", "down"}


def test_a_closed_ring_traps_what_is_in_it() -> None:
    """A thing within a closed ring is trapped by the ring alone, and the ring by it; what stands outside goes."""
    ring = slid_out(drawn("rrr..\nrir.o\nrrr.."))
    apart = take_apart(ring)
    assert [r.thing for r in apart.removals] == ["o"]
    assert apart.trapped == ("i", "r")
    assert {(h.thing, h.by) for h in apart.holds} == {("i", "r"), ("r", "i")}


def test_a_ring_with_a_gap_lets_go() -> None:
    """The same ring open on one side lets the thing out on that side, and no other."""
    apart = take_apart(slid_out(drawn("rrr\nri.\nrrr"), fixed="r"))
    assert [(r.thing, r.way) for r in apart.removals] == [("i", "right")]
    assert apart.trapped == ()


def test_what_is_fixed_never_goes() -> None:
    """A thing in a shut corner is trapped by what is fixed, a free one before it is not counted to hold it for good."""
    apart = take_apart(slid_out(drawn(ROOM_WITH_A_SHUT_CORNER), fixed="#"))
    assert apart.removals == ()
    assert {h.by for h in apart.holds if h.thing == "b"} == {"#", "a"}
    assert apart.locked == ("a", "b", "c")


def test_what_hangs_on_a_thing_goes_first() -> None:
    """Free to move by itself, a clip is still put in after its piece, and a piece after what it rests on."""
    free = {(t, 0): frozenset[str]() for t in ("clip", "piece", "bracket")}
    table = Table(blocks=free, attached={}, things=("clip", "piece", "bracket")).assembly()
    assert [r.thing for r in take_apart(table).order] == ["clip", "piece", "bracket"]
    held = Assembly(
        things=table.things,
        ways=table.ways,
        blockers=table.blockers,
        attached={"clip": frozenset({"piece"})},
        rests_on={"piece": frozenset({"bracket"})},
    )
    assert [r.thing for r in take_apart(held).order] == ["bracket", "piece", "clip"]
    assert not order_goes(held, ("clip", "piece", "bracket"))


def test_what_is_only_hung_on_is_not_called_locked() -> None:
    """When a clip cannot go, the piece under it is trapped as well, but only the clip is locked."""
    table = Table(
        blocks={("piece", 0): frozenset(), ("clip", 0): frozenset({"wall"})},
        attached={"clip": frozenset({"piece"})},
        things=("piece", "clip"),
    )
    apart = take_apart(table.assembly())
    assert apart.trapped == ("piece", "clip")
    assert apart.locked == ("clip",)
    assert [(h.thing, h.by, h.how) for h in apart.holds] == [
        ("piece", "clip", "attached"),
        ("clip", "wall", "stands in the way"),
    ]


def test_blockers_that_are_not_there_are_refused() -> None:
    """An answer that names the thing itself, or one that has gone, is refused and not believed."""
    for said in ("a", "b"):
        assembly = Assembly(things=("a", "b"), ways={"a": (0,), "b": (0,)}, blockers=lambda *_, s=said: frozenset(s))
        with pytest.raises(ValueError, match="must be there"):
            take_apart(assembly)


@settings(max_examples=120, deadline=None)
@given(tables())
def test_an_order_is_found_when_there_is_one(table: Table) -> None:
    """An order is found exactly when trying every order finds one, it is one of those, and of those it is the one whose
    last thing is latest in the usual order, then the last but one, and so on.
    """
    apart = take_apart(table.assembly())
    orders = table.orders()
    assert (apart.trapped == ()) == bool(orders)
    if orders:
        rank = {t: i for i, t in enumerate(table.things)}
        best = max(orders, key=lambda order: [rank[t] for t in reversed(order)])
        assert tuple(r.thing for r in apart.order) == best


@settings(max_examples=120, deadline=None)
@given(tables())
def test_what_is_trapped_is_what_no_turn_frees(table: Table) -> None:
    """What is left is exactly what no succession of removals at all takes away; each of it is held by a pair that is
    left or fixed.
    """
    gone_somehow: set[str] = set()
    heap, seen = [frozenset(table.things)], {frozenset(table.things)}
    while heap:
        present = heap.pop()
        for thing in present:
            if table.goes(thing, present):
                gone_somehow.add(thing)
                rest = present - {thing}
                if rest not in seen:
                    seen.add(rest)
                    heap.append(rest)
    apart = take_apart(table.assembly())
    assert set(apart.trapped) == set(table.things) - gone_somehow
    assert {h.thing for h in apart.holds} == set(apart.trapped)
    assert all(h.by in apart.trapped or h.by == "wall" for h in apart.holds)


@settings(max_examples=60, deadline=None)
@given(tables())
def test_one_blocker_named_is_enough(table: Table) -> None:
    """When a blocked way names only one of what blocks it, the same things come away in the same turn."""
    some, every = (take_apart(table.assembly(all_named=named)) for named in (False, True))
    assert [r.thing for r in some.removals] == [r.thing for r in every.removals]
    assert some.trapped == every.trapped


@settings(max_examples=60, deadline=None)
@given(tables())
def test_an_order_goes_when_the_table_says_so(table: Table) -> None:
    """An order is said to go exactly when each of its removals backwards is free in the table."""
    for order in (table.things, tuple(reversed(table.things))):
        assert order_goes(table.assembly(), order) == table.comes_apart(tuple(reversed(order)))


def test_no_way_is_asked_about_while_something_known_stands_in_it() -> None:
    """In a shaft of thirty things, known from the top down, each way is asked about twice at most; it takes no time."""
    things = tuple(f"t{k:02}" for k in range(30))
    table = Table(blocks={(t, 0): frozenset(things[k + 1 :]) for k, t in enumerate(things)}, attached={}, things=things)
    turned = Table(blocks=table.blocks, attached={}, things=tuple(reversed(things)))
    for each, most in ((table, 30), (turned, 60)):
        asked = Asked(each.assembly())
        began = time.perf_counter()
        apart = take_apart(asked.assembly, asked=asked)
        assert [r.thing for r in apart.order] == list(things)
        assert asked.questions <= most
        assert time.perf_counter() - began < 1.0
