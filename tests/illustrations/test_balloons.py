"""Balloons round a drawing."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from model3d.illustrations.balloons import Leader, NoRoomForBalloons, arranged, convex_hull, faults

RADIUS = 3.4
PLACES = st.tuples(st.floats(0, 160), st.floats(0, 90))


@given(st.lists(PLACES, min_size=1, max_size=14), st.lists(PLACES, min_size=3, max_size=12))
def test_leaders_never_cross_and_never_meet_another_balloon(
    anchors: list[tuple[float, float]], drawn: list[tuple[float, float]]
) -> None:
    """For any anchors a little apart, no leaders cross, none passes over another balloon, no balloons overlap."""
    assume(all(math.dist(a, b) > 1.5 for k, a in enumerate(anchors) for b in anchors[:k]))
    leaders = arranged(anchors, drawn, radius_mm=RADIUS, away_mm=6.0)
    assert [one.anchor for one in leaders] == anchors
    assert faults(leaders, radius_mm=RADIUS) == []


@given(st.lists(PLACES, min_size=1, max_size=8), st.lists(PLACES, min_size=3, max_size=12))
def test_balloons_stand_outside_the_drawing(
    anchors: list[tuple[float, float]], drawn: list[tuple[float, float]]
) -> None:
    """Every balloon stands clear of all that is drawn."""
    assume(all(math.dist(a, b) > 1.5 for k, a in enumerate(anchors) for b in anchors[:k]))
    for one in arranged(anchors, drawn, radius_mm=RADIUS, away_mm=6.0):
        assert min(math.dist(one.balloon, p) for p in [*anchors, *drawn]) > RADIUS


@pytest.mark.parametrize(
    ("other", "said"),
    [
        (Leader(balloon=(0.0, 30.0), anchor=(20.0, 0.0)), "crosses"),
        (Leader(balloon=(22.0, 30.0), anchor=(40.0, 0.0)), "overlaps"),
        (Leader(balloon=(8.0, 13.0), anchor=(-30.0, 20.0)), "passes"),
    ],
)
def test_a_bad_arrangement_is_seen(other: Leader, said: str) -> None:
    """Leaders that cross, balloons that overlap and a leader over a balloon are each named."""
    one = Leader(balloon=(20.0, 30.0), anchor=(0.0, 0.0))
    assert said in {word for _, _, word in faults([one, other], radius_mm=RADIUS)}


def test_two_balloons_for_one_point_are_refused() -> None:
    """Two leaders to one point would meet there: no arrangement will do."""
    with pytest.raises(NoRoomForBalloons):
        arranged([(5.0, 5.0), (5.0, 5.0)], [(0.0, 0.0), (10.0, 0.0), (5.0, 9.0)], radius_mm=RADIUS, away_mm=6.0)


def test_the_hull_of_a_square() -> None:
    """The hull keeps the corners and leaves what lies within."""
    square = np.array([(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0), (2.0, 2.0)])
    assert sorted(convex_hull(square).tolist()) == [[0.0, 0.0], [0.0, 4.0], [4.0, 0.0], [4.0, 4.0]]
