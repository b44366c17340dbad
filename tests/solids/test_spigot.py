"""The spigot of a link: volume, tail and shoulder, the slotted screw on top."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model3d.geometry.outline import Obround
from model3d.parts.fittings import GrooveSpec, LegSpec, SpigotSpec
from model3d.solids.sound import SolidError
from model3d.solids.spigot import spigot

from .probing import extent, metal_at, shells, way_is_free
from .square_fittings import SPIGOT

ROUND_LEG = LegSpec(
    outside=Obround(width_mm=13.0, height_mm=13.0),
    passage=Obround(width_mm=9.0, height_mm=9.0),
    grooves=GrooveSpec(floor=Obround(width_mm=10.8, height_mm=10.8), width_mm=2.4, from_tip_mm=(6.0, 14.0)),
)
WIDE_LEG = LegSpec(
    outside=Obround(width_mm=24.0, height_mm=11.0),
    passage=Obround(width_mm=20.0, height_mm=7.0),
    grooves=GrooveSpec(floor=Obround(width_mm=21.4, height_mm=8.4), width_mm=2.4, from_tip_mm=(6.0, 14.0)),
)


@settings(max_examples=12)
@given(st.floats(18.0, 40.0), st.floats(14.0, 30.0), st.floats(4.0, 12.0), st.floats(2.0, 3.2), st.floats(2.5, 8.0))
def test_volume_is_leg_shoulder_tail_and_screw(
    insertion_mm: float, stub_mm: float, tail_mm: float, radius_mm: float, height_mm: float
) -> None:
    """A spigot's metal is its grooved leg, the wall that closes it, the tail, and the slotted screw on the
    round top."""
    spec = replace(
        SPIGOT,
        insertion_mm=insertion_mm,
        stub_mm=stub_mm,
        tail_length_mm=tail_mm,
        screw_x_mm=-8.0,
        screw_radius_mm=radius_mm,
        screw_height_mm=height_mm,
    )
    assert spigot(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-6)


@pytest.mark.parametrize("leg", [ROUND_LEG, WIDE_LEG])
def test_round_and_wide_legs_keep_the_closed_form(leg: LegSpec) -> None:
    """The screw's neck stands on a round top, and on a flat one where the leg is wider than high."""
    spec = replace(SPIGOT, leg=leg)
    assert spigot(spec).Volume() == pytest.approx(spec.volume_mm3, rel=1e-6)


def test_the_datum_is_the_cut_face() -> None:
    """The leg reaches its insertion in, the tail its length beyond the stub, the screw its height above the
    leg."""
    least, greatest = extent(spigot(SPIGOT))
    assert least == pytest.approx((-28.0, -5.3, -9.8), abs=1e-3)
    assert greatest == pytest.approx((24.0, 5.3, 13.8), abs=1e-3)


def test_water_passes_from_tip_to_tail_and_nowhere_else() -> None:
    """The passage is free from the tip through the shoulder and the tail, and the shoulder closes all of the
    leg beside it."""
    solid = spigot(SPIGOT)
    assert way_is_free(solid, (24.0, 0.0, 0.0), (-28.0, 0.0, 0.0))
    for z_mm in (-7.0, 3.1, 7.0):
        assert metal_at(solid, (-19.0, 0.0, z_mm))
    assert shells(solid) == 1


def test_the_screw_is_a_round_head_with_a_slot_on_a_neck() -> None:
    """The head is as wide as its radius, slotted along x, and stands on a thinner neck."""
    solid = spigot(SPIGOT)
    assert metal_at(solid, (-15.0, 2.9, 13.5))
    assert not metal_at(solid, (-15.0, 3.1, 13.5))
    assert not metal_at(solid, (-15.0, 0.39, 13.5))
    assert not metal_at(solid, (-17.5, 0.0, 13.5))
    assert metal_at(solid, (-15.0, 0.41, 13.5))
    assert metal_at(solid, (-15.0, 0.0, 12.7))
    assert metal_at(solid, (-15.0, 1.7, 10.5))
    assert not metal_at(solid, (-15.0, 1.9, 10.5))


def test_a_spigot_fills_the_same_room_on_both_sides_of_y() -> None:
    """A spigot serves either end of a link: it is the same on both sides of y."""
    assert spigot(SPIGOT).Center().y == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize(
    ("spec", "message"),
    [
        (replace(SPIGOT, tail_passage_mm=8.4), "tail passage"),
        (replace(SPIGOT, tail_passage_mm=7.0), "tail passage"),
        (replace(SPIGOT, tail_radius_mm=5.3), "shoulder"),
        (replace(SPIGOT, screw_radius_mm=8.0), "too wide"),
        (replace(SPIGOT, slot_depth_mm=2.0), "slot"),
        (replace(SPIGOT, insertion_mm=-6.0), "grooves"),
    ],
)
def test_a_spigot_that_cannot_be_is_refused(spec: SpigotSpec, message: str) -> None:
    """A passage wider than tail or leg, a tail wider than the leg, a screw too wide or slotted through, no
    room for grooves."""
    with pytest.raises(SolidError, match=message):
        spigot(spec)
