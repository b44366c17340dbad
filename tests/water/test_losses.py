"""Friction and minor losses against published values."""

from __future__ import annotations

import math

import pytest

from model3d.geometry.outline import Obround
from model3d.water.coefficients import bend_k, entrance_k, section_change_k
from model3d.water.fluid import water_at
from model3d.water.losses import drops_of, friction_factor, reynolds_number, velocity_m_per_s
from model3d.water.waterway import Stretch, hydraulic_diameter_mm, round_bore

OBROUND = Obround(width_mm=30.0, height_mm=12.0)


def test_obround_section() -> None:
    """A 30 x 12 obround has 329.097 mm2, 73.699 mm round, and a hydraulic diameter of 17.862 mm."""
    assert OBROUND.area_mm2 == pytest.approx(329.097, abs=5e-4)
    assert OBROUND.perimeter_mm == pytest.approx(73.699, abs=5e-4)
    assert hydraulic_diameter_mm(OBROUND) == pytest.approx(17.862, abs=5e-4)
    assert hydraulic_diameter_mm(round_bore(13.6)) == pytest.approx(13.6)


@pytest.mark.parametrize(
    ("reynolds", "relative", "factor"),
    [
        (1e4, 0.0, 0.0308830),
        (1e5, 0.0, 0.0179898),
        (1e5, 1e-4, 0.0185139),
        (1e5, 1e-3, 0.0221745),
        (1e5, 1e-2, 0.0385035),
    ],
)
def test_colebrook(reynolds: float, relative: float, factor: float) -> None:
    """Colebrook and White's factor, smooth and rough (two methods agree)."""
    assert friction_factor(reynolds, relative) == pytest.approx(factor, abs=5e-7)


def test_laminar() -> None:
    """At Re 1000 the factor is 64 / 1000, whatever the roughness."""
    assert friction_factor(1000.0, 0.01) == pytest.approx(0.064, abs=1e-12)


@pytest.mark.parametrize(
    ("bore_mm", "flow", "velocity", "gradient"),
    [(13.6, 0.05, 0.352, 133.1), (13.6, 0.1, 0.704, 449.4), (20.2, 0.1, 0.319, 68.2)],
)
def test_copper_tube(bore_mm: float, flow: float, velocity: float, gradient: float) -> None:
    """EN 1057 15 x 0.7 at 70 C: .352 and .704 m/s, 133.1 and 449.4 Pa/m; 22 x 0.9: .319 m/s, 68.2 Pa/m (2
    %).
    """
    metre = Stretch(part="tube", what="bore", shape=round_bore(bore_mm), length_mm=1000.0)
    (drop,) = drops_of([metre], water_at(70.0), flow, 0.0015)
    assert drop.velocity.value == pytest.approx(velocity, abs=6e-4)
    assert drop.friction.value == pytest.approx(gradient, rel=0.02)
    assert drop.gradient_pa_per_m == pytest.approx(drop.friction.value)


@pytest.mark.parametrize("reynolds", [1.2e4, 2.0e4])
def test_bend(reynolds: float) -> None:
    """A smooth 90 degree bend of r / D 1.5 has a K of .29 to .37 (four correlations)."""
    assert 0.29 <= bend_k(90.0, 20.4, 13.6, reynolds) <= 0.37
    assert bend_k(45.0, 20.4, 13.6, reynolds) < bend_k(90.0, 20.4, 13.6, reynolds)


def test_changes_of_section() -> None:
    """A sudden widening loses (1 - a)^2 of the upstream head (Borda and Carnot), the same section nothing,
    an entrance about half.
    """
    small, wide = round_bore(6.0), round_bore(12.0)
    assert section_change_k(small, wide) == pytest.approx((1 - 0.25) ** 2 * 4**2)
    assert 0.35 < section_change_k(wide, small) < 0.55
    assert section_change_k(OBROUND, OBROUND) == 0.0
    assert 0.5 <= entrance_k() <= 0.6


def test_a_bend_counts_its_friction_once() -> None:
    """A bend's coefficient holds its own friction, so that none is counted along it; a straight of that
    length has it.
    """
    bent = Stretch(part="J", what="bend", shape=OBROUND, length_mm=22.0, turn_deg=90.0, bend_radius_mm=14.0)
    (drop,) = drops_of([bent], water_at(50.0), 0.05)
    assert drop.friction.value == 0.0
    rho = water_at(50.0).density_kg_per_m3
    k = bend_k(90.0, 14.0, hydraulic_diameter_mm(OBROUND), drop.reynolds.value, drop.factor.value)
    assert drop.minor.value == pytest.approx(k * rho * drop.velocity.value**2 / 2, rel=1e-6)


def test_reynolds_by_hand() -> None:
    """rho v D_h / mu, by hand at 50 C."""
    water = water_at(50.0)
    v = velocity_m_per_s(water, OBROUND, 0.05)
    assert v == pytest.approx(0.05 / (988.134 * 329.097e-6), rel=1e-5)
    assert reynolds_number(water, OBROUND, v) == pytest.approx(988.134 * v * 0.017862 / 0.54656e-3, rel=1e-4)
    assert math.isclose(reynolds_number(water, OBROUND, 2 * v), 2 * reynolds_number(water, OBROUND, v))
