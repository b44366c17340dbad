"""Water of a heating circuit: IAPWS-IF97 and the IAPWS viscosity (R12-08), by CoolProp, loaded when first
asked for.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from model3d.figures import Figure

PRESSURE_PA = 3.0e5
"""Absolute pressure: a circuit filled to 2 bar; of no weight for a liquid."""
RULE = "IAPWS-IF97 at 0.3 MPa"


@dataclass(frozen=True, slots=True, kw_only=True)
class Water:
    """Liquid water at one temperature: density kg/m3, heat capacity J/(kg K), dynamic viscosity Pa s."""

    temperature_c: float
    density_kg_per_m3: float
    heat_capacity_j_per_kg_k: float
    viscosity_pa_s: float

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Its properties as figures."""
        at = f"of water at {self.temperature_c:g} C"
        rho, cp, mu = self.density_kg_per_m3, self.heat_capacity_j_per_kg_k, self.viscosity_pa_s
        viscosity_rule = "IAPWS viscosity, R12-08, at the density"
        return (
            Figure(name=f"density {at}", formula=f"{rho:.3f}", value=rho, unit="kg/m3", rule=RULE),
            Figure(name=f"heat capacity {at}", formula=f"{cp:.2f}", value=cp, unit="J/(kg K)", rule=RULE),
            Figure(name=f"viscosity {at}", formula=f"{mu:.4e}", value=mu, unit="Pa s", rule=viscosity_rule),
        )


@lru_cache(maxsize=64)
def water_at(temperature_c: float) -> Water:
    """Liquid water at a temperature from 0 to 130 degrees C. Raises ValueError outside."""
    if not 0.0 < temperature_c <= 130.0:
        raise ValueError(f"water at {temperature_c:g} C is not the liquid of a heating circuit")
    from CoolProp.CoolProp import PropsSI

    density, capacity, viscosity = (
        float(PropsSI(what, "T", temperature_c + 273.15, "P", PRESSURE_PA, "IF97::Water")) for what in ("D", "C", "V")
    )
    return Water(
        temperature_c=temperature_c,
        density_kg_per_m3=density,
        heat_capacity_j_per_kg_k=capacity,
        viscosity_pa_s=viscosity,
    )
