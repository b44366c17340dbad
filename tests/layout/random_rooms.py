"""Random rooms: simple polygons, anticlockwise, 3 to 30 corners."""

from __future__ import annotations

import math

from hypothesis import strategies as st
from shapely.geometry import Polygon

Points = list[tuple[float, float]]
LEAST_WALL_MM = 50.0


def _walls_are_long_enough(points: Points) -> bool:
    return all(math.dist(a, b) >= LEAST_WALL_MM for a, b in zip(points, points[1:] + points[:1], strict=True))


@st.composite
def rectilinear_points(draw: st.DrawFn) -> Points:
    """A room with right-angled corners only: a floor with steps up along its top edge, up to 30 corners."""
    bays = draw(st.integers(1, 14))
    widths = draw(st.lists(st.integers(300, 2600), min_size=bays, max_size=bays))
    depths = draw(st.lists(st.integers(1500, 5000), min_size=bays, max_size=bays))
    tops: list[tuple[int, int]] = []
    x = 0
    for width, depth in zip(widths, depths, strict=True):
        if tops and abs(tops[-1][1] - depth) < LEAST_WALL_MM:
            depth = tops[-1][1] + 200
        tops += [(x, depth), (x + width, depth)]
        x += width
    return [(0.0, 0.0), (float(x), 0.0), *[(float(a), float(b)) for a, b in reversed(tops)]]


@st.composite
def skew_points(draw: st.DrawFn) -> Points:
    """A room with corners of any angle: points round a centre at growing bearings and changing distance, star-shaped.
    """
    count = draw(st.integers(3, 30))
    shares = draw(st.lists(st.floats(0.35, 1.0), min_size=count, max_size=count))
    reaches = draw(st.lists(st.floats(1500.0, 6000.0), min_size=count, max_size=count))
    total = sum(shares)
    bearing, points = 0.0, []
    for share, reach in zip(shares, reaches, strict=True):
        points.append((round(reach * math.cos(bearing), 3), round(reach * math.sin(bearing), 3)))
        bearing += 2 * math.pi * share / total
    shape = Polygon(points)
    if not shape.is_valid or shape.area <= 0 or not shape.exterior.is_ccw or not _walls_are_long_enough(points):
        return draw(skew_points())
    return points
