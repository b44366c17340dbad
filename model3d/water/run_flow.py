"""The flow of a run, and the pressure it takes, part by part."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from model3d.figures import Figure
from model3d.layout import RunLayout
from model3d.water.fluid import RULE, Water
from model3d.water.losses import StretchDrop, drops_of
from model3d.water.waterway import Stretch


@dataclass(frozen=True, slots=True, kw_only=True)
class PartDrop:
    """What one part takes of the pressure, and how fast the water is in its narrowest stretch, m/s."""

    part: str
    drop: Figure
    fastest_m_per_s: float

    @property
    def drop_pa(self) -> float:
        """What it takes, Pa."""
        return self.drop.value


@dataclass(frozen=True, slots=True, kw_only=True)
class RunFlow:
    """A run's flow. ``mass`` is through the valve, ``each`` through one waterway: half of it, or all of it
    where the run turns back. ``drops`` are in the order the water passes them; ``valve`` and ``drop`` are
    in Pa.
    """

    mass: Figure
    volume: Figure
    each: Figure
    drops: tuple[StretchDrop, ...]
    valve: Figure
    drop: Figure

    @property
    def parts(self) -> tuple[PartDrop, ...]:
        """The drop part by part, in order of first passing; without the valve's own."""
        return tuple(_part(name, self.drops_of(name)) for name in dict.fromkeys(d.stretch.part for d in self.drops))

    def drops_of(self, part: str) -> tuple[StretchDrop, ...]:
        """The stretches of one part, in the order the water passes them; those of a run that turns back twice."""
        return tuple(d for d in self.drops if d.stretch.part == part)

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Its figures in order, without those of every stretch."""
        return (self.mass, self.volume, self.each, self.valve, self.drop)


def _part(name: str, drops: Sequence[StretchDrop]) -> PartDrop:
    """The drop of a part, of everything in it that takes some."""
    taken = [f.value for d in drops for f in (d.friction, d.minor) if f.value]
    return PartDrop(
        part=name,
        drop=_figure(
            f"pressure drop of {name}",
            " + ".join(f"{v:.2f}" for v in taken) or "0",
            sum(taken),
            "Pa",
            "friction and minor losses of every stretch, added",
        ),
        fastest_m_per_s=max(d.velocity.value for d in drops),
    )


def run_flow(
    run: RunLayout,
    stretches: Sequence[Stretch],
    water: Water,
    *,
    output_w: float,
    drop_k: float,
    valve_kv: float,
) -> RunFlow:
    """The flow that carries ``output_w`` at a drop of ``drop_k``, and what pressure it takes.

    In an ordinary run the two waterways carry half each, side by side; where it turns back all goes out by
    one and back by the other. ``valve_kv`` is in m3/h at 1 bar.
    """
    cp, rho = water.heat_capacity_j_per_kg_k, water.density_kg_per_m3
    flow = mass_flow_kg_per_s(output_w, cp, drop_k)
    share = flow if run.turns_back else flow / 2.0
    passed = [*stretches, *_back(stretches)] if run.turns_back else list(stretches)
    drops = drops_of(passed, water, share)
    litres = flow / rho * 60_000.0
    cubic = flow / rho * 3600.0
    valve = 1.0e5 * (cubic / valve_kv) ** 2
    parts = [_part(n, [d for d in drops if d.stretch.part == n]) for n in dict.fromkeys(d.stretch.part for d in drops)]
    total = valve + sum(p.drop_pa for p in parts)
    ways = "all in each, out and back" if run.turns_back else "half in each waterway"
    return RunFlow(
        mass=_figure("flow", f"{output_w:.2f} / ({cp:.2f} x {drop_k:g})", flow, "kg/s", f"Q / (cp dT), {RULE}"),
        volume=_figure("flow by volume", f"{flow:.6f} / {rho:.2f} x 60000", litres, "l/min", "flow over density"),
        each=_figure("flow in a waterway", f"{flow:.6f}" + ("" if run.turns_back else " / 2"), share, "kg/s", ways),
        drops=drops,
        valve=_figure("valve", f"100000 x ({cubic:.5f} / {valve_kv:g})^2", valve, "Pa", "(V / Kv)^2 x 1 bar"),
        drop=_figure(
            "pressure drop of the run",
            " + ".join(f"{v:.2f}" for v in (valve, *(p.drop_pa for p in parts))),
            total,
            "Pa",
            "the valve, then " + ", ".join(p.part for p in parts),
        ),
    )


def mass_flow_kg_per_s(output_w: float, capacity_j_per_kg_k: float, drop_k: float) -> float:
    """Q / (cp dT)."""
    return output_w / (capacity_j_per_kg_k * drop_k)


def _back(stretches: Sequence[Stretch]) -> list[Stretch]:
    """The same stretches in the other order: what opened from a chamber opens to it."""
    return [replace(s, from_chamber=s.to_chamber, to_chamber=s.from_chamber) for s in reversed(stretches)]


def _figure(name: str, formula: str, value: float, unit: str, rule: str) -> Figure:
    return Figure(name=name, formula=formula, value=value, unit=unit, rule=rule)
