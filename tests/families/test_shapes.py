"""Plane shapes against shapely."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon

from model3d.families.shapes import (
    Ring,
    area_mm2,
    box,
    contains,
    crosses_itself,
    cut_at,
    faceted,
    room_beside_mm,
    room_inside_mm,
    shifted,
    spans_at_u,
    stadium,
)
from model3d.geometry.outline import Obround, Outline, Segment

where = st.floats(-30.0, 30.0).map(lambda x: round(x, 3))
GROOVED: Ring = ((0, 0), (20, 0), (20, 30), (0, 30), (0, 20), (3, 20), (3, 24), (8, 24), (8, 16), (0, 16))


@st.composite
def stars(draw: st.DrawFn) -> Ring:
    """A ring round a point, star-shaped, of 3 to 9 corners."""
    count = draw(st.integers(3, 9))
    u, v = draw(where), draw(where)
    reach = [draw(st.floats(2.0, 25.0)) for _ in range(count)]
    return tuple(
        (u + r * math.cos(2 * math.pi * i / count), v + r * math.sin(2 * math.pi * i / count))
        for i, r in enumerate(reach)
    )


@given(stars(), stars())
def test_standing_apart_is_what_shapely_measures(one: Ring, other: Ring) -> None:
    """Shapes that do not meet stand apart by shapely's distance (up to what is asked); shapes that overlap by less than
    nothing."""
    a, b = Polygon(one), Polygon(other)
    found = room_beside_mm(one, other, enough_mm=15.0)
    if a.intersects(b):
        assume(a.intersection(b).area > 1e-3)
        assert found < 0.0
    else:
        assert found == pytest.approx(min(15.0, a.distance(b)), abs=1e-9)


@given(stars(), stars())
def test_staying_inside_is_what_shapely_measures(one: Ring, other: Ring) -> None:
    """A shape within another has shapely's distance to its edge; one that is not has less than nothing."""
    a, b = Polygon(one), Polygon(other)
    found = room_inside_mm(one, other, enough_mm=50.0)
    if b.contains(a):
        assert found == pytest.approx(a.exterior.distance(b.exterior), abs=1e-9)
    else:
        assume(a.difference(b).area > 1e-3)
        assert found < 0.0


@given(stars(), where, where)
def test_a_point_is_inside_where_shapely_has_it(ring: Ring, u: float, v: float) -> None:
    """A point off the edge is inside by the even-odd rule exactly where shapely says so; the area agrees."""
    shape = Polygon(ring)
    assert area_mm2(ring) == pytest.approx(shape.area)
    assume(shape.exterior.distance(LineString([(u, v), (u, v)])) > 1e-9)
    assert contains(ring, (u, v)) == shape.contains(LineString([(u, v), (u + 1e-12, v)]).centroid)


def test_touching_is_standing_apart_by_nothing() -> None:
    """Two boxes with a common edge neither overlap nor stand apart; half a millimetre further they overlap by that."""
    assert room_beside_mm(box(0, 0, 10, 10), box(10, 2, 20, 8)) == 0.0
    assert room_beside_mm(box(0, 0, 10, 10), box(9.5, 2, 20, 8)) == pytest.approx(-0.5)
    assert room_inside_mm(box(0, 0, 5, 5), box(0, 0, 10, 10)) == 0.0
    assert room_inside_mm(box(-0.5, 1, 5, 5), box(0, 0, 10, 10)) == pytest.approx(-0.5)


def test_a_tooth_that_pokes_in_from_outside_is_seen() -> None:
    """A box that bridges a groove's mouth is not inside the shape, though all its corners are."""
    assert room_inside_mm(box(1, 14, 2.5, 22), GROOVED) < 0.0
    assert room_inside_mm(box(10, 2, 18, 28), GROOVED) == pytest.approx(2.0)


def test_an_upright_line_sees_the_groove() -> None:
    """Along a line just inside the back the metal stops at the groove's mouth."""
    assert spans_at_u(GROOVED, 0.1) == ((0, 16), (20, 30))
    assert spans_at_u(GROOVED, 5.0) == ((0, 16), (24, 30))
    assert spans_at_u(GROOVED, 21.0) == ()


def test_a_cut_keeps_one_side() -> None:
    """Cut at a line the ring keeps what lies on the side asked for."""
    assert area_mm2(cut_at(box(0, 0, 10, 4), 0, 7.0, 1)) == pytest.approx(12.0)
    assert area_mm2(cut_at(box(0, 0, 10, 4), 1, 1.0, -1)) == pytest.approx(10.0)
    assert cut_at(box(0, 0, 10, 4), 0, 11.0, 1) == ()


def test_a_ring_that_crosses_or_touches_itself_is_seen() -> None:
    """A bow tie crosses itself, a ring that comes back to its own edge touches itself, a groove does neither."""
    assert crosses_itself(((0, 0), (10, 10), (10, 0), (0, 10)))
    assert crosses_itself(((0, 0), (10, 0), (10, 10), (5, 0), (0, 10)))
    assert not crosses_itself(GROOVED)


@given(st.floats(0.5, 40.0), st.floats(0.0, 60.0))
def test_facets_leave_a_stadium_by_no_more_than_asked(radius: float, straight: float) -> None:
    """A faceted stadium lies inside the true one and nowhere further from it than the sagitta."""
    shape = Obround(width_mm=2 * radius, height_mm=2 * radius + straight)
    ring = Polygon(stadium(shape, (3.0, 4.0), sagitta_mm=0.02))
    core = (
        LineString([(3, 4 - straight / 2), (3, 4 + straight / 2)]) if straight else LineString([(3, 4), (3, 4 + 1e-9)])
    )
    assert core.buffer(radius + 1e-6, quad_segs=400).buffer(1e-3).contains(ring)
    assert ring.contains(core.buffer(radius - 0.021, quad_segs=400))


def test_arcs_of_an_outline_become_chords() -> None:
    """A half circle on a box is followed to the sagitta, and the ring can be moved."""
    outline = Outline(start=(0, 0), segments=(Segment(to=(10, 0)), Segment(to=(0, 0), through=(5, 5))))
    ring = faceted(outline, sagitta_mm=0.001)
    assert area_mm2(ring) == pytest.approx(math.pi * 25 / 2, rel=1e-3)
    assert area_mm2(shifted(ring, 7, -3)) == pytest.approx(area_mm2(ring))
    assert min(v for _, v in shifted(ring, 7, -3)) == -3
