"""Outlines as wires and faces: closed forms kept, lines and arcs kept."""

from __future__ import annotations

import math

import cadquery as cq
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model3d.geometry.outline import Obround, Outline, Segment, polygon, rectangle
from model3d.geometry.placement import Placement, turned_about_z
from model3d.solids.outlines import ACROSS, across_at, flat_face, obround_outline, rounded_rectangle, wire
from model3d.solids.sound import SolidError

# Sizes to a thousandth of a millimetre: a stadium nearer round than the kernel can tell is made round.
sizes = st.integers(1_000, 60_000).map(lambda thousandths: thousandths / 1000.0)


@given(sizes, sizes, st.floats(-50.0, 50.0), st.floats(-50.0, 50.0))
def test_a_stadium_keeps_its_area_and_perimeter(width_mm: float, height_mm: float, u_mm: float, v_mm: float) -> None:
    """A stadium's face has area pi r^2 + 2 r l and its wire is 2 pi r + 2 l long, wherever it stands, high,
    wide or round."""
    stadium = Obround(width_mm=width_mm, height_mm=height_mm)
    outline = obround_outline(stadium, (u_mm, v_mm))
    assert cq.Face(flat_face(outline, [], ACROSS)).Area() == pytest.approx(stadium.area_mm2, rel=1e-9)
    assert cq.Wire(wire(outline, ACROSS)).Length() == pytest.approx(stadium.perimeter_mm, rel=1e-9)
    assert outline.area_mm2 == pytest.approx(stadium.area_mm2, rel=1e-9)


def test_a_stadium_round_but_for_rounding_is_round() -> None:
    """A stadium whose straight is shorter than the kernel can tell is two half circles."""
    outline = obround_outline(Obround(width_mm=1.0, height_mm=1.0 + 2e-16))
    assert len(outline.segments) == 2
    assert cq.Face(flat_face(outline, [], ACROSS)).Area() == pytest.approx(math.pi / 4.0, rel=1e-9)


def test_the_stadium_30_by_12_has_its_known_area_and_perimeter() -> None:
    """A 30 x 12 stadium: area 329.097 mm2, perimeter 73.699 mm."""
    outline = obround_outline(Obround(width_mm=30.0, height_mm=12.0))
    assert cq.Face(flat_face(outline, [], ACROSS)).Area() == pytest.approx(329.097, abs=5e-4)
    assert cq.Wire(wire(outline, ACROSS)).Length() == pytest.approx(73.699, abs=5e-4)


@given(st.floats(2.0, 40.0), st.floats(2.0, 40.0), st.floats(0.05, 0.95))
def test_a_rounded_rectangle_loses_only_its_corners(half_width_mm: float, half_height_mm: float, share: float) -> None:
    """Rounding four corners takes (4 - pi) r^2 of a rectangle."""
    radius = share * min(half_width_mm, half_height_mm)
    outline = rounded_rectangle(half_width_mm, half_height_mm, radius)
    expected = 4.0 * half_width_mm * half_height_mm - (4.0 - math.pi) * radius**2
    assert cq.Face(flat_face(outline, [], ACROSS)).Area() == pytest.approx(expected, rel=1e-9)


def test_arcs_stay_arcs() -> None:
    """An outline's arc is a circle's arc in the wire, its lines lines."""
    edges = cq.Wire(wire(rounded_rectangle(9.0, 49.0, 2.0), ACROSS)).Edges()
    assert sorted(edge.geomType() for edge in edges) == ["CIRCLE"] * 4 + ["LINE"] * 4


@pytest.mark.parametrize("turned", [False, True])
def test_a_face_looks_along_its_plane_whichever_way_its_outline_runs(turned: bool) -> None:
    """An outline may run either way: the face's normal is the plane's, and a hole is a hole."""
    ring, hole = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)), ((2.0, 2.0), (4.0, 2.0), (4.0, 4.0), (2.0, 4.0))
    if turned:
        ring, hole = ring[::-1], hole[::-1]
    face = cq.Face(flat_face(polygon(*ring), [polygon(*hole)], ACROSS))
    assert face.Area() == pytest.approx(96.0)
    assert face.normalAt().toTuple() == pytest.approx((1.0, 0.0, 0.0))


def test_u_and_v_stand_along_y_and_z() -> None:
    """Across the run, an outline's u is y and its v is z, at the plane's x."""
    box = cq.Face(flat_face(rectangle(1.0, 2.0, 4.0, 8.0), [], across_at(5.0))).BoundingBox(1e-4)
    assert (box.ymin, box.zmin, box.ymax, box.zmax) == pytest.approx((1.0, 2.0, 4.0, 8.0), abs=1e-3)
    assert (box.xmin, box.xmax) == pytest.approx((5.0, 5.0), abs=1e-3)


@given(st.floats(-180.0, 180.0))
def test_a_turned_plane_keeps_the_area(turn_deg: float) -> None:
    """A face keeps its area on any plane."""
    plane: Placement = turned_about_z(turn_deg, (3.0, -2.0, 7.0)) @ ACROSS
    face = cq.Face(flat_face(rounded_rectangle(5.0, 6.0, 1.0), [], plane))
    assert face.Area() == pytest.approx(120.0 - (4.0 - math.pi), rel=1e-9)


def test_an_arc_through_a_point_in_line_is_refused() -> None:
    """An arc needs three points that are not in a line."""
    with pytest.raises(SolidError, match="three points in a line"):
        wire(Outline(start=(0.0, 0.0), segments=(Segment(to=(5.0, 0.0), through=(2.5, 0.0)),)), ACROSS)


@pytest.mark.parametrize("radius_mm", [0.0, 5.0, 6.0])
def test_a_corner_radius_must_fit(radius_mm: float) -> None:
    """A corner is rounded by more than nothing and less than half the plate."""
    with pytest.raises(SolidError, match="corner radius"):
        rounded_rectangle(5.0, 9.0, radius_mm)
