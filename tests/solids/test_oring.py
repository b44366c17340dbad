"""The O-ring: Pappus, and where it lies."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.geometry.outline import Obround
from model3d.parts.fittings import OringSpec
from model3d.solids.oring import oring
from model3d.solids.sound import SolidError

from .probing import extent, shells
from .square_fittings import ORING


@settings(max_examples=20)
@given(st.floats(2.0, 40.0), st.floats(2.0, 40.0), st.floats(0.5, 6.0))
def test_volume_is_circle_area_times_centre_line(width_mm: float, height_mm: float, section_mm: float) -> None:
    """An O-ring's volume is its circle's area times the length of its centre line (Pappus), high, wide or
    round."""
    spec = OringSpec(inside=Obround(width_mm=width_mm, height_mm=height_mm), section_mm=section_mm)
    assert oring(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-9)


def test_a_round_ring_is_the_torus() -> None:
    """A torus of R 20 and r 7.5 holds 22206.610 mm3 (2 pi^2 R r^2)."""
    spec = OringSpec(inside=Obround(width_mm=25.0, height_mm=25.0), section_mm=15.0)
    assert oring(spec).Volume() == pytest.approx(22206.610, abs=5e-4)


def test_it_lies_round_x_on_the_grooves_floor() -> None:
    """An O-ring lies square to x about its centre, its inside on the stadium it lies on."""
    least, greatest = extent(oring(ORING))
    assert greatest == pytest.approx((0.89, 4.2 + 1.78, 8.7 + 1.78), abs=1e-3)
    assert least == pytest.approx((-0.89, -4.2 - 1.78, -8.7 - 1.78), abs=1e-3)


def test_it_is_cylinders_and_tori_in_one_skin() -> None:
    """An O-ring is exact: cylinders along its straights, tori round its ends."""
    assert {face.geomType() for face in oring(ORING).Faces()} == {"CYLINDER", "TORUS"}
    assert shells(oring(ORING)) == 1


@pytest.mark.parametrize(
    "spec", [replace(ORING, section_mm=0.0), replace(ORING, inside=Obround(width_mm=0.0, height_mm=5.0))]
)
def test_a_ring_without_section_or_inside_is_refused(spec: OringSpec) -> None:
    """An O-ring needs a section and a stadium to lie on."""
    with pytest.raises(SolidError, match="O-ring"):
        oring(spec)
