"""Walls against shapely (GEOS): mitres, openings and pockets."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box
from shapely.ops import polygonize, unary_union

from model3d.geometry.placement import at, turned_about_z
from model3d.parts.room import WallHole, WallSpec
from model3d.solids.joining import overlap_mm3
from model3d.solids.placing import located
from model3d.solids.room_wall import room_wall
from model3d.solids.sound import SolidError

from .probing import metal_at, shells

DOOR = WallHole(start_mm=600.0, end_mm=1400.0, bottom_mm=0.0, top_mm=2000.0)
WINDOW = WallHole(start_mm=2200.0, end_mm=3300.0, bottom_mm=900.0, top_mm=2100.0)
BACK_BOX = (1700.0, 1780.0, 300.0, 380.0, 35.0)
PLAIN = WallSpec(
    length_mm=3600.0, height_mm=2400.0, thickness_mm=100.0, back_start_mm=0.0, back_end_mm=3600.0, holes=()
)


def mitred(length_mm: float, start_turn_deg: float, end_turn_deg: float, thickness_mm: float = 100.0) -> WallSpec:
    """A wall between two corners: its back grows by thickness tan(turn / 2) past each, or shrinks at an external one.
    """
    return replace(
        PLAIN,
        length_mm=length_mm,
        thickness_mm=thickness_mm,
        back_start_mm=-thickness_mm * math.tan(math.radians(start_turn_deg) / 2.0),
        back_end_mm=length_mm + thickness_mm * math.tan(math.radians(end_turn_deg) / 2.0),
    )


def plan_by_shapely(spec: WallSpec) -> Polygon:
    """The wall seen from above: a quadrilateral, or the triangle before its sides cross."""
    quad = Polygon(
        [
            (0.0, 0.0),
            (spec.length_mm, 0.0),
            (spec.back_end_mm, -spec.thickness_mm),
            (spec.back_start_mm, -spec.thickness_mm),
        ]
    )
    if quad.is_valid:
        return quad
    front = box(-1e4, -1e-3, 1e4, 1.0)
    return next(part for part in polygonize(unary_union(quad.exterior)) if part.intersects(front))


def volume_by_shapely(spec: WallSpec) -> float:
    """Plan area times height less, for every cut-out, its own plan times its height within the wall."""
    plan = plan_by_shapely(spec)
    total = plan.area * spec.height_mm
    cuts = [(h.start_mm, h.end_mm, h.bottom_mm, h.top_mm, spec.thickness_mm) for h in spec.holes]
    for start, end, bottom, top, depth in [*cuts, *spec.recesses]:
        taken = plan.intersection(box(start, -depth, end, 0.0)).area
        total -= taken * (min(top, spec.height_mm) - max(bottom, 0.0))
    return total


@settings(max_examples=20)
@given(st.floats(600.0, 6000.0), st.floats(-120.0, 120.0), st.floats(-120.0, 120.0), st.floats(50.0, 200.0))
def test_a_mitred_wall_is_what_shapely_measures(length: float, start: float, end: float, thickness: float) -> None:
    """A wall mitred at both ends at any turn has shapely's plan area times its height, within 1e-6."""
    spec = mitred(length, start, end, thickness)
    if spec.back_end_mm - spec.back_start_mm < 1.0:
        spec = mitred(length, abs(start), abs(end), thickness)
    expected = volume_by_shapely(spec)
    assert room_wall(spec).Volume() == pytest.approx(expected, rel=1e-6)
    assert spec.volume_mm3 == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("turns", [(90.0, 90.0), (-90.0, 90.0), (45.0, -60.0)])
def test_openings_go_through_and_pockets_do_not(turns: tuple[float, float]) -> None:
    """A door, a window and a back box take what shapely measures; the box leaves the wall's back whole."""
    spec = replace(mitred(3600.0, *turns), holes=(DOOR, WINDOW), recesses=(BACK_BOX,))
    solid = room_wall(spec)
    assert solid.Volume() == pytest.approx(volume_by_shapely(spec), rel=1e-6)
    assert spec.volume_mm3 == pytest.approx(volume_by_shapely(spec), rel=1e-9)
    for x, z in ((1000.0, 5.0), (1000.0, 1990.0), (2500.0, 1000.0)):
        assert not any(metal_at(solid, (x, y, z)) for y in (-0.1, -50.0, -99.9))
    assert not metal_at(solid, (1740.0, -34.9, 340.0))
    assert metal_at(solid, (1740.0, -35.1, 340.0))
    assert metal_at(solid, (1000.0, -50.0, 2010.0))
    assert shells(solid) == 1


def test_an_opening_beside_an_external_corner_takes_only_what_is_there() -> None:
    """Close to an external corner an opening runs out through the mitre; the volume counts the part within the wall.
    """
    near = WallHole(start_mm=30.0, end_mm=500.0, bottom_mm=900.0, top_mm=1500.0)
    spec = replace(mitred(3600.0, -90.0, 90.0), holes=(near,))
    assert room_wall(spec).Volume() == pytest.approx(volume_by_shapely(spec), rel=1e-6)
    assert spec.volume_mm3 == pytest.approx(volume_by_shapely(spec), rel=1e-9)


