"""How hard a step or a corner is: the table of points, and what is measured for it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from model3d.moves import steps_as_moved
from model3d.order.rating import Rating, rate, rate_usual
from model3d.order.reach import above_end, before_end, before_screw
from model3d.order.seek import seek
from model3d.parts.fittings import SpigotSpec
from model3d.steps.difficulty import Circumstances, difficulty
from tests.order.rooms import OVER_A_CORNER, ROOM, job, read, shapes_of

WORDS = {1: "easy", 2: "plain", 3: "needs care", 4: "hard", 5: "very hard"}
POINTS: list[tuple[dict[str, Any], dict[str, Any], int]] = [
    ({"clearance_mm": 9.9}, {"clearance_mm": 10.0}, 1),
    ({"clearance_mm": 2.9}, {"clearance_mm": 3.0}, 1),
    ({"joints_at_once": 1}, {"joints_at_once": 0}, 1),
    ({"joints_at_once": 2}, {"joints_at_once": 1}, 1),
    ({"fed_round": True}, {"fed_round": False}, 2),
    ({"bent_by_hand": True}, {"bent_by_hand": False}, 1),
    ({"snags": 1}, {"snags": 0}, 1),
    ({"above_mm": 119.0}, {"above_mm": 120.0}, 1),
    ({"front_mm": 399.0}, {"front_mm": 400.0}, 1),
    ({"screw_mm": 149.0, "screw_asked_mm": 150.0}, {"screw_mm": 150.0, "screw_asked_mm": 150.0}, 1),
]
SHELF = "  - {{id: shelf, kind: shelf, wall: w2, at: 20, width: 400, depth: 200, up: {up}}}\n"
LINK = OVER_A_CORNER.replace("at: 1200}}", "at: 1200}, joints: [{corner: c2, use: link}]}")


@pytest.mark.parametrize(("harder", "easier", "by"), POINTS, ids=[str(p[0]) for p in POINTS])
def test_each_thing_of_the_table_counts_from_its_figure_on(
    harder: dict[str, Any], easier: dict[str, Any], by: int
) -> None:
    """Each line of the table adds its points at its figure and not before, with one reason that says so."""
    more, less = difficulty(Circumstances(**harder)), difficulty(Circumstances(**easier))
    assert more.level - less.level == by
    assert sum(r.points for r in more.reasons) == more.level - 1
    assert more.text.startswith(f"{more.level} of 5, {WORDS[more.level]}: ")


def test_nothing_hard_is_easy_and_nothing_is_past_five() -> None:
    """With no circumstance a step is 1, easy, with no reason; with all of them it is 5, very hard, with a reason for
    each.
    """
    assert difficulty(Circumstances()).text == "1 of 5, easy"
    everything = Circumstances(
        clearance_mm=1.0, joints_at_once=2, fed_round=True, bent_by_hand=True, snags=2, above_mm=50.0, screw_mm=10.0,
        screw_asked_mm=150.0,
    )  # fmt: skip
    found = difficulty(everything)
    assert (found.level, found.word, len(found.reasons)) == (5, "very hard", 7)


def test_a_harder_circumstance_never_makes_it_easier() -> None:
    """From every mix of circumstances, making one worse leaves the level where it is or raises it."""
    for base in (Circumstances(), Circumstances(clearance_mm=5.0, joints_at_once=1), Circumstances(snags=1)):
        for harder, _, _ in POINTS:
            if harder.get("clearance_mm", 99.0) < (base.clearance_mm or 100.0):
                assert difficulty(replace(base, **harder)).level >= difficulty(base).level


def rated(*parts: str) -> Rating:
    """The rating of a plan in its order."""
    at = job(read(*parts))
    return rate(at, seek(at))


def test_a_low_shelf_hides_the_hands_and_bars_the_screwdriver() -> None:
    """A shelf 90 mm above the piece leaves no room for a fist and none for a screwdriver at the link under it, and is
    named; 200 mm above, both have room.
    """
    low, high = (rated(LINK, SHELF.format(up=up)).corners[0] for up in (238, 348))
    assert low.found.above_mm == pytest.approx(90.0, abs=0.1)
    assert (low.found.above_what, low.found.screw_what) == ("shelf", "shelf")
    assert low.difficulty.level == high.difficulty.level + 2


def test_a_shelf_elsewhere_hides_nothing() -> None:
    """The same shelf beyond the joint, 150 mm past where the hands work, counts for nothing."""
    shelf = SHELF.format(up=238).replace("at: 20", "at: 300")
    assert rated(LINK, shelf).corners[0].found.above_mm is None


def test_free_room_is_measured_to_the_millimetre() -> None:
    """Above an end, before it, and above a link's upper screw it is free up to the shelf or the box set there."""
    box = "  - {id: chest, kind: box, wall: w2, at: 30, off: 330, width: 500, depth: 300, height: 300}\n"
    project = read(LINK, SHELF.format(up=300), box)
    piece = next(p for p in project.layout.pieces if p.mark == "A-2")
    shapes, room = shapes_of("a-square"), project.scene.room
    assert above_end(shapes, room, piece, "start").distance_mm == pytest.approx(300.0 - 148.0, abs=0.01)
    before = before_end(shapes, room, piece, "start")
    assert (before.distance_mm, before.what) == (pytest.approx(330.0 - 28.0, abs=0.01), "chest")
    spigots = [p for p in project.scene.fitted if p.role == "spigot"]
    crown = max(p.placement.origin_mm[2] for p in spigots)
    upper = next(p.spec for p in spigots if p.placement.origin_mm[2] == crown)
    assert isinstance(upper, SpigotSpec)
    crown += upper.leg.outside.height_mm / 2.0 + upper.screw_height_mm
    screw = before_screw(shapes, room, spigots)
    assert (screw.distance_mm, screw.what) == (pytest.approx(300.0 - crown, abs=0.01), "shelf")
    assert above_end(shapes, room, piece, "end").distance_mm is None


