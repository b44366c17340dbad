"""Plane geometry against shapely, which knows nothing of this project."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LinearRing, LineString, Point, Polygon

from model3d.rooms.plane import (
    crossings,
    distance_to_segment_mm,
    heading,
    is_inside,
    meeting_point,
    signed_area_mm2,
    turn_between,
)

COORDINATE = st.integers(min_value=-20, max_value=20).map(float)
POINT = st.tuples(COORDINATE, COORDINATE)
RING = st.lists(POINT, min_size=3, max_size=9, unique=True)


@given(RING)
def test_a_ring_crosses_itself_when_shapely_says_it_is_not_simple(ring: list[tuple[float, float]]) -> None:
    """A ring whose walls cross, touch or fold back is found out, and no other (oracle: shapely, is_simple)."""
    assert bool(crossings(ring)) == (not LinearRing(ring).is_simple)


@given(RING)
def test_the_crossing_named_lies_on_both_walls(ring: list[tuple[float, float]]) -> None:
    """The place named lies on both of the walls named (oracle: shapely, distance)."""
    for i, j, where in crossings(ring):
        for k in (i, j):
            assert LineString([ring[k], ring[(k + 1) % len(ring)]]).distance(Point(where)) < 1e-9


@given(RING)
def test_the_area_is_the_area(ring: list[tuple[float, float]]) -> None:
    """The shoelace area of a simple ring, positive anticlockwise (oracle: shapely, area and is_ccw)."""
    assume(LinearRing(ring).is_simple)
    sign = 1 if LinearRing(ring).is_ccw else -1
    assert signed_area_mm2(ring) == pytest.approx(sign * Polygon(ring).area, abs=1e-9)


@given(RING, POINT)
def test_inside_is_inside(ring: list[tuple[float, float]], p: tuple[float, float]) -> None:
    """A point is inside a simple ring when the ring goes round it (oracle: shapely, contains)."""
    assume(LinearRing(ring).is_simple)
    assume(LinearRing(ring).distance(Point(p)) > 1e-9)
    assert is_inside(p, ring) == Polygon(ring).contains(Point(p))


@given(POINT, POINT, POINT, POINT)
def test_two_stretches_meet_when_they_have_a_point_in_common(
    a: tuple[float, float], b: tuple[float, float], c: tuple[float, float], d: tuple[float, float]
) -> None:
    """Two stretches meet when they have a point in common (oracle: shapely, distance)."""
    assume(a != b and c != d)
    assert (meeting_point(a, b, c, d) is not None) == (LineString([a, b]).distance(LineString([c, d])) < 1e-6)


@given(POINT, POINT, POINT)
def test_the_distance_of_a_point_from_a_stretch(
    p: tuple[float, float], a: tuple[float, float], b: tuple[float, float]
) -> None:
    """The distance goes to the nearest point of the stretch, be it an end (oracle: shapely, distance)."""
    assume(a != b)
    assert distance_to_segment_mm(p, a, b) == pytest.approx(LineString([a, b]).distance(Point(p)), abs=1e-9)


@given(st.floats(min_value=-720, max_value=720), st.floats(min_value=-179, max_value=179))
def test_a_turn_is_the_angle_from_one_heading_to_the_next(first: float, turn: float) -> None:
    """The turn from one direction to another is the angle between them, left turns positive."""
    assert turn_between(heading(first), heading(first + turn)) == pytest.approx(turn, abs=1e-9)


def test_quarter_turns_are_exact() -> None:
    """Headings of whole quarter turns have no rounding in them."""
    assert [heading(90.0 * k) for k in range(-1, 4)] == [(0, -1), (1, 0), (0, 1), (-1, 0), (0, -1)]
    assert heading(45.0) == (math.cos(math.pi / 4), math.sin(math.pi / 4))
