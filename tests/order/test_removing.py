"""What must come off to get a piece out once all is fitted, and by which moves."""

from __future__ import annotations

import pytest

from model3d.order.removing import remove
from model3d.order.values import Removed
from tests.order.rooms import OVER_A_CORNER, PIPE, TWO_RUNS_IN_A_CORNER, job, read

PLAIN = OVER_A_CORNER.replace("obstacles:\n", "")
LINK = PLAIN.replace("at: 1200}}", "at: 1200}, joints: [{corner: c2, use: link}]}")


def names(removed: Removed) -> list[str]:
    """What comes off, in turn."""
    return [c.thing for c in removed.taken_off]


def test_past_an_elbow_the_later_piece_comes_off_first() -> None:
    """Behind an elbow a piece comes out only after the one that holds the short legs, and after the trims over both."""
    removed = remove(job(read(PLAIN)), "A-1")
    assert [n for n in names(removed) if n.startswith("A-")] == ["A-2", "A-1"]
    assert any(n.startswith("Trim") for n in names(removed)[:-2])


def test_the_last_piece_comes_off_alone() -> None:
    """The last piece of a run needs only what covers it off."""
    removed = remove(job(read(PLAIN)), "A-2")
    assert [n for n in names(removed) if n.startswith("A-")] == ["A-2"]


def test_a_piece_comes_out_by_its_own_moves_backwards() -> None:
    """Off the latches, off the short legs, off the ramps, out: the moves that put it up, the other way round."""
    moves = remove(job(read(PLAIN)), "A-2").taken_off[-1].moves
    assert [m.split(" ")[0] for m in moves] == ["Free", "Slide", "Lower", "Take"]
    assert "26 mm toward the return, off the short legs" in moves[1]


def test_elbows_are_pushed_home_before_a_piece_slides() -> None:
    """A piece with elbows at its far end has them pushed right home first, as when it was fitted."""
    moves = remove(job(read(PLAIN)), "A-1").taken_off[-1].moves
    assert moves[0].startswith("Push the elbows at the end toward the return right home, 18 mm")


def test_a_link_that_lets_go_leaves_the_later_piece_up() -> None:
    """At a right angle a link lets go by hand: the piece before it comes out with the later one left up."""
    removed = remove(job(read(LINK)), "A-1")
    assert [n for n in names(removed) if n.startswith("A-")] == ["A-1"]
    assert removed.taken_off[-1].moves[0].startswith("Let the links to A-2 go by hand")


def test_a_link_whose_screws_are_out_of_reach_is_not_let_go() -> None:
    """With a shelf 90 mm above it no screwdriver reaches the link's screws: the later piece comes off first after all;
    with the shelf 200 mm above it is let go.
    """
    shelf = "obstacles:\n  - {{id: shelf, kind: shelf, wall: w2, at: 20, width: 400, depth: 200, up: {up}}}\n"
    for up, first in ((238, ["A-2", "A-1"]), (348, ["A-1"])):
        removed = remove(job(read(LINK, shelf.format(up=up))), "A-1")
        assert [n for n in names(removed) if n.startswith("A-")] == first


def test_another_run_comes_off_where_it_is_in_the_way() -> None:
    """The piece of run B that run A's piece was put up before comes out only after that; not the other way round."""
    at = job(read(TWO_RUNS_IN_A_CORNER))
    assert [n for n in names(remove(at, "B-1")) if "-1" in n and "cap" not in n] == ["A-1", "B-1"]
    assert [n for n in names(remove(at, "A-1")) if "-1" in n and "cap" not in n] == ["A-1"]


def test_what_cannot_come_out_says_what_keeps_it() -> None:
    """A piece that a pipe keeps from sliding back off its short legs does not come out, and neither does the one before
    it; the pipe is named.
    """
    at = job(read(OVER_A_CORNER, PIPE))
    for mark in ("A-1", "A-2"):
        removed = remove(at, mark)
        assert removed.taken_off == ()
        assert [(t.thing, t.by) for t in removed.trapped] == [("A-2", "room/riser")]


def test_pieces_that_are_up_already_are_asked_for_as_well() -> None:
    """A piece that the plan says is fitted can be asked for: what is up counts, whenever it was put up."""
    project = read(PLAIN, "fitted: [A-1]\n")
    assert [p.mark for p in project.layout.pieces if p.fitted] == ["A-1"]
    assert [n for n in names(remove(job(project), "A-1")) if n.startswith("A-")] == ["A-2", "A-1"]


def test_an_unknown_mark_is_refused() -> None:
    """A mark that is no piece's raises KeyError."""
    with pytest.raises(KeyError):
        remove(job(read(PLAIN)), "A-9")
