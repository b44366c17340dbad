"""Trims: volume by closed form and by shapely, mitres, and what they cover."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from model3d.geometry.outline import Outline, Segment
from model3d.geometry.placement import at, turned_about_z
from model3d.parts.fixings import TrimSpec
from model3d.solids.build import solid as solid_of
from model3d.solids.joining import overlap_mm3
from model3d.solids.placing import located
from model3d.solids.sound import SolidError
from model3d.solids.trim import trim

from .probing import extent, metal_at, shells
from .square_edged import ELBOW, TRIM_OUTLINE, piece_spec, piece_stands, trim_spec

NOTHING_MM3 = 1e-6
TURNS = [0.0, 45.0, -45.0, 90.0, -90.0, 87.3, -12.7, 3.0, 120.0, -120.0]


def wall_line(spec: TrimSpec) -> LineString:
    """The walls' line under a trim, drawn from its meaning: leg, corner or short slanted wall, leg."""
    turn = math.radians(spec.turn_deg)
    onward = (math.cos(turn), math.sin(turn))
    points = [(-spec.leg_mm, 0.0)]
    if spec.slant_mm > 0.0:
        off = spec.slant_mm / math.sin(turn / 2.0)
        points += [(-off, 0.0), (off * onward[0], off * onward[1])]
    else:
        points += [(0.0, 0.0)]
    return LineString([*points, (spec.leg_mm * onward[0], spec.leg_mm * onward[1])])


def strip(spec: TrimSpec, u0: float, u1: float) -> BaseGeometry:
    """Everything between two distances from the walls on their room side (left), mitred."""
    outer, inner = (
        wall_line(spec).buffer(u, single_sided=True, join_style="mitre", mitre_limit=100.0) for u in (u1, u0)
    )
    return outer.difference(inner)


@pytest.mark.parametrize("turn_deg", TURNS)
def test_a_mitred_trim_is_what_shapely_offsets(turn_deg: float) -> None:
    """A trim's volume is that of its front and top as mitred strips along the walls, within 1e-6."""
    spec = trim_spec(turn_deg, leg_mm=90.0)
    by_strips = strip(spec, 28.0, 30.0).area * 140.0 + strip(spec, 1.0, 30.0).area * 2.0
    assert trim(spec).Volume() == pytest.approx(by_strips, rel=1e-6)
    assert spec.volume_mm3 == pytest.approx(by_strips, rel=1e-9)


@pytest.mark.parametrize(("turn_deg", "slant_mm"), [(90.0, 30.0), (87.5, 45.0), (60.0, 40.0), (120.0, 50.0)])
def test_a_slanted_trim_is_what_shapely_offsets(turn_deg: float, slant_mm: float) -> None:
    """A slanted trim's three panels stand as if a short wall crossed the corner at the slant's distance."""
    spec = trim_spec(turn_deg, leg_mm=200.0, slant_mm=slant_mm)
    by_strips = strip(spec, 28.0, 30.0).area * 140.0 + strip(spec, 1.0, 30.0).area * 2.0
    assert trim(spec).Volume() == pytest.approx(by_strips, rel=1e-6)
    half = math.radians(turn_deg) / 2.0
    middle = (math.cos(half + math.pi / 2.0), math.sin(half + math.pi / 2.0))
    for u, inside in ((27.9, False), (28.1, True), (29.9, True), (30.1, False)):
        off = slant_mm + u
        assert metal_at(trim(spec), (off * middle[0], off * middle[1], 80.0)) is inside


@settings(max_examples=15)
@given(st.floats(-130.0, 130.0), st.floats(70.0, 400.0))
def test_volume_is_area_times_the_centroids_path(turn_deg: float, leg_mm: float) -> None:
    """A mitred trim's volume is its outline's area times the path of its centroid, at any turn, within 1e-6."""
    spec = trim_spec(turn_deg, leg_mm=leg_mm)
    assert trim(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-6)


