"""The elbow: Pappus at the bend, legs where the datum says, grooves from the tips."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.geometry.outline import Obround
from model3d.parts.fittings import ElbowSpec, GrooveSpec, LegSpec
from model3d.solids.elbow import bend_end, elbow
from model3d.solids.sound import SolidError

from .probing import extent, metal_at, shells, way_is_free
from .square_edged import ELBOW


@settings(max_examples=12)
@given(st.floats(10.0, 175.0), st.floats(8.0, 60.0), st.floats(20.0, 90.0), st.floats(20.0, 90.0))
def test_volume_is_two_legs_and_the_body_round_the_bend(
    turn_deg: float, radius_mm: float, long_mm: float, short_mm: float
) -> None:
    """An elbow's metal is its two grooved legs and, by Pappus, the body's section along the bend's centre
    line."""
    spec = replace(ELBOW, turn_deg=turn_deg, bend_radius_mm=radius_mm, long_leg_mm=long_mm, short_leg_mm=short_mm)
    assert elbow(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-9)


def test_a_quarter_bend_of_a_stadium_keeps_pappus_value() -> None:
    """A 30 x 12 stadium carried 90 degrees round a bend of radius 40 holds 20677.795 mm3 (Pappus and
    Guldin)."""
    leg = LegSpec(
        outside=Obround(width_mm=14.0, height_mm=10.0),
        passage=Obround(width_mm=9.0, height_mm=5.0),
        grooves=GrooveSpec(floor=Obround(width_mm=12.0, height_mm=8.0), width_mm=2.4, from_tip_mm=(6.0,)),
    )
    spec = ElbowSpec(
        turn_deg=90.0,
        bend_radius_mm=40.0,
        body=Obround(width_mm=30.0, height_mm=12.0),
        leg=leg,
        long_leg_mm=20.0,
        short_leg_mm=20.0,
    )
    legs = 2.0 * leg.volume_mm3(20.0)
    passage = (math.pi * 2.5**2 + 5.0 * 4.0) * math.pi / 2.0 * 40.0
    assert elbow(spec).Volume() - legs + passage == pytest.approx(20677.795, abs=5e-4)


def test_the_long_leg_lies_along_minus_x_and_the_bend_turns_toward_plus_y() -> None:
    """The datum is the bend end of the long leg; the short leg leads out square to it for a right angle."""
    least, greatest = extent(elbow(ELBOW))
    assert least == pytest.approx((-54.0, -7.5, -12.0), abs=1e-3)
    assert greatest == pytest.approx((14.0 + 7.5, 14.0 + 44.0, 12.0), abs=1e-3)


@pytest.mark.parametrize("turn_deg", [60.0, 90.0, 135.0])
def test_the_short_leg_starts_where_the_bend_ends(turn_deg: float) -> None:
    """The short leg's root is the bend's end and its tip one short leg on in the turned direction."""
    spec = replace(ELBOW, turn_deg=turn_deg)
    solid, root = elbow(spec), bend_end(spec)
    for y_mm, metal in ((5.29, True), (5.31, False), (3.51, True), (3.49, False)):
        assert metal_at(solid, root.point((20.0, y_mm, 0.0))) is metal
    assert metal_at(solid, root.point((43.99, 4.4, 0.0)))
    assert not metal_at(solid, root.point((44.01, 4.4, 0.0)))


def test_water_passes_from_tip_to_tip() -> None:
    """The passage is free along the whole centre line."""
    quarter = [
        (14.0 * math.sin(a), 14.0 * (1.0 - math.cos(a)), 0.0) for a in (k * math.pi / 12.0 for k in range(7))
    ]
    assert way_is_free(elbow(ELBOW), (-54.0, 0.0, 0.0), *quarter, (14.0, 58.0, 0.0))


def test_grooves_stand_their_distances_from_each_tip() -> None:
    """A groove's middle is its distance from the tip, its floor as deep as the seal needs, on both legs."""
    solid = elbow(ELBOW)
    for from_tip in (6.0, 14.0):
        for x_mm, y_mm, metal in (
            (-54.0 + from_tip, 4.21, False),
            (-54.0 + from_tip, 4.19, True),
            (-54.0 + from_tip - 1.19, 4.3, False),
            (-54.0 + from_tip - 1.21, 4.3, True),
            (-54.0 + from_tip + 1.19, 4.3, False),
            (-54.0 + from_tip + 1.21, 4.3, True),
        ):
            assert metal_at(solid, (x_mm, y_mm, 0.0)) is metal
        assert not metal_at(solid, (14.0 + 4.21, 58.0 - from_tip, 0.0))
        assert metal_at(solid, (14.0 + 4.19, 58.0 - from_tip, 0.0))


def test_the_bend_is_revolved_exactly() -> None:
    """Round the bend the faces are cylinders and tori; one skin bounds the elbow."""
    solid = elbow(ELBOW)
    assert {face.geomType() for face in solid.Faces()} == {"PLANE", "CYLINDER", "TORUS"}
    assert shells(solid) == 1


@pytest.mark.parametrize(
    ("spec", "message"),
    [
        (replace(ELBOW, bend_radius_mm=7.5), "no more than half its body"),
        (replace(ELBOW, turn_deg=0.0), "turn of 0"),
        (replace(ELBOW, turn_deg=181.0), "turn of 181"),
        (replace(ELBOW, short_leg_mm=14.5), "grooves"),
        (replace(ELBOW, body=Obround(width_mm=10.0, height_mm=24.0)), "elbow"),
    ],
)
def test_an_elbow_that_cannot_be_is_refused(spec: ElbowSpec, message: str) -> None:
    """A body too thick for the bend, no turn, a leg too short for its grooves, a body inside its leg:
    refused."""
    with pytest.raises(SolidError, match=message):
        elbow(spec)
