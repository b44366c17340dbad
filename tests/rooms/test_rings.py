"""Rings of corners and walls: frames, turns, islands, and a room by walls against the same room by corners."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LinearRing, Point, Polygon

from model3d.rooms import Ring
from model3d.rooms.plane import crossings, signed_area_mm2

from .plans import GOOD, faults_of, read, with_room

COORDINATE = st.integers(min_value=-60, max_value=60).map(lambda n: n * 100.0)
POINTS = st.lists(st.tuples(COORDINATE, COORDINATE), min_size=3, max_size=9, unique=True)


def simple_room(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """The points anticlockwise, if they are a room at all."""
    assume(not crossings(points))
    return points if signed_area_mm2(points) > 0 else points[::-1]


def outer(room: str) -> Ring:
    """The outer ring of a plan's room."""
    return read(with_room(room)).room.outer


@given(POINTS)
def test_every_wall_has_the_room_on_its_left(points: list[tuple[float, float]]) -> None:
    """A wall's normal is z x t and points into the room; its frame stands at its first corner (oracle: shapely)."""
    points = simple_room(points)
    ring = outer(f"{{corners: {[list(p) for p in points]}}}")
    room = Polygon(points)
    assert ring.area_mm2 == pytest.approx(room.area, rel=1e-12)
    for wall, corner in zip(ring.walls, ring.corners, strict=True):
        (tx, ty), n = wall.direction, wall.normal
        assert n == (-ty, tx)
        assert room.contains(Point(wall.point_mm(wall.length_mm / 2, 1e-3)))
        assert not room.contains(Point(wall.point_mm(wall.length_mm / 2, -1e-3)))
        assert wall.frame.point((wall.length_mm, 0.0, 0.0))[:2] == pytest.approx(wall.end_mm, abs=1e-9)
        assert wall.frame.vector((0.0, 1.0, 0.0)) == (*n, 0.0)
        assert wall.start_mm == corner.at_mm


@given(POINTS)
def test_the_turns_of_a_room_add_up_to_one_round(points: list[tuple[float, float]]) -> None:
    """Turns are positive at internal corners, negative at external ones, and add up to 360 degrees."""
    points = simple_room(points)
    ring = outer(f"{{corners: {[list(p) for p in points]}}}")
    assert sum(c.turn_deg for c in ring.corners) == pytest.approx(360.0, abs=1e-9)
    hull = set(LinearRing(points).convex_hull.exterior.coords)
    assert all(c.turn_deg > 0 for c in ring.corners if c.at_mm in hull)


@given(POINTS, st.booleans(), st.booleans())
def test_a_room_by_walls_and_turns_is_the_room_by_corners(
    points: list[tuple[float, float]], name_length: bool, name_turn: bool
) -> None:
    """A room by the lengths of its walls and its turns has the walls and turns of the same room by its corners."""
    points = simple_room(points)
    by_corners = outer(f"{{corners: {[list(p) for p in points]}}}")
    walls = []
    for i, wall in enumerate(by_corners.walls):
        last = i == len(by_corners.walls) - 1
        length = f"length: {wall.length_mm!r}" if not last or name_length else ""
        turn = f"turn: {wall.last_corner.turn_deg!r}" if not last or name_turn else ""
        walls.append("{" + ", ".join(filter(None, (length, turn))) + "}")
    by_walls = outer(f"{{walls: [{', '.join(walls)}]}}")
    for one, other in zip(by_walls.walls, by_corners.walls, strict=True):
        assert one.length_mm == pytest.approx(other.length_mm, abs=1e-6)
        assert one.last_corner.turn_deg == pytest.approx(other.last_corner.turn_deg, abs=1e-6)


