"""The piece: volume, datum, bores and guides where the section has them, reamed mouths."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.geometry.outline import Obround, Outline, Segment, rectangle
from model3d.parts.profile import Bore, PieceSpec, SectionSpec
from model3d.solids.piece import piece
from model3d.solids.sound import SolidError

from .probing import extent, metal_at, shells
from .square_edged import piece_spec, section


@settings(max_examples=15)
@given(st.floats(40.0, 5000.0))
def test_volume_is_section_area_times_length_less_the_reamed_mouths(length_mm: float) -> None:
    """A piece's metal is the area of its section times its length, less what reaming takes at both mouths of
    each bore."""
    spec = piece_spec(length_mm)
    assert piece(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-9)


def test_a_piece_cut_long_by_a_twentieth_is_told_from_its_closed_form() -> None:
    """A piece cut .05 mm long does not pass for the right length."""
    assert piece(piece_spec(3498.05)).Volume() != pytest.approx(piece_spec(3498.0).volume_mm3, rel=1e-6)


def test_the_datum_is_the_lower_back_edge_at_the_near_end() -> None:
    """x runs along the length, y out from the back plane, z up from the underside."""
    least, greatest = extent(piece(piece_spec(300.0)))
    assert least == pytest.approx((0.0, 0.0, 0.0), abs=1e-3)
    assert greatest == pytest.approx((300.0, 22.0, 140.0), abs=1e-3)


@pytest.mark.parametrize("height_mm", [40.0, 110.0])
def test_the_bores_run_right_through_at_their_heights(height_mm: float) -> None:
    """A waterway is open along its whole centre line and its wall stands half its width to either side."""
    solid = piece(piece_spec(300.0))
    for x_mm in (0.01, 3.0, 150.0, 299.99):
        assert not metal_at(solid, (x_mm, 11.0, height_mm))
    for side in (-1.0, 1.0):
        assert not metal_at(solid, (150.0, 11.0 + side * 5.49, height_mm))
        assert metal_at(solid, (150.0, 11.0 + side * 5.51, height_mm))


@pytest.mark.parametrize("x_mm", [0.0, 300.0])
@pytest.mark.parametrize(("into_mm", "wider_mm"), [(0.0, 0.7), (1.5, 0.35), (3.0, 0.0)])
def test_a_mouth_narrows_evenly_over_the_lead_in(x_mm: float, into_mm: float, wider_mm: float) -> None:
    """A reamed mouth is wider all round by the lead-in's radial size at the cut face and falls evenly to the
    plain bore."""
    solid = piece(piece_spec(300.0))
    inward = 1.0 if x_mm == 0.0 else -1.0
    here = x_mm + inward * max(into_mm, 0.001)
    top = 110.0 + 10.0 + wider_mm
    assert not metal_at(solid, (here, 11.0, top - 0.01))
    assert metal_at(solid, (here, 11.0, top + 0.01))


@pytest.mark.parametrize("y_mm", [2.0, 20.0])
def test_the_clip_guides_stand_front_and_back_of_the_middle_chamber(y_mm: float) -> None:
    """The middle chamber has a guide, a notch 12 mm high, on the front and on the back."""
    solid = piece(piece_spec(300.0))
    assert not metal_at(solid, (150.0, y_mm, 75.0))
    assert metal_at(solid, (150.0, y_mm, 68.9))
    assert metal_at(solid, (150.0, y_mm, 81.1))


def test_arcs_stay_arcs_and_reaming_is_an_exact_taper() -> None:
    """A piece is bounded by planes, cylinders and cones alone, one skin, and nothing closed up inside."""
    solid = piece(piece_spec(300.0))
    assert {face.geomType() for face in solid.Faces()} == {"PLANE", "CYLINDER", "CONE"}
    assert shells(solid) == 1


def test_a_dry_piece_has_no_waterways() -> None:
    """A section without bores gives a piece whose volume is area times length."""
    dry = PieceSpec(length_mm=900.0, section=replace(section(), bores=()))
    assert piece(dry).Volume() == pytest.approx(dry.section.metal_area_mm2 * 900.0, rel=1e-9)


def test_round_bores_and_a_curved_face_are_exact_too() -> None:
    """A moulded section with a torus on its face and round waterways keeps its closed form."""
    outline = Outline(
        start=(0.0, 0.0),
        segments=(
            Segment(to=(20.0, 0.0)),
            Segment(to=(20.0, 100.0)),
            Segment(to=(20.0, 116.0), through=(28.0, 108.0)),
            Segment(to=(12.0, 130.0)),
            Segment(to=(0.0, 130.0)),
        ),
    )
    bore = Obround(width_mm=13.0, height_mm=13.0)
    spec = PieceSpec(
        length_mm=700.0,
        section=SectionSpec(
            outline=outline,
            chambers=(rectangle(3.0, 48.0, 17.0, 80.0),),
            bores=(Bore(centre=(10.0, 30.0), opening=bore), Bore(centre=(10.0, 104.0), opening=bore)),
            lead_in_length_mm=3.0,
            lead_in_radial_mm=0.6,
        ),
    )
    assert piece(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-9)


@pytest.mark.parametrize(
    "chamber", [rectangle(5.0, 5.0, 30.0, 10.0), rectangle(8.0, 35.0, 14.0, 45.0), rectangle(8.0, 45.0, 12.0, 55.0)]
)
def test_hollows_that_run_into_each_other_or_the_outside_are_refused(chamber: Outline) -> None:
    """A section whose hollows cross its outside, lie in each other, or cross is no solid."""
    crossed = replace(section(), chambers=(*section().chambers, chamber))
    with pytest.raises(SolidError, match="not valid"):
        piece(PieceSpec(length_mm=100.0, section=crossed))


@pytest.mark.parametrize("length_mm", [-1.0, 0.0, 6.0])
def test_a_piece_no_longer_than_its_two_mouths_is_refused(length_mm: float) -> None:
    """A piece must be longer than its two reamed mouths together."""
    with pytest.raises(SolidError, match="reamed mouths"):
        piece(piece_spec(length_mm))
