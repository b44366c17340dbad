"""Runs resolved on the walls they pass."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LinearRing, Point

from model3d.rooms import RunPlan

from .plans import GOOD, faults_of, read, with_room

L_SHAPE = "[[0, 0], [4000, 0], [4000, 3000], [1500, 3000], [1500, 5000], [0, 5000]]"


def run_of(start: str, end: str, direction: str = "with-walls", more: str = "", rest: str = "") -> RunPlan:
    """One run in an L-shaped room whose only external corner is c4."""
    runs = f"[{{id: A, start: {start}, end: {end}, direction: {direction}{more}}}]"
    return read(with_room(f"{{corners: {L_SHAPE}}}", runs, rest)).runs[0]


def stretches(run: RunPlan) -> list[tuple[str, float, float]]:
    """The walls a run passes with where it comes on and goes off."""
    return [(span.wall.id, span.enters_mm, span.leaves_mm) for span in run.spans]


def test_a_run_with_the_walls_goes_from_corner_to_corner() -> None:
    """A run with the walls begins at its first wall's first corner and ends at its last wall's last corner."""
    run = run_of("w2", "w4")
    assert stretches(run) == [("w2", 0.0, 3000.0), ("w3", 0.0, 2500.0), ("w4", 0.0, 2000.0)]
    assert [(c.corner.id, c.corner.turn_deg) for c in run.corners] == [("c3", 90.0), ("c4", -90.0)]
    assert run.sense == 1


def test_a_run_against_the_walls_goes_the_other_way() -> None:
    """A run against the walls begins at its first wall's last corner; the turns of the corners stay what they are."""
    run = run_of("w4", "w2", "against-walls")
    assert stretches(run) == [("w4", 2000.0, 0.0), ("w3", 2500.0, 0.0), ("w2", 3000.0, 0.0)]
    assert [(c.corner.id, c.corner.turn_deg) for c in run.corners] == [("c4", -90.0), ("c3", 90.0)]
    assert run.sense == -1


def test_a_run_passes_the_last_corner_of_the_ring() -> None:
    """A run goes on from the last wall to the first."""
    assert [w for w, _, _ in stretches(run_of("w5", "w1"))] == ["w5", "w6", "w1"]
    assert [w for w, _, _ in stretches(run_of("w2", "w6", "against-walls"))] == ["w2", "w1", "w6"]


def test_a_run_may_stay_on_one_wall_or_go_all_the_way_round() -> None:
    """A run that starts and ends on one wall stays on it; when it ends before it starts it goes all the way round."""
    assert stretches(run_of("w1", "w1")) == [("w1", 0.0, 4000.0)]
    assert stretches(run_of("{wall: w1, at: 500}", "{wall: w1, at: 900}")) == [("w1", 500.0, 900.0)]
    assert stretches(run_of("{wall: w1, at: 900}", "{wall: w1, at: 500}", "against-walls")) == [("w1", 900.0, 500.0)]
    round_it = run_of("{wall: w1, at: 900}", "{wall: w1, at: 500}")
    assert [w for w, _, _ in stretches(round_it)] == ["w1", "w2", "w3", "w4", "w5", "w6", "w1"]
    assert stretches(round_it)[0] == ("w1", 900.0, 4000.0)
    assert stretches(round_it)[-1] == ("w1", 0.0, 500.0)
    assert len(round_it.corners) == 6


def test_a_run_of_no_length_is_a_fault() -> None:
    """A run that starts where it ends, or at the far end of its first wall, is a fault."""
    for start, end in (("{wall: w1, at: 900}", "{wall: w1, at: 900}"), ("{wall: w1, at: 4000}", "w3")):
        runs = f"[{{id: A, start: {start}, end: {end}}}]"
        (fault,) = faults_of(with_room(f"{{corners: {L_SHAPE}}}", runs))
        assert fault.key == "runs[A].start"
        assert "no length" in fault.message


DOOR = "openings: [{id: door, kind: door, wall: w1, at: 600, width: 800, casing: {width: 60, depth: 15}}]\n"


def test_a_run_may_begin_beside_a_door() -> None:
    """Beside a door is clear of its casing; as you face the wall its first corner is on the right."""
    assert stretches(run_of("{beside: door, side: left}", "w1", rest=DOOR)) == [("w1", 1460.0, 4000.0)]
    assert stretches(run_of("w1", "{beside: door, side: right}", rest=DOOR)) == [("w1", 0.0, 540.0)]


def test_a_run_does_not_go_over_a_doorway() -> None:
    """A run over a doorway, and a dry piece over one, is a fault that says where."""
    runs = "[{id: A, start: w1, end: w2}]"
    (fault,) = faults_of(with_room(f"{{corners: {L_SHAPE}}}", runs, DOOR))
    assert "goes over the doorway of 'door' on wall w1, from 600.0 to 1400.0" in fault.message
    dry = DOOR + "dry_pieces: [{id: D, wall: w1, from: 1000, to: 2000}]\n"
    (fault,) = faults_of(with_room(f"{{corners: {L_SHAPE}}}", "[]", dry))
    assert "goes over the doorway of 'door' on wall w1, from 1000.0 to 1400.0" in fault.message