def test_a_room_by_walls_sets_out_along_x() -> None:
    """The first wall of a room by walls goes from (0, 0) along x; square corners are exact."""
    ring = outer("{walls: [{id: long, length: 4 m, turn: 90}, {length: 3 m, turn: 90}, {length: 4 m, turn: 90}, {}]}")
    assert [c.at_mm for c in ring.corners] == [(0, 0), (4000, 0), (4000, 3000), (0, 3000)]
    assert [w.id for w in ring.walls] == ["long", "w2", "w3", "w4"]
    assert [c.turn_deg for c in ring.corners] == [90.0] * 4


WALLS = (
    "{{walls: [{{length: 4000, turn: 90}}, {{length: 3000, turn: 90}}, {{length: {third}, turn: 90}}, {last}]{more}}}"
)
OPEN = {
    "too long": ({"third": "4000", "last": "{length: 3035}"}, "end 35.0 mm", "270 degrees (+0.0 in x, -35.0 in y"),
    "askew": ({"third": "3988", "last": "{}"}, "end 12.0 mm", "toward 0 degrees (+12.0 in x, +0.0 in y"),
    "both": ({"third": "4030", "last": "{length: 2960}"}, "end 50.0 mm", "127 degrees (-30.0 in x, +40.0 in y"),
    "turns": ({"third": "4000", "last": "{turn: 80}"}, "add up to 350 degrees", "360"),
    "hardly": ({"third": "4000", "last": "{length: 3003}", "more": ", closing_tolerance: 2.9"}, "end 3.0 mm", "2.9 mm"),
}  # fmt: skip


@pytest.mark.parametrize("name", OPEN)
def test_a_room_whose_walls_do_not_close_is_refused(name: str) -> None:
    """A room by walls that does not close is a fault that names the misclosure in millimetres and its direction."""
    figures, size, direction = OPEN[name]
    (fault,) = faults_of(with_room(WALLS.format(**{"more": "", **figures})))
    assert (fault.line, fault.key) == (3, "room.walls")
    assert size in fault.message
    assert direction in fault.message


def test_a_misclosure_within_tolerance_goes_into_the_last_wall() -> None:
    """A room that closes within its tolerance, 2 mm if not given, is taken; the last wall takes the difference."""
    ring = outer(WALLS.format(third="3998.5", last="{length: 3001}", more=""))
    assert [w.length_mm for w in ring.walls[:3]] == [4000.0, 3000.0, 3998.5]
    assert ring.walls[3].length_mm == pytest.approx(math.hypot(1.5, 3000.0), abs=1e-9)
    wide = outer(WALLS.format(third="4000", last="{length: 3035}", more=", closing_tolerance: 4 cm"))
    assert wide.walls[3].length_mm == pytest.approx(3000.0, abs=1e-9)


def test_an_island_goes_round_the_other_way() -> None:
    """An island has the room on its left too: it goes clockwise, its corners turn by minus, its names carry its own."""
    island = read(GOOD).room.ring("column")
    assert [w.id for w in island.walls] == ["column.w1", "column.w2", "column.w3", "column.w4"]
    assert [c.turn_deg for c in island.corners] == [-90.0] * 4
    assert island.area_mm2 == -160000.0
    assert island.walls[0].normal == (-1.0, 0.0)
    assert island.walls[0].frame.point((0.0, 50.0, 0.0)) == (2450.0, 1000.0, 0.0)


def test_corners_may_have_names() -> None:
    """A corner is [x, y] or has an id and a place; the others are named by their number."""
    ring = outer("{corners: [{id: A, at: [0, 0]}, [4 m, 0], {id: bay, at: [4 m, 10 ft]}]}")
    assert [c.id for c in ring.corners] == ["A", "c2", "bay"]
    assert ring.corners[2].at_mm == (4000.0, 3048.0)


def test_things_are_found_by_name() -> None:
    """Walls, corners and rings are found by name; one that is not there is a KeyError."""
    room = read(GOOD).room
    assert room.wall("w3").id == "w3"
    assert room.corner("column.c2").at_mm == (2500.0, 1400.0)
    for find in (room.wall, room.corner, room.ring):
        with pytest.raises(KeyError):
            find("w99")
