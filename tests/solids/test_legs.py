"""The leg tube: volume and grooves counted from the tip."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model3d.parts.fittings import GrooveSpec
from model3d.solids.legs import leg_tube
from model3d.solids.sound import SolidError

from .probing import extent, metal_at
from .square_edged import LEG


@given(st.floats(16.0, 80.0), st.lists(st.sampled_from((4.0, 8.0, 12.0)), unique=True, max_size=3))
def test_volume_is_a_tube_less_its_grooves(length_mm: float, from_tip_mm: list[float]) -> None:
    """A leg's metal is its tube less a ring for each groove, in whatever order they are given."""
    leg = replace(LEG, grooves=replace(LEG.grooves, from_tip_mm=tuple(from_tip_mm)))
    assert leg_tube(leg, length_mm).Volume() == pytest.approx(leg.volume_mm3(length_mm), rel=1e-9)


def test_it_lies_from_its_root_to_its_tip() -> None:
    """A leg's x runs from its root to its tip; grooves count from the tip."""
    solid = leg_tube(LEG, 30.0)
    least, greatest = extent(solid)
    assert (least[0], greatest[0]) == pytest.approx((0.0, 30.0), abs=1e-3)
    assert not metal_at(solid, (24.0, 4.5, 0.0))
    assert metal_at(solid, (6.0, 4.5, 0.0))


@pytest.mark.parametrize(
    ("from_tip_mm", "length_mm"), [((6.0, 7.0), 40.0), ((1.0,), 40.0), ((39.5,), 40.0), ((6.0,), 5.0)]
)
def test_grooves_that_overlap_or_run_off_the_leg_are_refused(from_tip_mm: tuple[float, ...], length_mm: float) -> None:
    """Grooves must stand apart and on the leg."""
    grooves = GrooveSpec(floor=LEG.grooves.floor, width_mm=2.4, from_tip_mm=from_tip_mm)
    with pytest.raises(SolidError, match="grooves"):
        leg_tube(replace(LEG, grooves=grooves), length_mm)
