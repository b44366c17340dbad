"""The moves that put a piece up: their legs, distances and directions."""

from __future__ import annotations

import math

import pytest

from model3d.geometry.placement import Vec3, add, scale, subtract
from model3d.layout import Piece
from model3d.steps import Step
from model3d.steps.moves import room_vector
from tests.layout.every_joint import FAMILIES
from tests.steps.planned import all_planned, every_joint

# Names of the legs from the offer on, where each ends (along the run, out, up), and which of them click.
LegList = list[tuple[str, Vec3, bool]]
D, P, L = 26.0, 8.0, 5.0
FIRST: LegList = [("offer", (0.0, P, -L), False), ("raise", (0.0, P, 0.0), False), ("press", (0.0, 0.0, 0.0), True)]
SHORT: LegList = [
    ("offer", (D, P, -L), False), ("raise", (D, P, 0.0), False), ("slide", (0.0, P, 0.0), True),
    ("press", (0.0, 0.0, 0.0), True),
]  # fmt: skip
LINK: LegList = [
    ("offer", (D, P, -L), False), ("engage", (0.0, P, -L), True), ("raise", (0.0, P, 0.0), False),
    ("press", (0.0, 0.0, 0.0), True),
]  # fmt: skip
# Family (c) meets the hose ends at their own height: engagement 28 + 2, press 10, lift 7.
LOW_LINK: LegList = [
    ("offer", (30.0, 10.0, -7.0), False), ("raise", (30.0, 10.0, 0.0), False), ("engage", (0.0, 10.0, 0.0), True),
    ("press", (0.0, 0.0, 0.0), True),
]  # fmt: skip


def piece_steps(name: str, sense: int) -> list[tuple[Step, Piece, Piece]]:
    """Each step that puts pieces of the run up, with its first and last piece."""
    _, layout, _, steps = every_joint(name, sense)
    by_mark = {p.mark: p for p in layout.pieces}
    found = [s for s in steps if s.kind == "piece" and s.run is not None]
    return [(s, by_mark[s.pieces[0]], by_mark[s.pieces[-1]]) for s in found]


def legs(step: Step) -> LegList:
    """A step's legs as in the tables above."""
    return [(leg.name, leg.to_mm, leg.click) for leg in step.legs]


def test_legs_chain() -> None:
    """Each leg begins where the one before it ended, the first where the approach sets out, and the last ends at the
    piece's own place.
    """
    for _, _, _, steps in all_planned():
        for step in steps:
            if step.kind != "piece":
                assert step.legs == ()
                assert step.approach is None
                continue
            assert step.approach is not None
            here = step.approach.from_mm
            for leg in step.legs:
                assert leg.from_mm == here
                assert leg.length_mm == pytest.approx(math.dist(leg.from_mm, leg.to_mm))
                here = leg.to_mm
            assert here == (0.0, 0.0, 0.0)
            assert step.legs[0].name == "offer"
            assert step.legs[-1].name == "press"


@pytest.mark.parametrize("sense", [1, -1])
def test_moves_of_family_a(sense: int) -> None:
    """Family (a): slide and engage 26, press 8, raise 5; the first piece goes straight up and back, a piece after an
    elbow slides onto the short legs, one after a link is pushed onto the hose ends before it is raised.
    """
    met = set()
    for step, first, _ in piece_steps("a-square", sense):
        want = {"valve": FIRST, "elbow-short": SHORT, "link": LINK}[first.start.joint]
        assert legs(step) == want
        met.add(first.start.joint)
    assert met == {"valve", "elbow-short", "link"}


@pytest.mark.parametrize("sense", [1, -1])
def test_moves_of_family_c(sense: int) -> None:
    """Family (c): a piece rides up its ramps first and meets the hose ends at their own height."""
    for step, first, _ in piece_steps("c-low", sense)[1:]:
        assert first.start.joint == "link"
        assert legs(step) == LOW_LINK


@pytest.mark.parametrize(("name", "push_mm"), [("a-square", (18.0, 10.0, 8.0)), ("b-moulded", (21.0, 12.0, 9.0))])
def test_push_home_and_draw_out(name: str, push_mm: tuple[float, float, float]) -> None:
    """Family (a)'s elbows are pushed home by 18, drawn out 10 by hand, and the press draws the last 8."""
    _, layout, _, _ = every_joint(name, 1)
    works = [j.elbow for j in layout.runs[0].joints if j.elbow is not None]
    assert len(works) == 3
    for work in works:
        by_hand = work.insertion_mm + work.push_home_mm - work.draw_out_to_mm
        assert (work.push_home_mm, by_hand, work.press_draws_mm) == push_mm


@pytest.mark.parametrize("sense", [1, -1])
@pytest.mark.parametrize(("name", "slant"), [("a-square", (-15.0, 142.0)), ("b-moulded", (-11.0, 142.0))])
def test_with_elbows_at_the_far_end_it_is_offered_slanting(name: str, slant: tuple[float, float], sense: int) -> None:
    """What goes up with elbows at its far end, one piece or several coupled, is offered slanting in, held back toward
    the valve; what goes up without, straight.
    """
    met = set()
    for step, _, last in piece_steps(name, sense):
        assert step.approach is not None
        elbows = last.end.joint == "elbow-long"
        assert step.approach.name == ("slanted" if elbows else "straight")
        away = subtract(step.approach.from_mm, step.legs[0].to_mm)
        assert away == pytest.approx((*slant, 0.0) if elbows else (0.0, 250.0, 0.0))
        met.add((elbows, len(step.pieces) > 1))
    assert (True, True) in met or (False, True) in met
    assert {elbows for elbows, _ in met} == {True, False}


def test_coupled_pieces_with_elbows_at_their_far_end() -> None:
    """Against the walls the coupled pieces end at an elbow, and so they are offered slanting in."""
    groups = [(step, last) for step, _, last in piece_steps("a-square", -1) if len(step.pieces) > 1]
    assert [(last.end.joint, step.approach.name if step.approach else "") for step, last in groups] == [
        ("elbow-long", "slanted")
    ]


@pytest.mark.parametrize("sense", [1, -1])
@pytest.mark.parametrize("name", FAMILIES)
def test_the_run_frame(name: str, sense: int) -> None:
    """A shift along the run goes from a piece's near end to its far end, out goes into the room, up up."""
    for _, first, _ in piece_steps(name, sense):
        near, far = first.wall.point_mm(first.near_mm), first.wall.point_mm(first.far_mm)
        along = room_vector(first, (1.0, 0.0, 0.0))
        there = add((*near, 0.0), scale(along, first.cut_length_mm))
        assert there[:2] == pytest.approx(far, abs=1e-6)
        assert room_vector(first, (0.0, 1.0, 0.0)) == pytest.approx((*first.wall.normal, 0.0))
        assert room_vector(first, (0.0, 0.0, 1.0)) == (0.0, 0.0, 1.0)