def test_the_usual_order_is_rated_without_seeking() -> None:
    """Where the usual order goes, its steps as they are moved are as hard as those of the order that is found, and a
    step is told no more than that.
    """
    at = job(read(LINK, SHELF.format(up=238)))
    moved = steps_as_moved(at.layout, at.scene, at.steps, at.family, shapes=at.shapes)
    rating = rate_usual(at, moved)
    assert dict(rating.by_step) == dict(rate(at, seek(at)).by_step)
    told = rating.told(moved)
    assert [s.number for s in told if s.difficulty is not None] == [s.number for s in moved if s.kind == "piece"]
    assert [replace(s, difficulty=None) for s in told] == list(moved)


def test_a_corner_is_closed_by_its_later_piece() -> None:
    """A corner is listed once, with the two pieces that it joins and the step that closes it."""
    rating = rated(OVER_A_CORNER.replace("obstacles:\n", ""))
    (corner,) = rating.corners
    assert (corner.kind, corner.corner, corner.earlier, corner.later) == ("elbow", "c2", "A-1", "A-2")
    assert corner.step == next(s.number for s in rating.steps if s.pieces == ("A-2",))
    assert rating.by_step[corner.step].level == 2


def test_the_first_piece_has_the_snag_of_its_valve() -> None:
    """The step of the piece with the valve counts the snag that the family lists there; the next piece has none."""
    rating = rated(OVER_A_CORNER.replace("obstacles:\n", ""))
    assert [s.found.snags for s in rating.steps] == [1, 0]
    assert [s.found.joints_at_once for s in rating.steps] == [0, 1]


def test_steps_are_told_how_hard_they_are() -> None:
    """The rating hands its steps on with their difficulty, for what prints them; what puts nothing up has none."""
    at = job(read(OVER_A_CORNER.replace("obstacles:\n", "")))
    sought = seek(at)
    rating = rate(at, sought)
    told = {s.number: s.difficulty for s in rating.told(sought.steps)}
    assert {n: d for n, d in told.items() if d is not None} == rating.by_step
    assert len(told) == len(sought.steps)


def test_a_snag_counts_at_the_corner_whose_end_it_is_known_of() -> None:
    """In a family whose links are known to snag, a corner with a link counts both ends; the valve's is no corner's."""
    text = ROOM.format(name="Links").replace("a-square", "b-moulded")
    with_link = rate(at := job(read(LINK.replace("obstacles:\n", ""), room=text)), seek(at)).corners
    plain = rate(at := job(read(OVER_A_CORNER.replace("obstacles:\n", ""), room=text)), seek(at)).corners
    assert [c.found.snags for c in with_link] == [2]
    assert [c.found.snags for c in plain] == [0]