@pytest.mark.parametrize("turn_deg", [90.0, -90.0, 45.0, -20.0])
def test_a_moulded_outline_keeps_the_closed_form(turn_deg: float) -> None:
    """The closed form holds for an outline with arcs too."""
    moulded = Outline(
        start=(20.0, 0.0),
        segments=(
            Segment(to=(24.0, 0.0)),
            Segment(to=(24.0, 30.0), through=(32.0, 15.0)),
            Segment(to=(20.0, 34.0), through=(23.0, 33.0)),
        ),
    )
    spec = replace(trim_spec(turn_deg), outline=moulded)
    assert trim(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-6)


@pytest.mark.parametrize("turn_deg", TURNS)
def test_the_mitre_halves_the_turn(turn_deg: float) -> None:
    """Both panels meet in the plane that halves the turn, and the trim stands the same seen from either wall."""
    solid = solid_of(trim_spec(turn_deg, leg_mm=90.0))
    half = math.radians(turn_deg) / 2.0
    along, across = (math.cos(half), math.sin(half)), (-math.sin(half), math.cos(half))
    out = 29.0 / math.cos(half)
    for step in (-0.5, 0.0, 0.5):
        point = (out * across[0] + step * along[0], out * across[1] + step * along[1], 80.0)
        assert metal_at(solid, point)
    first, last = extent(solid)[0][0], located(solid, turned_about_z(-turn_deg)).BoundingBox(1e-4).xmax
    assert first == pytest.approx(-90.0, abs=1e-3)
    assert last == pytest.approx(90.0, abs=1e-3)
    assert shells(solid) == 1


def test_a_trim_touches_the_faces_it_covers() -> None:
    """At an internal corner a trim lies on the faces and tops of both pieces and overlaps neither."""
    solid = solid_of(trim_spec(90.0))
    before = located(solid_of(piece_spec()), piece_stands(-51.0 - 300.0))
    after = located(solid_of(piece_spec()), turned_about_z(90.0) @ piece_stands(51.0))
    for one in (before, after):
        assert overlap_mm3(solid, one) < NOTHING_MM3
        assert solid.distance(one) == pytest.approx(0.0, abs=1e-6)
    assert overlap_mm3(located(solid, at(0.0, -0.1, 0.0)), before) > 1.0


def test_a_trim_stands_clear_of_the_elbows_bend_and_a_flush_one_does_not() -> None:
    """Over an elbow a trim stands proud of the faces: 6.5 - 3 sqrt 2 clear of the bend's inner side; flush, it would
    overlap it.
    """
    bends = [located(solid_of(ELBOW), at(-31.0, 17.0, v)) for v in (48.0, 118.0)]
    flush = trim(replace(trim_spec(90.0), outline=TRIM_OUTLINE.moved(-2.0, 0.0)))
    for bend in bends:
        proud = solid_of(trim_spec(90.0))
        assert overlap_mm3(proud, bend) < NOTHING_MM3
        assert proud.distance(bend) == pytest.approx(6.5 - 3.0 * math.sqrt(2.0), abs=1e-4)
        assert overlap_mm3(flush, bend) > 1.0


@pytest.mark.parametrize(
    ("turn_deg", "leg_mm", "slant_mm"),
    [
        (90.0, 29.0, 0.0),
        (180.0, 90.0, 0.0),
        (-90.0, 90.0, 20.0),
        (0.0, 90.0, 20.0),
        (90.0, 60.0, 60.0),
        (0.0, 0.0, 0.0),
    ],
)
def test_panels_shorter_than_their_mitres_are_refused(
    turn_deg: float, leg_mm: float, slant_mm: float
) -> None:
    """A trim whose panels vanish in the mitre, or a slant where no internal corner is, raises the solids' own error.
    """
    with pytest.raises(SolidError):
        solid_of(trim_spec(turn_deg, leg_mm=leg_mm, slant_mm=slant_mm))
