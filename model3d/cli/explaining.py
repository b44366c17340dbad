"""The verbs that explain: why a figure is what it is, the figures of a plan, what differs between two plans."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass, field
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from model3d.cli.app import app as app
from model3d.cli.reporting import EXIT_BAD_INPUT, exit_code, print_findings, print_json
from model3d.cli.verbs import AsJson, InUnits, LengthUnit, PlanPath, Strict
from model3d.figures import FigureGroup, Units, in_units

if TYPE_CHECKING:
    from model3d.build.project import Project
    from model3d.findings import Finding


class Subject(StrEnum):
    """What figures can be asked for."""

    survey = "survey"
    brackets = "brackets"
    thermal = "thermal"
    seals = "seals"
    water = "water"
    nesting = "nesting"
    as_cut = "as-cut"


@app.command()
def why(
    plan: PlanPath,
    mark: Annotated[str, typer.Argument(metavar="MARK", help="A piece, joint or run, such as A-1, A-J1 or A.")],
    units: InUnits = LengthUnit.mm,
    as_json: AsJson = False,
) -> None:
    """How each figure of a piece, a joint or a run came about, term by term, to be done again with a pencil."""
    from model3d.build.project import load
    from model3d.why import UnknownMark, explain, explanation_data, explanation_text

    project = load(plan)
    try:
        explanation = explain(project.plan, project.layout, project.family, mark)
    except UnknownMark as reason:
        typer.echo(str(reason.args[0] if reason.args else reason), err=True)
        raise typer.Exit(EXIT_BAD_INPUT) from reason
    if as_json:
        print_json(explanation_data(explanation))
    else:
        typer.echo(explanation_text(explanation, units.value))


@app.command()
def figures(
    plan: PlanPath,
    subject: Annotated[Subject, typer.Argument(metavar="SUBJECT", help=f"{', '.join(Subject)}.")],
    of: Annotated[str, typer.Option("--of", metavar="MARK", help="Only those of this piece, joint or run.")] = "",
    units: InUnits = LengthUnit.mm,
    as_json: AsJson = False,
    strict: Strict = False,
) -> None:
    """The figures of a plan on one subject, each with the sum behind it."""
    from model3d.build.project import load
    from model3d.cli.figures_text import groups_data, groups_text, only_of

    said = _SUBJECTS[subject](load(plan), "mm" if as_json else units.value)
    groups = said.groups
    if of:
        try:
            groups = only_of(groups, of)
        except LookupError as reason:
            typer.echo(str(reason.args[0]), err=True)
            raise typer.Exit(EXIT_BAD_INPUT) from reason
    if as_json:
        print_json({"figures": groups_data(groups), **said.data, "findings": [asdict(f) for f in said.findings]})
    else:
        typer.echo(said.text or groups_text(groups, units.value))
        if said.findings:
            typer.echo()
            print_findings(said.findings, as_json=False, units=units.value)
    code = exit_code(said.findings, strict=strict)
    if code:
        raise typer.Exit(code)


@app.command()
def changed(
    old: Annotated[Path, typer.Argument(metavar="OLD", help="The plan as it was.")],
    new: Annotated[Path, typer.Argument(metavar="NEW", help="The plan as it is now.")],
    units: InUnits = LengthUnit.mm,
    as_json: AsJson = False,
) -> None:
    """Which pieces, marks and steps differ between two plans."""
    from model3d.build.project import load
    from model3d.changes import Stand, changes_data, changes_text
    from model3d.changes import changed as compared

    before, after = load(old), load(new)
    changes = compared(Stand(layout=before.layout, steps=before.steps), Stand(layout=after.layout, steps=after.steps))
    if as_json:
        print_json(changes_data(changes))
    else:
        typer.echo(in_units(changes_text(changes), units.value))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Said:
    """What is to be said of a subject: figures in groups, or a text of its own; further data; findings."""

    groups: tuple[FigureGroup, ...] = ()
    text: str = ""
    data: Mapping[str, Any] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()


def _survey(project: Project, units: Units) -> _Said:
    from model3d.survey import survey_data, survey_text

    report = project.plan.survey
    if report is None:
        text = "The plan has no survey: its room is given by corners or by walls that close."
        return _Said(text=text, data={"survey": None})
    names = tuple(w.id for w in project.plan.room.outer.walls)
    said = tuple(f for f in project.layout.findings if f.where == "survey" or f.code == "elbow-unsure")
    data = {"survey": survey_data(report)}
    return _Said(text=in_units(survey_text(report, names), units), data=data, findings=said)


def _brackets(project: Project, units: Units) -> _Said:
    from model3d.cli.marks_text import marks_text
    from model3d.layout import cable_cautions
    from model3d.layout.surfaces_text import surfaces_text

    layout = project.layout
    if layout.refused:
        return _refused(project)
    texts = (marks_text(layout, units), surfaces_text(layout, units))
    names = ("spots", "on_walls", "over_floor")
    data = {name: [asdict(value) for value in getattr(layout, name)] for name in names}
    said = tuple(f for f in layout.findings if f.code in _OF_BRACKETS)
    return _Said(text="\n\n".join(t for t in texts if t), data=data, findings=(*said, *cable_cautions(layout)))


def _thermal(project: Project, units: Units) -> _Said:
    from model3d.thermal import thermal_groups, thermal_report

    if project.layout.refused:
        return _refused(project)
    report = thermal_report(project.plan, project.layout, project.family)
    known = tuple(f for f in project.layout.findings if f.code in ("as-cut", "as-cut-wrong"))
    found = tuple(f for f in report.findings if (f.code, f.parts) not in project.said)
    return _Said(groups=thermal_groups(report), findings=known + found)


def _seals(project: Project, units: Units) -> _Said:
    from model3d.seals import seal_groups, seal_report

    report = seal_report(project.family)
    return _Said(groups=seal_groups(report), findings=report.findings)


def _water(project: Project, units: Units) -> _Said:
    from model3d.water import water_groups, water_report

    if project.layout.refused:
        return _refused(project)
    report = water_report(project.plan, project.layout, project.family)
    return _Said(groups=water_groups(report), findings=report.findings)


def _nesting(project: Project, units: Units) -> _Said:
    from model3d.cli.figures_text import nesting_groups
    from model3d.nesting import nest

    if project.layout.refused:
        return _refused(project)
    report = nest(project.layout, project.family, project.plan.cutting)
    data = {"sections": asdict(report)["sections"]}
    return _Said(groups=nesting_groups(report, project.plan.cutting, units), data=data, findings=report.findings)


def _as_cut(project: Project, units: Units) -> _Said:
    from model3d.as_cut import cut_text

    if project.layout.refused:
        return _refused(project)
    found = tuple(f for f in project.layout.findings if f.code in _OF_CUTS)
    text = cut_text(project.cuts, units) or "The plan gives no lengths as cut: 'as_cut: {MARK: length}' does."
    return _Said(text=text, data={"pieces": [asdict(p) for p in project.cuts]}, findings=found)


def _refused(project: Project) -> _Said:
    text = "There are no such figures: the layout cannot be made as it stands."
    return _Said(text=text, findings=project.layout.findings)


_OF_BRACKETS = (
    "bracket-barred",
    "bracket-off-stud",
    "bracket-off-end",
    "wall-bowed",
    "piece-bent",
    "packers-thick",
    "floor-uneven",
    "floor-gap",
    "floor-not-read",
)
_OF_CUTS = ("as-cut", "as-cut-wrong", "unknown-mark", "fitted-out-of-order")
_SUBJECTS: Mapping[Subject, Callable[[Project, Units], _Said]] = {
    Subject.survey: _survey,
    Subject.brackets: _brackets,
    Subject.thermal: _thermal,
    Subject.seals: _seals,
    Subject.water: _water,
    Subject.nesting: _nesting,
    Subject.as_cut: _as_cut,
}