def test_runs_may_meet_but_not_overlap() -> None:
    """Two runs may end at one place on a wall; where they would lie over each other, or one over itself, is a fault."""
    room = f"{{corners: {L_SHAPE}}}"
    first, second = "{id: A, start: w1, end: {wall: w3, at: 900}}", "{id: B, start: {wall: w3, at: %d}, end: w4}"
    assert faults_of(with_room(room, f"[{first}, {second % 900}]")) == ()
    (fault,) = faults_of(with_room(room, f"[{first}, {second % 890}]"))
    assert "run 'B' goes over run 'A' on wall w3, from 890.0 to 900.0" in fault.message


def test_joints_are_in_the_order_of_the_run() -> None:
    """Joints asked for within a wall come in the order in which the run meets them, those at corners with theirs."""
    joints = ", joints: [{wall: w3, at: 500, use: link}, {wall: w3, at: 1500, use: coupler}, {corner: c3, use: link}]"
    forth = run_of("w2", "w4", more=joints)
    assert [(j.at_mm, j.use) for j in forth.spans[1].joints] == [(500.0, "link"), (1500.0, "coupler")]
    back = run_of("w4", "w2", "against-walls", more=joints)
    assert [(j.at_mm, j.use) for j in back.spans[1].joints] == [(1500.0, "coupler"), (500.0, "link")]
    assert [c.use for c in forth.corners] == ["link", None]
    assert [c.use for c in back.corners] == [None, "link"]


def test_what_a_run_says_is_carried_over() -> None:
    """End fittings, cut lengths and whether the return's pipework is fixed are carried over as asked for."""
    more = ", end_fitting: turn-back, return_fixed: true, cut_lengths: [{wall: w3, piece: 2, length: 1.2 m}]"
    run = run_of("w2", "w4", more=more)
    assert (run.start_fitting, run.end_fitting, run.return_fixed) == ("valve", "turn-back", True)
    assert [(c.piece, c.length_mm) for c in run.spans[1].cut_lengths] == [(2, 1200.0)]


def test_a_run_round_an_island_may_leave_its_name_out() -> None:
    """Walls of a run round an island may be named without the island."""
    run = read(GOOD).runs[2]
    assert run.ring == "column"
    assert [w for w, _, _ in stretches(run)] == ["column.w1", "column.w2", "column.w3"]
    assert [c.corner.turn_deg for c in run.corners] == [-90.0, -90.0]


POSITION = st.floats(min_value=0.02, max_value=0.98)
CORNERS = [(0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0), (1500.0, 3000.0), (1500.0, 5000.0), (0.0, 5000.0)]
RING = LinearRing(CORNERS)


@given(st.integers(0, 5), POSITION, st.integers(0, 5), POSITION, st.booleans())
def test_a_run_is_one_unbroken_way_round(i: int, part: float, j: int, other: float, with_walls: bool) -> None:
    """A run is unbroken from wall to wall, and as long as the way round the ring from its start to its end
    (oracle: shapely, project along the ring).
    """
    sides = [math.dist(a, b) for a, b in zip(CORNERS, [*CORNERS[1:], CORNERS[0]], strict=True)]
    start, end = f"{{wall: w{i + 1}, at: {part * sides[i]!r}}}", f"{{wall: w{j + 1}, at: {other * sides[j]!r}}}"
    if i == j and abs(part - other) < 1e-3:
        return
    run = run_of(start, end, "with-walls" if with_walls else "against-walls")
    points = [(s.wall.point_mm(s.enters_mm), s.wall.point_mm(s.leaves_mm)) for s in run.spans]
    for (_, off), (on, _), passed in zip(points, points[1:], run.corners, strict=False):
        assert off == pytest.approx(on, abs=1e-9)
        assert on == pytest.approx(passed.corner.at_mm, abs=1e-9)
    way = RING.project(Point(points[-1][1])) - RING.project(Point(points[0][0]))
    expected = (way if with_walls else -way) % RING.length
    assert sum(s.length_mm for s in run.spans) == pytest.approx(expected, abs=1e-6)


def test_the_check_of_an_unbroken_way_sees_a_gap() -> None:
    """A run whose spans were put together in the wrong order has a gap from one span to the next."""
    run = run_of("w2", "w4")
    wrong = (run.spans[0], run.spans[2])
    assert wrong[0].wall.point_mm(wrong[0].leaves_mm) != pytest.approx(wrong[1].wall.point_mm(wrong[1].enters_mm))
