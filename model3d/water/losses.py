"""Velocity, Reynolds number and pressure drop of each stretch: Darcy-Weisbach with the hydraulic diameter,
and minor losses.

Friction factors and loss coefficients come from the fluids library (Clamond's solution of Colebrook and
White, 64 / Re below; Rennels for bends and sudden changes of section), loaded when first asked for.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from model3d.figures import Figure
from model3d.geometry.outline import Obround
from model3d.water.fluid import Water
from model3d.water.waterway import Stretch, hydraulic_diameter_mm

ROUGHNESS_MM = 0.0015
"""Of drawn and extruded tube: 1.5 micrometres."""
FRICTION_RULE = "Darcy-Weisbach, f rho v^2 / 2 x L / D_h"


@dataclass(frozen=True, slots=True, kw_only=True)
class StretchDrop:
    """The flow through one stretch. ``friction`` and ``minor`` are pressure drops, Pa."""

    stretch: Stretch
    velocity: Figure
    reynolds: Figure
    factor: Figure
    friction: Figure
    minor: Figure

    @property
    def drop_pa(self) -> float:
        """Both drops together."""
        return self.friction.value + self.minor.value

    @property
    def gradient_pa_per_m(self) -> float:
        """Drop by friction for each metre."""
        return 1000.0 * self.friction.value / self.stretch.length_mm if self.stretch.length_mm else 0.0

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Its figures in order."""
        return (self.velocity, self.reynolds, self.factor, self.friction, self.minor)


def velocity_m_per_s(water: Water, shape: Obround, flow_kg_per_s: float) -> float:
    """Flow over density and section."""
    return flow_kg_per_s / (water.density_kg_per_m3 * shape.area_mm2 * 1e-6)


def reynolds_number(water: Water, shape: Obround, velocity: float) -> float:
    """rho v D_h / mu."""
    return water.density_kg_per_m3 * velocity * hydraulic_diameter_mm(shape) / 1000.0 / water.viscosity_pa_s


def friction_factor(reynolds: float, relative_roughness: float) -> float:
    """Darcy's friction factor."""
    from fluids.friction import friction_factor as darcy

    return float(darcy(Re=reynolds, eD=relative_roughness))


def drops_of(
    stretches: Sequence[Stretch], water: Water, flow_kg_per_s: float, roughness_mm: float = ROUGHNESS_MM
) -> tuple[StretchDrop, ...]:
    """The flow through each stretch in turn, ``flow_kg_per_s`` above 0."""
    found = []
    for i, stretch in enumerate(stretches):
        before = stretches[i - 1] if i else None
        found.append(_drop(stretch, before, water, flow_kg_per_s, roughness_mm))
    return tuple(found)


def _drop(stretch: Stretch, before: Stretch | None, water: Water, flow: float, roughness_mm: float) -> StretchDrop:
    rho, area, across = water.density_kg_per_m3, stretch.shape.area_mm2, hydraulic_diameter_mm(stretch.shape)
    velocity = velocity_m_per_s(water, stretch.shape, flow)
    reynolds = reynolds_number(water, stretch.shape, velocity)
    factor = friction_factor(reynolds, roughness_mm / across)
    dynamic = rho * velocity**2 / 2.0
    along = 0.0 if stretch.turn_deg else stretch.length_mm  # a bend's coefficient has its own friction in it
    where = f"{stretch.part}, {stretch.what}"
    return StretchDrop(
        stretch=stretch,
        velocity=_figure(
            f"velocity, {where}",
            f"{flow:.5f} / ({rho:.1f} x {area:.1f}e-6)",
            velocity,
            "m/s",
            "flow over density and section",
        ),
        reynolds=_figure(
            f"Reynolds, {where}",
            f"{rho:.1f} x {velocity:.4g} x {across / 1000:.5f} / {water.viscosity_pa_s:.3e}",
            reynolds,
            "",
            "rho v D_h / mu, D_h = 4 A / P",
        ),
        factor=_figure(
            f"friction factor, {where}",
            _factor_text(reynolds, roughness_mm / across),
            factor,
            "",
            "64 / Re when laminar, else Colebrook and White",
        ),
        friction=_figure(
            f"friction, {where}",
            f"{factor:.4f} x {dynamic:.2f} x {along:.1f} / {across:.2f}",
            factor * dynamic * along / across,
            "Pa",
            FRICTION_RULE,
        ),
        minor=_minor(where, stretch, before, reynolds, factor, dynamic),
    )


def _factor_text(reynolds: float, relative: float) -> str:
    return f"64 / {reynolds:.0f}" if reynolds < 2040.0 else f"Re {reynolds:.0f}, roughness / D_h {relative:.2e}"


def _minor(
    where: str, stretch: Stretch, before: Stretch | None, reynolds: float, factor: float, dynamic: float
) -> Figure:
    """K rho v^2 / 2 of the bend, of the change of section on the way in, of the chambers; K by the
    velocity here.
    """
    parts: list[tuple[str, float]] = []
    if stretch.from_chamber:
        parts.append(("entrance", entrance_k()))
    elif before is not None:
        parts.append(("change of section", section_change_k(before.shape, stretch.shape)))
    if stretch.turn_deg:
        across = hydraulic_diameter_mm(stretch.shape)
        parts.append(("bend", bend_k(stretch.turn_deg, stretch.bend_radius_mm, across, reynolds, factor)))
    if stretch.to_chamber:
        parts.append(("exit", 1.0))
    shown = [(name, k) for name, k in parts if k]
    text = " + ".join(f"{k:.3f}" for _, k in shown) or "0"
    names = ", ".join(name for name, _ in shown) or "nothing"
    return _figure(
        f"minor losses, {where}",
        f"({text}) x {dynamic:.2f}",
        sum(k for _, k in parts) * dynamic,
        "Pa",
        f"K rho v^2 / 2: {names}",
    )


def bend_k(turn_deg: float, radius_mm: float, across_mm: float, reynolds: float, factor: float | None = None) -> float:
    """Loss coefficient of a smooth bend, its own friction included (Rennels)."""
    from fluids.fittings import bend_rounded

    return float(bend_rounded(Di=across_mm / 1000.0, angle=turn_deg, rc=radius_mm / 1000.0, Re=reynolds, fd=factor))


def entrance_k() -> float:
    """Loss coefficient of a sharp entrance (Rennels)."""
    from fluids.fittings import entrance_sharp

    return float(entrance_sharp())


def section_change_k(before: Obround, after: Obround) -> float:
    """Loss coefficient of a sudden change of section, by the velocity after it (Rennels; Borda and
    Carnot).
    """
    one, two = (2.0 * math.sqrt(s.area_mm2 / math.pi) / 1000.0 for s in (before, after))
    if math.isclose(one, two, rel_tol=1e-9):
        return 0.0
    from fluids.fittings import contraction_sharp, diffuser_sharp

    if two < one:
        return float(contraction_sharp(Di1=one, Di2=two))
    return float(diffuser_sharp(Di1=one, Di2=two)) * (two / one) ** 4


def _figure(name: str, formula: str, value: float, unit: str, rule: str) -> Figure:
    return Figure(name=name, formula=formula, value=value, unit=unit, rule=rule)
