"""Joining, cutting and sharing of solids, by known answers."""

from __future__ import annotations

import math

import cadquery as cq
import pytest

from model3d.geometry.placement import Placement, at
from model3d.solids.joining import cut, fused, overlap_mm3
from model3d.solids.placing import located
from model3d.solids.sound import SolidError


def box(x_mm: float, y_mm: float, z_mm: float) -> cq.Solid:
    """A box with its corner at the datum."""
    return cq.Solid.makeBox(x_mm, y_mm, z_mm)


def test_boxes_that_touch_become_one() -> None:
    """Solids that share part of a face join into one."""
    joined = fused([box(2.0, 2.0, 2.0), located(box(1.0, 1.0, 1.0), at(2.0, 0.5, 0.5))], "pair")
    assert joined.Volume() == pytest.approx(9.0)


def test_solids_that_stand_apart_do_not_join() -> None:
    """Solids that do not meet are refused as one part."""
    with pytest.raises(SolidError, match="pair: one solid expected, 2 found"):
        fused([box(1.0, 1.0, 1.0), located(box(1.0, 1.0, 1.0), at(3.0, 0.0, 0.0))], "pair")


def test_a_cut_right_through_is_refused() -> None:
    """A body cut in two, or cut away, is no part."""
    body = box(10.0, 2.0, 2.0)
    with pytest.raises(SolidError, match="2 found"):
        cut(body, [located(box(1.0, 4.0, 4.0), at(4.0, -1.0, -1.0))], "bar")
    with pytest.raises(SolidError, match="0 found"):
        cut(body, [located(box(20.0, 4.0, 4.0), at(-4.0, -1.0, -1.0))], "bar")


def test_crossing_cylinders_share_steinmetz_volume() -> None:
    """Two cylinders of radius 10 that cross at right angles share 16 r^3 / 3 = 5333.333 mm3 (Steinmetz)."""
    upright = located(cq.Solid.makeCylinder(10.0, 60.0), at(0.0, 0.0, -30.0))
    lying = located(upright, Placement(x_axis=(0.0, 0.0, 1.0), y_axis=(0.0, 1.0, 0.0), z_axis=(-1.0, 0.0, 0.0)))
    assert overlap_mm3(upright, lying) == pytest.approx(5333.333, abs=5e-3)


@pytest.mark.parametrize(("shift_mm", "shared"), [(1.9, 0.4), (2.0, 0.0), (2.5, 0.0)])
def test_what_only_touches_shares_nothing(shift_mm: float, shared: float) -> None:
    """Boxes that overlap share their overlap; boxes that touch or stand apart share nothing."""
    other = located(box(2.0, 2.0, 2.0), at(shift_mm, 0.0, 0.0))
    assert overlap_mm3(box(2.0, 2.0, 2.0), other) == pytest.approx(shared, abs=1e-9)


def test_a_solid_within_another_is_shared_whole() -> None:
    """A solid that lies inside another without crossing its surface is shared whole."""
    ball = located(cq.Solid.makeSphere(1.0, angleDegrees1=-90.0), at(5.0, 5.0, 5.0))
    assert overlap_mm3(box(10.0, 10.0, 10.0), ball) == pytest.approx(4.0 * math.pi / 3.0, rel=1e-6)
