"""The verbs that explain: why a figure is what it is, the figures of a plan, what differs between two plans."""

from __future__ import annotations

from dataclasses import asdict
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from model3d.cli.app import app as app
from model3d.cli.reporting import EXIT_BAD_INPUT, exit_code, print_findings, print_json
from model3d.cli.verbs import AsJson, PlanPath, Strict

if TYPE_CHECKING:
    from model3d.build.project import Project
    from model3d.findings import Finding


class Subject(StrEnum):
    """What figures can be asked for."""

    survey = "survey"
    thermal = "thermal"
    seals = "seals"
    water = "water"
    nesting = "nesting"


class LengthUnit(StrEnum):
    """The units lengths are shown in."""

    mm = "mm"
    feet = "ft-in"


@app.command()
def why(
    plan: PlanPath,
    mark: Annotated[str, typer.Argument(metavar="MARK", help="A piece or joint, such as A-1 or A-J1.")],
    units: Annotated[LengthUnit, typer.Option("--units", help="Millimetres, or feet and inches.")] = LengthUnit.mm,
    as_json: AsJson = False,
) -> None:
    """How one piece's cut length came about, term by term, to be done again with a pencil."""
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
        typer.echo(explanation_text(explanation, "mm" if units is LengthUnit.mm else "ft-in"))


@app.command()
def figures(
    plan: PlanPath,
    subject: Annotated[Subject, typer.Argument(metavar="SUBJECT", help="survey, thermal, seals, water or nesting.")],
    as_json: AsJson = False,
    strict: Strict = False,
) -> None:
    """The figures of a plan on one subject, each with the sum behind it: survey, thermal, seals, water, nesting."""
    from model3d.build.project import load

    findings, text, data = _SUBJECTS[subject](load(plan))
    if as_json:
        print_json({"figures": data, "findings": [asdict(f) for f in findings]})
    else:
        typer.echo(text)
        if findings:
            typer.echo()
            print_findings(findings, as_json=False)
    code = exit_code(findings, strict=strict)
    if code:
        raise typer.Exit(code)


@app.command()
def changed(
    old: Annotated[Path, typer.Argument(metavar="OLD", help="The plan as it was.")],
    new: Annotated[Path, typer.Argument(metavar="NEW", help="The plan as it is now.")],
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
        typer.echo(changes_text(changes))


Said = tuple[tuple["Finding", ...], str, Any]


def _survey(project: Project) -> Said:
    from model3d.survey import survey_data, survey_text

    report = project.plan.survey
    if report is None:
        return (), "The plan has no survey: its room is given by corners or by walls that close.", None
    names = tuple(w.id for w in project.plan.room.outer.walls)
    return (), survey_text(report, names), survey_data(report)


def _thermal(project: Project) -> Said:
    from model3d.thermal import thermal_report

    return _listed(thermal_report(project.plan, project.layout, project.family))


def _seals(project: Project) -> Said:
    from model3d.seals import seal_report

    return _listed(seal_report(project.family))


def _water(project: Project) -> Said:
    from model3d.water import water_report

    return _listed(water_report(project.plan, project.layout, project.family))


def _nesting(project: Project) -> Said:
    from model3d.cli.figures_text import bars_text
    from model3d.nesting import nest

    report = nest(project.layout, project.family, project.plan.cutting)
    findings, text, data = _listed(report)
    return findings, f"{bars_text(report)}\n\n{text}", {"figures": data, "sections": asdict(report)["sections"]}


def _listed(report: Any) -> Said:
    from model3d.cli.figures_text import figures_data, figures_text

    return report.findings, figures_text(report), figures_data(report)


_SUBJECTS = {
    Subject.survey: _survey,
    Subject.thermal: _thermal,
    Subject.seals: _seals,
    Subject.water: _water,
    Subject.nesting: _nesting,
}
