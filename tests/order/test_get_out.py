"""What must come off to get one thing out: puzzles with known answers, small assemblies against trying every set."""

from __future__ import annotations

from itertools import combinations, permutations

import pytest
from hypothesis import given, settings

from model3d.order.apart import Apart, Asked, take_apart
from model3d.order.get_out import get_out
from tests.order.puzzles import Table, drawn, slid_out, tables


def test_from_a_shaft_all_above_must_come_off() -> None:
    """Out of a shaft open at the top, what stands above comes off from the top down, what stands below stays."""
    shaft = slid_out(drawn("#a#\n#b#\n#c#\n#d#\n###"), fixed="#")
    out = get_out(shaft, "c")
    assert not isinstance(out, Apart)
    assert [r.thing for r in out] == ["a", "b", "c"]


def test_the_way_with_fewer_in_it_is_taken() -> None:
    """With two things above and one beside it, it is got out sideways, though up is preferred."""
    out = get_out(slid_out(drawn("a..\nb..\nxc.\n###\n"), fixed="#"), "x")
    assert not isinstance(out, Apart)
    assert [(r.thing, r.way) for r in out] == [("x", "left")]
    out = get_out(slid_out(drawn("#a..\n#b..\n#xc.\n####\n"), fixed="#"), "x")
    assert not isinstance(out, Apart)
    assert [(r.thing, r.way) for r in out] == [("c", "up"), ("x", "right")]


def test_what_is_trapped_says_so() -> None:
    """Out of a closed ring nothing comes: the pairs that trap it are told."""
    out = get_out(slid_out(drawn("rrr\nrir\nrrr")), "i")
    assert isinstance(out, Apart)
    assert ("i", "r") in {(h.thing, h.by) for h in out.holds}


def test_two_that_hold_each_other_by_their_best_ways() -> None:
    """Two that bar each other's easy way: one goes by its other way, after what bars that."""
    table = Table(
        blocks={
            ("a", 0): frozenset("b"), ("b", 0): frozenset("a"), ("a", 1): frozenset({"wall"}), ("b", 1): frozenset("c"),
            ("c", 0): frozenset(),
        },
        attached={},
        things=("a", "b", "c"),
    )  # fmt: skip
    out = get_out(table.assembly(), "a")
    assert not isinstance(out, Apart)
    assert [(r.thing, r.way) for r in out] == [("c", 0), ("b", 1), ("a", 0)]


def test_an_unknown_thing_is_refused() -> None:
    """A thing that is not there raises KeyError."""
    with pytest.raises(KeyError):
        get_out(slid_out(drawn("a")), "z")


@settings(max_examples=100, deadline=None)
@given(tables(most=5))
def test_no_smaller_set_lets_it_out(table: Table) -> None:
    """The removals come away in the turn given, end with the thing, and no fewer let it out; none at all when it is
    trapped.
    """
    for thing in table.things:
        out = get_out(table.assembly(), thing)
        least = next(
            (
                k
                for k in range(len(table.things))
                for others in combinations([t for t in table.things if t != thing], k)
                if any(table.comes_apart((*turn, thing)) for turn in permutations(others))
            ),
            None,
        )
        if isinstance(out, Apart):
            assert least is None
            assert thing in out.trapped
        else:
            assert out[-1].thing == thing
            assert len(out) - 1 == least
            assert table.comes_apart(tuple(r.thing for r in out))


def test_the_search_shares_what_it_knows() -> None:
    """Asked again with the same knowledge, nothing is asked about twice."""
    assembly = slid_out(drawn("#a#\n#b#\n#c#\n###"), fixed="#")
    asked = Asked(assembly)
    take_apart(assembly, asked=asked)
    get_out(assembly, "c", asked=asked)
    once = asked.questions
    get_out(assembly, "c", asked=asked)
    assert asked.questions == once
