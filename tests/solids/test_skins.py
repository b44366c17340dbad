"""Solids sewn from skins: frusta, steps and plates by closed form, and what does not close."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.geometry.outline import Obround, rectangle
from model3d.solids.outlines import across_at, flat_face, obround_outline, rounded_rectangle
from model3d.solids.skins import Station, punched_plate, sewn, skin, step
from model3d.solids.sound import SolidError


def disc(radius_mm: float, x_mm: float) -> Station:
    """A round station."""
    return Station(x_mm=x_mm, outline=obround_outline(Obround(width_mm=2.0 * radius_mm, height_mm=2.0 * radius_mm)))


def test_a_frustum_keeps_its_volume() -> None:
    """A frustum of radii 10 and 15, 20 high, holds 9948.377 mm3."""
    stations = [disc(10.0, 0.0), disc(15.0, 20.0)]
    ends = [flat_face(s.outline, [], across_at(s.x_mm)) for s in stations]
    solid = sewn([*skin(stations), *ends], "frustum")
    assert solid.Volume() == pytest.approx(9948.377, abs=5e-4)
    assert "CONE" in {face.geomType() for face in solid.Faces()}


@settings(max_examples=20)
@given(st.floats(2.0, 30.0), st.floats(2.0, 30.0), st.floats(0.1, 1.8), st.floats(0.5, 20.0))
def test_a_stadium_that_grows_evenly_follows_steiner(
    width_mm: float, height_mm: float, radial_mm: float, length_mm: float
) -> None:
    """Between a stadium and the one x wider all round lies length (A + P x / 2 + pi x^2 / 3): Steiner's
    formula along the way."""
    plain = Obround(width_mm=width_mm, height_mm=height_mm)
    stations = [
        Station(x_mm=0.0, outline=obround_outline(plain.grown(radial_mm))),
        Station(x_mm=length_mm, outline=obround_outline(plain)),
    ]
    ends = [flat_face(s.outline, [], across_at(s.x_mm)) for s in stations]
    expected = length_mm * (plain.area_mm2 + plain.perimeter_mm * radial_mm / 2.0 + math.pi * radial_mm**2 / 3.0)
    assert sewn([*skin(stations), *ends], "taper").Volume() == pytest.approx(expected, rel=1e-7)


def test_a_step_joins_two_sizes() -> None:
    """Two stations at the same x make a plane step between two sizes."""
    stations = [disc(10.0, 0.0), disc(10.0, 5.0), disc(6.0, 5.0), disc(6.0, 9.0)]
    ends = [flat_face(stations[k].outline, [], across_at(stations[k].x_mm)) for k in (0, -1)]
    assert sewn([*skin(stations), *ends], "pin").Volume() == pytest.approx(math.pi * (500.0 + 144.0), rel=1e-9)


def test_a_plate_loses_its_holes() -> None:
    """A punched plate's volume is its area less its holes' times its thickness."""
    holes = [rectangle(-2.0, -3.0, 2.0, 3.0), obround_outline(Obround(width_mm=4.0, height_mm=4.0), (0.0, 8.0))]
    plate = punched_plate(rounded_rectangle(6.0, 12.0, 2.0), holes, -1.5, 0.5, "plate")
    area = 288.0 - (4.0 - math.pi) * 4.0 - 24.0 - 4.0 * math.pi
    assert plate.Volume() == pytest.approx(2.0 * area, rel=1e-9)


def test_a_missing_face_leaves_the_skin_open() -> None:
    """Faces that leave a gap are no solid."""
    stations = [disc(10.0, 0.0), disc(10.0, 5.0)]
    with pytest.raises(SolidError, match="pin: the faces do not close"):
        sewn([*skin(stations), flat_face(stations[0].outline, [], across_at(0.0))], "pin")


def test_stations_go_forward() -> None:
    """A skin's stations never go back along x."""
    with pytest.raises(SolidError, match="go back"):
        skin([disc(10.0, 5.0), disc(10.0, 0.0)])


def test_unlike_outlines_meet_only_at_a_step() -> None:
    """A circle passes into a rectangle only by a step."""
    square = rectangle(-2.0, -2.0, 2.0, 2.0)
    with pytest.raises(SolidError, match="step"):
        skin([disc(10.0, 0.0), Station(x_mm=5.0, outline=square)])
    assert len(skin([disc(10.0, 0.0), disc(10.0, 5.0), Station(x_mm=5.0, outline=square)])) == 2
    assert step(square, disc(10.0, 0.0).outline, 3.0) is not None


def test_twisted_flats_are_refused() -> None:
    """Two straight edges that lie in no plane make no flat face."""
    turned = rectangle(-2.0, -2.0, 2.0, 2.0)
    skewed = rectangle(-2.0, -2.0, 2.0, 2.0).moved(0.0, 0.0)
    corner = skewed.segments
    twisted = type(skewed)(start=(-2.0, -1.0), segments=corner)
    with pytest.raises(SolidError, match="no plane"):
        skin([Station(x_mm=0.0, outline=turned), Station(x_mm=4.0, outline=twisted)])
