"""Placements in the kernel: points go where the numbers say, copies share, originals stay."""

from __future__ import annotations

import math

import cadquery as cq
import pytest
from hypothesis import given
from hypothesis import strategies as st
from OCP.gp import gp_Pnt

from model3d.geometry.placement import Placement, turned_about_z
from model3d.solids.placing import located, location, transform

ANGLES = st.floats(-360.0, 360.0)
PLACES = st.tuples(st.floats(-1e5, 1e5), st.floats(-1e5, 1e5), st.floats(-1e5, 1e5))
OVER = Placement(y_axis=(0.0, -1.0, 0.0), z_axis=(0.0, 0.0, -1.0))


@given(ANGLES, PLACES, st.booleans(), st.tuples(*[st.floats(-100.0, 100.0)] * 3))
def test_the_kernel_moves_a_point_as_the_numbers_do(
    turn_deg: float, place: tuple[float, float, float], turned_over: bool, local: tuple[float, float, float]
) -> None:
    """A point of the part goes to the same place by the kernel's transformation as by the placement's
    arithmetic."""
    placement = turned_about_z(turn_deg, place) @ (OVER if turned_over else Placement())
    moved = gp_Pnt(*local).Transformed(transform(placement))
    assert (moved.X(), moved.Y(), moved.Z()) == pytest.approx(placement.point(local), abs=1e-9)


@given(ANGLES, PLACES)
def test_a_placement_is_rigid_and_no_mirror(turn_deg: float, place: tuple[float, float, float]) -> None:
    """The kernel's transformation has scale 1 and keeps handedness."""
    found = transform(turned_about_z(turn_deg, place) @ OVER)
    assert found.ScaleFactor() == pytest.approx(1.0, abs=1e-14)
    assert not found.IsNegative()


def test_a_moved_copy_shares_its_shape_and_leaves_the_original() -> None:
    """A moved copy shares faces with its original, which stays where it was."""
    original = cq.Solid.makeBox(1.0, 2.0, 3.0)
    copy = located(original, turned_about_z(90.0, (10.0, 0.0, 0.0)))
    assert copy.wrapped.IsPartner(original.wrapped)
    assert original.Center().toTuple() == pytest.approx((0.5, 1.0, 1.5))
    assert copy.Center().toTuple() == pytest.approx((9.0, 0.5, 1.5))


def test_locations_chain_as_placements_do() -> None:
    """The location of a placement within a placement is the product of their locations."""
    outer, inner = turned_about_z(30.0, (5.0, 6.0, 7.0)), turned_about_z(-75.0, (1.0, 2.0, 3.0)) @ OVER
    chained = (location(outer) * location(inner)).toTuple()
    whole = location(outer @ inner).toTuple()
    assert chained[0] == pytest.approx(whole[0], abs=1e-9)
    assert [math.cos(math.radians(a)) for a in chained[1]] == pytest.approx(
        [math.cos(math.radians(a)) for a in whole[1]], abs=1e-9
    )
