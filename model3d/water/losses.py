"""Velocity, Reynolds number and pressure drop of each stretch: Darcy-Weisbach with the hydraulic diameter,
and minor losses.

Friction factors come from the fluids library (Clamond's solution of Colebrook and White, 64 / Re below), loaded when
first asked for.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from model3d.figures import Figure, plain
from model3d.geometry.outline import Obround
from model3d.water.coefficients import coefficients_of
from model3d.water.fluid import Water
from model3d.water.waterway import Stretch, hydraulic_diameter_mm

ROUGHNESS_MM = 0.0015
"""Of drawn and extruded tube: 1.5 micrometres."""
LAMINAR_BELOW = 2040.0
"""Reynolds number up to which the friction is 64 / Re."""
FRICTION_RULE = "Darcy-Weisbach, f rho v^2 / 2 x L / D_h"


@dataclass(frozen=True, slots=True, kw_only=True)
class StretchDrop:
    """The flow through one stretch. ``friction`` and ``minor`` are pressure drops, Pa; ``section`` is area and
    hydraulic diameter, ``coefficients`` the K of each minor loss.
    """

    stretch: Stretch
    section: tuple[Figure, ...]
    length: Figure
    velocity: Figure
    reynolds: Figure
    factor: Figure
    dynamic: Figure
    friction: Figure
    coefficients: tuple[Figure, ...]
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
        flow = (self.length, self.velocity, self.reynolds, self.factor, self.dynamic, self.friction)
        return (*self.section, *flow, *self.coefficients, self.minor)


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
    where = f"{stretch.part}, {stretch.what}"
    coefficients = tuple(coefficients_of(stretch, before, reynolds, factor))
    return StretchDrop(
        stretch=stretch,
        section=section_figures(stretch.shape),
        length=Figure(
            name=f"length, {where}",
            formula=stretch.length_sum or plain(stretch.length_mm),
            value=stretch.length_mm,
            unit="mm",
            rule="along the middle line, by the family's fittings",
        ),
        velocity=Figure(
            name=f"velocity, {where}",
            formula=f"{flow:.6f} / ({rho:.2f} x {area:.2f}e-6)",
            value=velocity,
            unit="m/s",
            rule="flow over density and section",
        ),
        reynolds=Figure(
            name=f"Reynolds, {where}",
            formula=f"{rho:.2f} x {velocity:.5f} x {across / 1000:.6f} / {water.viscosity_pa_s:.4e}",
            value=reynolds,
            unit="",
            rule="rho v D_h / mu",
        ),
        factor=_factor(where, reynolds, roughness_mm / across, factor),
        dynamic=Figure(
            name=f"dynamic pressure, {where}",
            formula=f"{rho:.2f} x {velocity:.5f}^2 / 2",
            value=dynamic,
            unit="Pa",
            rule="rho v^2 / 2",
        ),
        friction=_friction(where, stretch, factor, dynamic, across),
        coefficients=coefficients,
        minor=_minor(where, coefficients, dynamic),
    )


def section_figures(shape: Obround) -> tuple[Figure, Figure]:
    """Area and hydraulic diameter of a round or obround passage, by its width and height."""
    wide, high, straight = min(shape.width_mm, shape.height_mm), max(shape.width_mm, shape.height_mm), shape.straight_mm
    what = f"{wide:g} round" if straight == 0.0 else f"{wide:g} x {high:g} obround"
    sides = "" if straight == 0.0 else f" + {wide:g} x {straight:g}"
    around = "" if straight == 0.0 else f" + 2 x {straight:g}"
    return (
        Figure(
            name=f"section of {what}",
            formula=f"pi / 4 x {wide:g}^2{sides}",
            value=shape.area_mm2,
            unit="mm2",
            rule="area of a circle, or of two half circles and what is between them",
        ),
        Figure(
            name=f"hydraulic diameter of {what}",
            formula=f"4 x {shape.area_mm2:.3f} / (pi x {wide:g}{around})",
            value=hydraulic_diameter_mm(shape),
            unit="mm",
            rule="D_h = 4 A / P",
        ),
    )


def _factor(where: str, reynolds: float, relative: float, factor: float) -> Figure:
    name = f"friction factor, {where}"
    if reynolds < LAMINAR_BELOW:
        return Figure(name=name, formula=f"64 / {reynolds:.2f}", value=factor, unit="", rule="64 / Re, laminar")
    return Figure(
        name=name,
        formula=f"1 / (2 x log({relative:.4e} / 3.7 + 2.51 / ({reynolds:.2f} x sqrt({factor:.6f}))))^2",
        value=factor,
        unit="",
        rule=f"Colebrook and White, the factor itself put in; roughness {1000 * ROUGHNESS_MM:g} micrometres over D_h",
    )


def _friction(where: str, stretch: Stretch, factor: float, dynamic: float, across: float) -> Figure:
    name = f"friction, {where}"
    if stretch.turn_deg:
        return Figure(name=name, formula="0", value=0.0, unit="Pa", rule="a bend's coefficient has its friction in it")
    return Figure(
        name=name,
        formula=f"{factor:.6f} x {dynamic:.4f} x {stretch.length_mm:.2f} / {across:.3f}",
        value=factor * dynamic * stretch.length_mm / across,
        unit="Pa",
        rule=FRICTION_RULE,
    )


def _minor(where: str, coefficients: Sequence[Figure], dynamic: float) -> Figure:
    """K rho v^2 / 2, of all coefficients."""
    text = " + ".join(f"{k.value:.4f}" for k in coefficients)
    return Figure(
        name=f"minor losses, {where}",
        formula=f"({text}) x {dynamic:.4f}" if coefficients else "0",
        value=sum(k.value for k in coefficients) * dynamic,
        unit="Pa",
        rule="K rho v^2 / 2" if coefficients else "no bend, and no other section before it",
    )
