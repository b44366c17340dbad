"""The water report of a layout: heat, flow, pressure, content, mass, touch, and what is wrong with them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from model3d.families.family import Family
from model3d.figures import Figure
from model3d.findings import Finding
from model3d.layout import Layout, RunLayout
from model3d.rooms import CheckedPlan
from model3d.water.content import PieceMass, piece_mass, run_content
from model3d.water.fluid import Water, water_at
from model3d.water.output import Excess, PieceOutput, excess_of, outputs_of
from model3d.water.run_flow import RunFlow, run_flow
from model3d.water.touch import Touch, touch_findings, touch_of
from model3d.water.waterway import waterway

MOST_VELOCITY_M_PER_S = 1.0
MOST_GRADIENT_PA_PER_M = 300.0
"""Small-bore heating: CIBSE Guide B, 1986."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RunWater:
    """One run: its output at either mean, the water it holds, and its flow, None when it gives no heat."""

    run: str
    arithmetic: Figure
    logarithmic: Figure
    content: Figure
    flow: RunFlow | None

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Its figures in order."""
        return (self.arithmetic, self.logarithmic, self.content) + (self.flow.figures if self.flow else ())


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterReport:
    """All that the water does. ``balance`` is output less heat loss, None when the plan gives no loss; ``water`` are
    the properties that the sums take, at its mean temperature.
    """

    excess: Excess
    outputs: tuple[PieceOutput, ...]
    masses: tuple[PieceMass, ...]
    runs: tuple[RunWater, ...]
    output: Figure
    balance: Figure | None
    touch: Touch
    water: tuple[Figure, ...]
    findings: tuple[Finding, ...]

    def figures_of(self, mark: str) -> tuple[Figure, ...]:
        """Every figure that belongs to a piece, a joint or a run."""
        of_pieces = tuple(f for o in self.outputs if o.mark == mark for f in o.figures)
        of_pieces += tuple(f for m in self.masses if m.mark == mark for f in m.figures)
        flows = [r.flow for r in self.runs if r.flow is not None]
        drops = tuple(f for flow in flows for d in flow.drops_of(mark) for f in d.figures)
        whole = tuple(p.drop for flow in flows for p in flow.parts if p.part == mark)
        of_runs = tuple(f for r in self.runs if r.run == mark for f in r.figures)
        return tuple(dict.fromkeys(of_pieces + drops + whole + of_runs))


def water_report(plan: CheckedPlan, layout: Layout, family: Family) -> WaterReport:
    """Output, flow, pressure drop by part, content, mass and touch. The layout is one that was not
    refused.
    """
    temperatures = plan.temperatures
    excess = excess_of(temperatures, plan.heat)
    outputs = outputs_of(family, excess, layout.pieces)
    water = water_at(temperatures.mean_c)
    runs = tuple(_run(plan, family, run, outputs, water) for run in layout.runs)
    total = _sum("output of the room", [r.logarithmic for r in runs])
    balance = _balance(total, plan.heat.loss_w)
    touch = touch_of(temperatures)
    findings = (
        *_too_cool(excess),
        *_too_little(total, plan.heat.loss_w),
        *touch_findings(plan.heat, touch),
        *(f for run in runs for f in _flow_faults(run)),
    )
    return WaterReport(
        excess=excess,
        outputs=outputs,
        masses=tuple(piece_mass(family, p, water.density_kg_per_m3) for p in layout.pieces),
        runs=runs,
        output=total,
        balance=balance,
        touch=touch,
        water=water.figures,
        findings=findings,
    )


def _run(plan: CheckedPlan, family: Family, run: RunLayout, outputs: Sequence[PieceOutput], water: Water) -> RunWater:
    own = [o for o in outputs if o.run == run.id]
    logarithmic = _sum(f"output of run {run.id}, logarithmic mean", [o.logarithmic for o in own])
    stretches = waterway(family, run)
    t = plan.temperatures
    flow = None
    if logarithmic.value > 0.0:
        flow = run_flow(
            run,
            stretches,
            water,
            output_w=logarithmic.value,
            drop_k=t.flow_c - t.return_c,
            valve_kv=plan.heat.valve_kv_m3_per_h,
        )
    return RunWater(
        run=run.id,
        arithmetic=_sum(f"output of run {run.id}, arithmetic mean", [o.arithmetic for o in own]),
        logarithmic=logarithmic,
        content=run_content(run.id, stretches),
        flow=flow,
    )


def _sum(name: str, figures: Sequence[Figure]) -> Figure:
    text = " + ".join(f"{f.value:.2f}" for f in figures) or "0"
    return Figure(name=name, formula=text, value=sum(f.value for f in figures), unit="W", rule="sum")


def _balance(total: Figure, loss_w: float | None) -> Figure | None:
    if loss_w is None:
        return None
    return Figure(
        name="output less heat loss",
        formula=f"{total.value:.2f} - {loss_w:g}",
        value=total.value - loss_w,
        unit="W",
        rule="by the logarithmic mean",
    )


def _too_cool(excess: Excess) -> Iterator[Finding]:
    if excess.logarithmic is not None:
        return
    yield Finding(
        code="water-no-warmer",
        severity="warning",
        where="the whole room",
        message="the water comes back no warmer than the room",
        remedy="Check the room's temperature and the water's; outputs are by the arithmetic mean.",
        measured=excess.arithmetic.value,
        limit=0.0,
        unit="K",
    )


def _too_little(total: Figure, loss_w: float | None) -> Iterator[Finding]:
    if loss_w is None or total.value >= loss_w:
        return
    yield Finding(
        code="heat-too-little",
        severity="warning",
        where="the whole room",
        message=f"the runs give {total.value:.0f} W of the {loss_w:.0f} W lost",
        remedy="Lengthen a run, warm the flow, or add other heating.",
        measured=total.value,
        limit=loss_w,
        unit="W",
    )


def _flow_faults(run: RunWater) -> Iterator[Finding]:
    """The fastest stretch past 1 m/s, and the steepest bore past 300 Pa/m, each once a run."""
    if run.flow is None:
        return
    fastest = max(run.flow.drops, key=lambda d: d.velocity.value)
    if fastest.velocity.value > MOST_VELOCITY_M_PER_S:
        yield Finding(
            code="water-too-fast",
            severity="warning",
            where=f"run {run.run}, {fastest.stretch.part}, {fastest.stretch.what}",
            message=f"the water flows at {fastest.velocity.value:.2f} m/s: at most {MOST_VELOCITY_M_PER_S:g}",
            remedy="Let the water cool by more on its way, or divide the run in two.",
            parts=(fastest.stretch.part,),
            measured=fastest.velocity.value,
            limit=MOST_VELOCITY_M_PER_S,
            unit="m/s",
        )
    steep = max((d for d in run.flow.drops if d.stretch.what == "bore"), key=lambda d: d.gradient_pa_per_m)
    if steep.gradient_pa_per_m > MOST_GRADIENT_PA_PER_M:
        yield Finding(
            code="pressure-too-steep",
            severity="warning",
            where=f"run {run.run}, {steep.stretch.part}",
            message=f"its bore takes {steep.gradient_pa_per_m:.0f} Pa/m: at most {MOST_GRADIENT_PA_PER_M:g}",
            remedy="Let the water cool by more on its way, or divide the run in two.",
            parts=(steep.stretch.part,),
            measured=steep.gradient_pa_per_m,
            limit=MOST_GRADIENT_PA_PER_M,
            unit="Pa/m",
        )
