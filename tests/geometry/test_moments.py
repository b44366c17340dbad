"""Where an outline's area balances, against shapely (GEOS)."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from model3d.geometry.moments import centroid_u_mm
from model3d.geometry.outline import Outline, Segment, arc_through, polygon


def fine_polygon(outline: Outline, pieces: int = 20000) -> Polygon:
    """The outline with every arc drawn as a great many chords."""
    points = []
    for a, segment in outline.edges:
        points.append(a)
        if segment.through is not None:
            arc = arc_through(a, segment.through, segment.to)
            for i in range(1, pieces):
                angle = arc.start_rad + arc.sweep_rad * i / pieces
                points.append(
                    (
                        arc.centre[0] + arc.radius_mm * math.cos(angle),
                        arc.centre[1] + arc.radius_mm * math.sin(angle),
                    )
                )
    return Polygon(points)


@given(
    st.tuples(st.floats(-50, 50), st.floats(-50, 50)),
    st.tuples(st.floats(1, 60), st.floats(1, 60)),
    st.floats(0.1, 0.9),
)
def test_an_l_balances_where_shapely_says(
    corner: tuple[float, float], size: tuple[float, float], part: float
) -> None:
    """The centroid of an outline of straight lines is the polygon's."""
    (u, v), (w, h) = corner, size
    outline = polygon(
        (u, v),
        (u + w, v),
        (u + w, v + h),
        (u + w * part, v + h),
        (u + w * part, v + h * part),
        (u, v + h * part),
    )
    assert centroid_u_mm(outline) == pytest.approx(
        Polygon([a for a, _ in outline.edges]).centroid.x, abs=1e-9
    )


@pytest.mark.parametrize("bulge", [-4.0, 3.0, 10.0])
def test_an_arc_moves_the_balance_as_its_chords_do(bulge: float) -> None:
    """An arc adds its circular segment, or takes it where the arc is hollow."""
    outline = Outline(
        start=(5.0, 0.0),
        segments=(
            Segment(to=(25.0, 0.0)),
            Segment(to=(25.0, 20.0), through=(25.0 + bulge, 10.0)),
            Segment(to=(5.0, 20.0)),
        ),
    )
    assert centroid_u_mm(outline) == pytest.approx(fine_polygon(outline).centroid.x, rel=1e-8)


def test_a_half_disc_balances_four_thirds_of_its_radius_over_pi_from_its_flat_side() -> None:
    """The centroid of a half disc stands 4 r / (3 pi) from its diameter, either way round."""
    for sense in (1.0, -1.0):
        half = Outline(
            start=(0.0, -9.0 * sense), segments=(Segment(to=(0.0, 9.0 * sense), through=(9.0, 0.0)),)
        )
        assert centroid_u_mm(half) == pytest.approx(4.0 * 9.0 / (3.0 * math.pi), rel=1e-12)
