"""Perspective: where points fall, and how near the viewer may come."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model3d.pictures.stage import Camera
from model3d.pictures.views import Room, direction, framed, pixels_per_mm, project

ROOM = Room(left=90, top=60, right=140, bottom=40)
COORDINATE = st.floats(-4000, 4000)


def test_a_point_ahead_falls_in_the_middle() -> None:
    """The point looked at is the picture's middle, and half the field of view up is its top edge."""
    camera = Camera(eye_mm=(0, -1000, 0), target_mm=(0, 0, 0), field_deg=28)
    up = 1000 * math.tan(math.radians(14))
    seen = project(camera, np.array([[0, 0, 0], [0, 0, up], [up, 0, 0]]), 1600, 700)
    np.testing.assert_allclose(seen[:, :2], [[800, 350], [800, 0], [1150, 350]], atol=1e-9)
    np.testing.assert_allclose(seen[:, 2], 1000)
    assert pixels_per_mm(camera, (0, 0, 0), 700) == pytest.approx(350 / up)


@given(
    st.lists(st.tuples(COORDINATE, COORDINATE, st.floats(0, 2400)), min_size=3, max_size=20),
    st.floats(-80, 80),
    st.floats(10, 70),
)
def test_a_framed_picture_is_tight(points: list[tuple[float, float, float]], azimuth: float, elevation: float) -> None:
    """Every point lies between the margins, and two opposite margins are touched: no nearer viewpoint would do."""
    spread = np.array(points) + np.array([[0, 0, 0]] * (len(points) - 1) + [[800, 300, 100]])
    camera = framed(spread, direction((0, -1, 0), azimuth, elevation), 28, (1600, 700), ROOM)
    x, y, depth = project(camera, spread, 1600, 700).T
    assert depth.min() > 0
    assert x.min() >= 90 - 1e-3
    assert x.max() <= 1460 + 1e-3
    assert y.min() >= 60 - 1e-3
    assert y.max() <= 660 + 1e-3
    across = x.min() - 90 + 1460 - x.max()
    upright = y.min() - 60 + 660 - y.max()
    assert min(across, upright) < 0.5 or depth.min() < 1.01


def test_margins_that_leave_nothing_are_refused() -> None:
    """A picture needs some room between its margins."""
    with pytest.raises(ValueError, match="leave nothing"):
        framed(np.zeros((1, 3)), (0, -1, 1), 28, (300, 300), Room(left=200, right=120))


def test_a_view_straight_down_is_refused() -> None:
    """A camera cannot look along its own up."""
    with pytest.raises(ValueError, match="line of sight"):
        project(Camera(eye_mm=(0, 0, 10), target_mm=(0, 0, 0)), np.zeros((1, 3)), 10, 10)