def test_a_narrow_wall_between_external_corners_ends_in_an_edge() -> None:
    """Where the mitres cross before the back, the wall is the wedge in front of their crossing."""
    spec = mitred(150.0, -90.0, -90.0)
    assert len(spec.plan) == 3
    assert spec.plan[2] == pytest.approx((75.0, -75.0))
    assert room_wall(spec).Volume() == pytest.approx(150.0 * 75.0 / 2.0 * 2400.0, rel=1e-6)
    assert spec.volume_mm3 == pytest.approx(volume_by_shapely(spec), rel=1e-9)


@pytest.mark.parametrize("turn_deg", [90.0, -90.0, 45.0, -37.0])
def test_two_walls_meet_in_their_mitre(turn_deg: float) -> None:
    """Walls at a corner touch along the mitre and do not overlap."""
    before, after = room_wall(mitred(2000.0, 0.0, turn_deg)), room_wall(mitred(2000.0, turn_deg, 0.0))
    placed = located(after, at(2000.0, 0.0, 0.0) @ turned_about_z(turn_deg))
    assert overlap_mm3(before, placed) < 1e-3
    assert before.distance(placed) == pytest.approx(0.0, abs=1e-6)
    assert overlap_mm3(before, located(placed, at(-1.0, 0.0, 0.0))) > 1.0


@pytest.mark.parametrize(
    "spec",
    [
        replace(PLAIN, length_mm=0.0),
        replace(PLAIN, height_mm=-1.0),
        replace(PLAIN, thickness_mm=0.0),
        replace(PLAIN, holes=(DOOR, replace(WINDOW, start_mm=1300.0))),
        replace(PLAIN, holes=(WINDOW,), recesses=((2300.0, 2380.0, 1000.0, 1080.0, 35.0),)),
        replace(PLAIN, holes=(replace(DOOR, top_mm=2400.0),)),
        replace(PLAIN, holes=(replace(DOOR, end_mm=600.0),)),
    ],
    ids=["no length", "no height", "no thickness", "overlap", "pocket in a window", "cut in two", "no width"],
)
def test_a_wall_without_one_body_is_refused(spec: WallSpec) -> None:
    """A wall without size, with overlapping openings, or cut in two by one of its own height raises the solids' own
    error.
    """
    with pytest.raises(SolidError):
        room_wall(spec)


BELLY = ((0.0, 0.0), (900.0, 6.0), (1800.0, 11.0), (2700.0, -4.0), (3600.0, 0.0))


def bowed_by_shapely(spec: WallSpec) -> float:
    """Volume of a wall with a face of its own: shapely's polygon through its points, less its cut-outs."""
    back = [(spec.back_start_mm, -spec.thickness_mm), (spec.back_end_mm, -spec.thickness_mm)]
    plan = Polygon([*back, *reversed(spec.face)])
    total = plan.area * spec.height_mm
    for hole, depth in spec.cut_outs:
        taken = plan.intersection(box(hole.start_mm, -depth, hole.end_mm, 50.0)).area
        total -= taken * (min(hole.top_mm, spec.height_mm) - max(hole.bottom_mm, 0.0))
    return total


@pytest.mark.parametrize("turns", [(90.0, 90.0), (-90.0, 45.0)])
def test_a_wall_that_bows(turns: tuple[float, float]) -> None:
    """The surface goes straight from point to point; volume, openings and pockets are what shapely measures."""
    spec = replace(
        mitred(3600.0, *turns), face=BELLY, holes=(DOOR, WINDOW), recesses=((1700.0, 1780.0, 300.0, 380.0, 24.5),)
    )
    solid = room_wall(spec)
    assert solid.Volume() == pytest.approx(bowed_by_shapely(spec), rel=1e-6)
    assert spec.volume_mm3 == pytest.approx(bowed_by_shapely(spec), rel=1e-9)
    for x, y in ((450.0, 3.0), (1500.0, 6.0 + 5.0 * 2.0 / 3.0), (2250.0, 3.5), (2700.0, -4.0)):
        assert metal_at(solid, (x, y - 0.05, 2300.0))
        assert not metal_at(solid, (x, y + 0.05, 2300.0))
    assert not metal_at(solid, (1740.0, -24.4, 340.0))
    assert metal_at(solid, (1740.0, -24.6, 340.0))
    assert not metal_at(solid, (1000.0, 6.0, 1000.0))
    assert shells(solid) == 1


def test_part_of_a_face() -> None:
    """The surface between two places is given from the first of them, its ends included; a straight wall has none."""
    spec = replace(PLAIN, face=BELLY)
    assert spec.face_between(450.0, 2250.0) == ((0.0, 3.0), (450.0, 6.0), (1350.0, 11.0), (1800.0, 3.5))
    assert PLAIN.face_between(450.0, 2250.0) == ()
    assert (spec.proudest_mm, PLAIN.proudest_mm) == (11.0, 0.0)
