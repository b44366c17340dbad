"""The smallest change that frees what is trapped; each change named is made in the plan and the order sought again."""

from __future__ import annotations

from dataclasses import replace

import pytest

from model3d.order.blocking import Blocking
from model3d.order.freeing import Candidate, applied, seek_and_free, with_links
from model3d.order.job import things_of
from model3d.order.seek import meeting, seek
from tests.order.rooms import CHEST, OVER_A_CORNER, PIPE, job, read

LINK = OVER_A_CORNER.replace("at: 1200}}", "at: 1200}, joints: [{corner: c2, use: link}]}")


def test_a_link_for_the_elbow_frees_a_piece_that_cannot_slide() -> None:
    """A piece that a pipe keeps from sliding onto its short legs goes straight up when there is a link in place of the
    elbow, which is pushed in by hand: said, and so when the plan asks for the link.
    """
    sought = seek_and_free(job(read(OVER_A_CORNER, PIPE)))
    assert [(c.kind, c.what) for c in sought.changes] == [("link for elbow", "c2")]
    assert "corner c2" in sought.changes[0].text
    at = job(read(LINK, PIPE))
    changed = seek(at)
    assert changed.trapped == ()
    blocking, before = Blocking(job=at, things=things_of(at)), frozenset({"brackets of run A", "A-1"})
    ways = blocking.ways(blocking.things.named["A-2"])
    free = {w.near for w in ways if meeting(blocking, "A-2", w, before) is None}
    assert free == {"by hand"}
    (turn,) = [t for t in changed.turns if t.thing == "A-2"]
    assert turn.near == "by hand"
    assert [leg.name for leg in turn.step.legs] == ["offer", "raise", "press"]
    assert any("by hand" in a.text for a in turn.step.actions)
    assert not changed.usual
    assert [r.thing for r in changed.reasons] == ["A-2"]


def test_without_the_pipe_a_link_is_met_as_usual() -> None:
    """Where the piece has room to slide, it goes onto the links, and nothing is pushed in by hand."""
    sought = seek(job(read(LINK.replace("obstacles:\n", ""))))
    assert sought.usual
    assert {t.near for t in sought.turns} == {"joined"}


def test_an_obstacle_taken_off_first_frees_what_it_stands_before() -> None:
    """A chest in front of a piece is to be taken off until the last piece that it stops is up; the plan without it goes
    in the usual order.
    """
    sought = seek_and_free(job(read(OVER_A_CORNER, CHEST)))
    assert [(c.kind, c.what) for c in sought.changes] == [("obstacle off first", "chest")]
    assert "when A-2 is up" in sought.changes[0].text
    assert seek(job(read(OVER_A_CORNER.replace("obstacles:\n", "")))).usual


def test_two_changes_are_named_when_neither_is_enough() -> None:
    """With the chest and the pipe, each change by itself leaves something trapped, and the two together nothing."""
    sought = seek_and_free(job(read(OVER_A_CORNER, PIPE, CHEST)))
    assert [(c.kind, c.what) for c in sought.changes] == [("obstacle off first", "chest"), ("link for elbow", "c2")]
    assert seek(job(read(LINK, PIPE, CHEST))).trapped != ()
    assert seek(job(read(OVER_A_CORNER, PIPE))).trapped != ()
    assert seek(job(read(LINK, PIPE))).trapped == ()


def test_no_change_is_claimed_where_none_helps() -> None:
    """A pipe that stands in the piece's own place is freed by neither, and no change is named."""
    sought = seek_and_free(job(read(OVER_A_CORNER, PIPE.replace("at: 1212", "at: 900"))))
    assert sought.trapped != ()
    assert sought.changes == ()


def test_what_could_not_be_put_back_is_not_taken_off() -> None:
    """A chest pushed right to the wall, into the piece's own place, cannot be put back once the piece is up: taking it
    off is not named.
    """
    sought = seek_and_free(job(read(OVER_A_CORNER, CHEST.replace("off: 60", "off: 0"))))
    assert "A-1" in {t.thing for t in sought.trapped}
    assert sought.changes == ()


def test_where_a_hose_cannot_shorten_no_link_is_offered() -> None:
    """With a hose that bears no bend so tight, a link is not named, for it could not be let go."""
    at = job(read(OVER_A_CORNER, PIPE))
    link = at.family.link.model_copy(update={"least_bend_radius_mm": 16.0})
    stiff = at.family.model_copy(update={"link": link})
    assert seek_and_free(replace(at, family=stiff)).changes == ()


@pytest.mark.slow
def test_a_link_that_would_clash_is_not_offered() -> None:
    """With a rod in the corner where the link's hose would lie, every piece could be put up, for hoses bend, and all
    the same the link is not named: it would stand in the rod.
    """
    rod = "  - {id: rod, kind: pipe, wall: w2, at: 40, off: 30, diameter: 6, from: 20, to: 60}\n"
    at = job(read(OVER_A_CORNER, PIPE, rod))
    changed = applied(at, [Candidate(kind="link for elbow", what="c2")])
    assert changed is not None
    assert seek(changed).trapped == ()
    assert seek_and_free(at).changes == ()


def test_a_link_is_asked_for_at_that_corner_alone() -> None:
    """The changed plan asks for a link at the corner named, and is otherwise the same."""
    plan = read(OVER_A_CORNER.replace("obstacles:\n", "")).plan
    changed = with_links(plan, {"c2"})
    assert [c.use for c in changed.runs[0].corners] == ["link"]
    assert changed.runs[0].spans == plan.runs[0].spans
    assert with_links(plan, {"c9"}) == plan
