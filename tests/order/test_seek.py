"""The order of a plan: the usual one where it goes, another where it does not; each held against the check of moves."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.moves.approaching import tried_in_turn
from model3d.moves.sites import sites
from model3d.moves.trying import first_stop
from model3d.moves.ways import hand_ways
from model3d.order.job import Job, job_of, things_of
from model3d.order.seek import seek
from model3d.steps import Step
from tests.order.rooms import (
    CHEST,
    OVER_A_CORNER,
    PIPE,
    TWO_RUNS_IN_A_CORNER,
    job,
    read,
)


def blocked(at: Job, steps: Sequence[Step]) -> set[str]:
    """The pieces that the check of moves does not let through, put up in this order."""
    every = [s for s in sites(at.layout, at.scene, steps, at.shapes) if s.step.kind == "piece"]
    return {s.name for s in every if tried_in_turn(s)[1] is None or first_stop(s, hand_ways(s)) is not None}


def test_the_usual_order_is_kept() -> None:
    """Where nothing bars it, the order is the plan's own, and nothing is said against it."""
    at = job(read(OVER_A_CORNER.replace("obstacles:\n", "")))
    sought = seek(at)
    assert sought.usual
    assert [s.title for s in sought.steps] == [s.title for s in at.steps]
    assert (sought.reasons, sought.trapped, sought.changes) == ((), (), ())
    assert blocked(at, sought.steps) == set()


def test_another_order_is_found_and_goes() -> None:
    """Where run A bars run B's first piece, B goes up before A; in the usual order that piece is blocked, in the one
    found none is. The reason names the two and where they meet.
    """
    at = job(read(TWO_RUNS_IN_A_CORNER))
    sought = seek(at)
    assert not sought.usual
    assert sought.trapped == ()
    pieces = [t.thing for t in sought.turns if t.step.kind == "piece"]
    assert pieces == ["B-1", "A-1"]
    assert [t.step.number for t in sought.turns] == list(range(1, len(at.steps) + 1))
    assert {t.step.title for t in sought.turns} == {s.title for s in at.steps}
    (reason,) = sought.reasons
    assert (reason.thing, reason.by, reason.leg) == ("B-1", "A-1", "offer")
    assert blocked(at, at.steps) == {"B-1"}
    assert blocked(at, sought.steps) == set()


def test_out_of_its_way_the_usual_order_goes() -> None:
    """With run A begun 560 mm further from the corner, clear of B's valve end on its way in, the usual order goes."""
    at = job(read(TWO_RUNS_IN_A_CORNER.replace("at: 40}", "at: 600}")))
    assert seek(at).usual


def test_every_step_keeps_what_it_needs_before_it() -> None:
    """In the order found, brackets come before their pieces, the test after the run's last piece, trims after it."""
    sought = seek(job(read(TWO_RUNS_IN_A_CORNER)))
    kinds = {run: [s.kind for s in sought.steps if s.run == run] for run in ("A", "B")}
    assert set(map(tuple, kinds.values())) == {("brackets", "piece", "pressure-test", "covers")}


def test_what_is_trapped_is_named_with_what_traps_it() -> None:
    """A pipe past the end of the run traps the piece that slides toward it, in its offer, and only that piece; the rest
    goes up; no test is done of a run that is not whole.
    """
    sought = seek(job(read(OVER_A_CORNER, PIPE)))
    (trap,) = sought.trapped
    assert (trap.thing, trap.by, trap.meeting.leg) == ("A-2", "room/riser", "offer")
    assert trap.meeting.mover == "A-2/return-end"
    assert [t.step.kind for t in sought.turns] == ["brackets", "piece"]


def test_a_pipe_out_of_the_slide_traps_nothing() -> None:
    """The same pipe 26 mm further, past the depth of engagement and 2 mm, traps nothing."""
    assert seek(job(read(OVER_A_CORNER, PIPE.replace("at: 1212", "at: 1238")))).usual


def test_a_chest_traps_all_that_is_behind_it() -> None:
    """A chest 60 mm in front of the first piece traps its brackets and the piece itself."""
    traps = {t.thing: t.by for t in seek(job(read(OVER_A_CORNER, CHEST))).trapped}
    assert traps["A-1"] == "room/chest"
    assert traps["brackets of run A"] == "room/chest"


def test_how_far_the_search_is_is_told() -> None:
    """The search tells of every thing that it looks at, and how many are known to go, of all."""
    told: list[tuple[str, int, int]] = []
    at = job(read(OVER_A_CORNER.replace("obstacles:\n", "")))
    seek(at, tick=lambda now, done, of: told.append((now, done, of)))
    things = things_of(at).all
    assert {now for now, _, _ in told} == {t.name for t in things}
    assert [done for _, done, _ in told] == sorted(done for _, done, _ in told)
    assert {of for _, _, of in told} == {len(things)}


def test_a_job_from_the_plan_is_the_project_s() -> None:
    """A job made from the checked plan alone has the layout and steps of the project that it was read with."""
    project = read(TWO_RUNS_IN_A_CORNER)
    made = job_of(project.plan, project.family)
    assert made.layout == project.layout
    assert made.steps == project.steps


def test_pieces_that_are_up_already_take_no_turn() -> None:
    """A plan whose first piece is up has the rest in its order, past the piece that is up."""
    at = job(read(OVER_A_CORNER.replace("obstacles:\n", ""), "fitted: [A-1]\n"))
    sought = seek(at)
    assert sought.usual
    assert [t.thing for t in sought.turns if t.step.kind == "piece"] == ["A-2"]


def test_links_are_pushed_in_from_a_piece_that_is_up_already() -> None:
    """Where the first piece is up and the second cannot slide, its links are pushed in by hand from the first."""
    link = OVER_A_CORNER.replace("at: 1200}}", "at: 1200}, joints: [{corner: c2, use: link}]}")
    sought = seek(job(read(link, PIPE, "fitted: [A-1]\n")))
    (turn,) = [t for t in sought.turns if t.thing == "A-2"]
    assert turn.near == "by hand"
    assert any("links from A-1" in a.text for a in turn.step.actions)
