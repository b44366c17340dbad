"""Properties of water against IAPWS-IF97 as published, and against another implementation of it."""

from __future__ import annotations

import pytest
from iapws import IAPWS97

from model3d.water.fluid import water_at
from model3d.water.run_flow import mass_flow_kg_per_s


@pytest.mark.parametrize(
    ("temperature_c", "density", "capacity", "viscosity"),
    [
        (40.0, 992.311, 4178.1, 0.65276e-3),
        (50.0, 988.134, 4179.1, 0.54656e-3),
        (60.0, 983.297, 4182.3, 0.46609e-3),
        (70.0, 977.867, 4187.7, 0.40361e-3),
        (75.0, 974.945, 4191.1, 0.37748e-3),
    ],
)
def test_against_if97(temperature_c: float, density: float, capacity: float, viscosity: float) -> None:
    """At 0.3 MPa density, heat capacity and viscosity are those of IAPWS-IF97 and R12-08, to the last
    figure.
    """
    water = water_at(temperature_c)
    assert water.density_kg_per_m3 == pytest.approx(density, abs=6e-4)
    assert water.heat_capacity_j_per_kg_k == pytest.approx(capacity, abs=0.06)
    assert water.viscosity_pa_s == pytest.approx(viscosity, abs=6e-9)


@pytest.mark.parametrize("temperature_c", [5.0, 18.0, 55.0, 80.0, 110.0])
def test_against_another_implementation(temperature_c: float) -> None:
    """Another implementation of IAPWS-IF97 (iapws) agrees to a millionth."""
    other, water = IAPWS97(T=temperature_c + 273.15, P=0.3), water_at(temperature_c)
    assert water.density_kg_per_m3 == pytest.approx(other.rho, rel=1e-6)
    assert water.heat_capacity_j_per_kg_k == pytest.approx(1000 * other.cp, rel=1e-6)
    assert water.viscosity_pa_s == pytest.approx(other.mu, rel=1e-5)


def test_viscosity_table() -> None:
    """The table of IAPWS R12-08: 889.735100 uPa s at 298.15 K and 998 kg/m3, 307.883622 at 373.15 K and
    1000 kg/m3.
    """
    from CoolProp.CoolProp import PropsSI

    assert PropsSI("V", "T", 298.15, "D", 998, "Water") == pytest.approx(889.735100e-6, rel=1e-8)
    assert PropsSI("V", "T", 373.15, "D", 1000, "Water") == pytest.approx(307.883622e-6, rel=1e-8)


def test_one_kilowatt_at_ten_kelvin() -> None:
    """1 kW at a drop of 10 K takes .02388 kg/s at 70 C, which is 1.465 l/min (IF97, .1 %)."""
    water = water_at(70.0)
    flow = mass_flow_kg_per_s(1000.0, water.heat_capacity_j_per_kg_k, 10.0)
    assert flow == pytest.approx(0.02388, rel=1e-3)
    assert flow / water.density_kg_per_m3 * 60_000 == pytest.approx(1.465, rel=1e-3)


@pytest.mark.parametrize("temperature_c", [0.0, -5.0, 131.0])
def test_no_liquid(temperature_c: float) -> None:
    """Ice, and water hotter than any valve is made for, is refused."""
    with pytest.raises(ValueError, match="not the liquid of a heating circuit"):
        water_at(temperature_c)
