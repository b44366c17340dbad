"""How a run's figures came about: its output, its water, the pressure it takes."""

from __future__ import annotations

from model3d.families.family import Family
from model3d.figures import Figure
from model3d.layout import Layout, RunLayout
from model3d.rooms import CheckedPlan
from model3d.water import WaterReport, water_report
from model3d.why.values import Explanation, Line, Section


def explain_run(plan: CheckedPlan, layout: Layout, family: Family, run: RunLayout) -> Explanation:
    """The sums of a run: each piece's output and the whole, flow, what each part takes of the pressure."""
    report = water_report(plan, layout, family)
    own = next(r for r in report.runs if r.run == run.id)
    outputs = [f for o in report.outputs if o.run == run.id for f in (o.arithmetic, o.logarithmic)]
    sections = [
        Section(title="Water and room", lines=_lines((*excess_figures(report), *report.water))),
        Section(title="Output", lines=_lines((*outputs, own.arithmetic, own.logarithmic))),
        Section(title="Content", lines=_lines((own.content,))),
    ]
    if own.flow is not None:
        flow = own.flow
        sections.append(Section(title="Flow", lines=_lines((flow.mass, flow.volume, flow.each))))
        drops = [p.drop for p in flow.parts]
        ends = [f for p in flow.parts if p.part.endswith(" end") for d in flow.drops_of(p.part) for f in d.figures]
        title = "Spigots of the end fittings"
        sections.append(Section(title=title, lines=_lines(tuple(dict.fromkeys(ends)))))
        note = "dryfit why with the mark of a piece or joint gives what it takes stretch by stretch"
        sections.append(Section(title="Pressure", lines=_lines((flow.valve, *drops, flow.drop)), note=note))
    return Explanation(mark=run.id, title=f"Run {run.id}: output", sections=tuple(sections), result=own.logarithmic)


def water_sections(plan: CheckedPlan, report: WaterReport, mark: str) -> tuple[Section, ...]:
    """Output, mass and pressure drop of a piece or a joint."""
    figures = report.figures_of(mark)
    if not figures:
        return ()
    heat = [f for f in figures if f.unit in ("W", "l", "kg")]
    drop = [f for f in figures if f not in heat]
    runs = [r.run for r in report.runs if r.flow is not None and r.flow.drops_of(mark)]
    sections = []
    if any(f.unit == "W" for f in heat):
        heat = [*excess_figures(report), *heat]
    if heat:
        sections.append(Section(title="Heat, water and mass", lines=_lines(tuple(heat))))
    if drop:
        note = f"dryfit why {plan.path.name} {runs[0]} gives the flow and the water's properties" if runs else ""
        sections.append(Section(title="Pressure drop, of one waterway", lines=_lines(tuple(drop)), note=note))
    return tuple(sections)


def excess_figures(report: WaterReport) -> tuple[Figure, ...]:
    """How much warmer the water is than the room."""
    return tuple(f for f in (report.excess.arithmetic, report.excess.logarithmic) if f is not None)


def _lines(figures: tuple[Figure, ...]) -> tuple[Line, ...]:
    return tuple(Line(figure=f) for f in figures)
