"""The verbs. Each imports what it needs when it runs."""

from __future__ import annotations

from dataclasses import replace
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from model3d.cli.app import app as app
from model3d.cli.reporting import (
    EXIT_BAD_INPUT,
    EXIT_FOUND,
    exit_code,
    print_findings,
    print_json,
    print_written,
    report,
)
from model3d.cli.theming import ThemeName, theme_of

if TYPE_CHECKING:
    from model3d.build.project import Project

PlanPath = Annotated[Path, typer.Argument(metavar="PLAN", help="A run plan (YAML).")]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON.")]
Strict = Annotated[bool, typer.Option("--strict", help="Exit with 1 on warnings and notes too.")]


class LengthUnit(StrEnum):
    """The units that lengths are shown in; JSON is in millimetres always."""

    mm = "mm"
    feet = "ft-in"


InUnits = Annotated[LengthUnit, typer.Option("--units", help="Lengths in millimetres, or in feet and inches.")]


class SchemaOf(StrEnum):
    """What a schema can be asked for."""

    plan = "plan"
    family = "family"
    theme = "theme"
    layout = "layout"
    findings = "findings"


class InLanguage(StrEnum):
    """The languages that words on pictures are written in."""

    en = "en"
    de = "de"


class Output(StrEnum):
    """The kinds of file a build writes."""

    step = "step"
    stl = "stl"
    room = "room"
    steps = "steps"
    bench = "bench"
    corners = "corners"
    plan = "plan"
    layout = "layout"


@app.command()
def new(
    path: Annotated[Path, typer.Argument(metavar="FILE", help="Where to write the plan.")] = Path("plan.yaml"),
    force: Annotated[bool, typer.Option("--force", help="Replace a file that is there.")] = False,
) -> None:
    """Write a commented starter plan that builds as it stands."""
    from model3d.plans.starter import starter_plan

    if path.exists() and not force:
        typer.echo(f"{path} is there already: give another name, or --force to replace it", err=True)
        raise typer.Exit(EXIT_BAD_INPUT)
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(starter_plan(), encoding="utf-8", newline="\n")
    typer.echo(f"Wrote {path}. Next: dryfit layout {path}")


@app.command()
def schema(of: Annotated[SchemaOf, typer.Argument(help="Whose JSON Schema to print.")]) -> None:
    """Print a JSON Schema, generated from the code."""
    from model3d.build.schemas import schema_of

    print_json(schema_of(of.value))


@app.command()
def layout(
    plan: PlanPath, units: InUnits = LengthUnit.mm, as_json: AsJson = False, strict: Strict = False
) -> None:
    """Pieces, cut lengths, joints, clip faces and brackets, in order from the valve."""
    from model3d.build.project import load

    project = load(plan)
    laid = project.layout
    if as_json:
        from model3d.layout import layout_data

        print_json(layout_data(laid))
    else:
        from model3d.cli.layout_text import layout_text

        typer.echo(layout_text(laid, units.value))
        if project.cuts:
            from model3d.as_cut import cut_text

            typer.echo(f"\nAs cut:\n{cut_text(project.cuts, units.value)}")
        if laid.findings:
            typer.echo()
            print_findings(laid.findings, as_json=False, units=units.value)
    code = exit_code(laid.findings, strict=strict)
    if code:
        raise typer.Exit(code)


@app.command()
def check(
    plan: PlanPath, units: InUnits = LengthUnit.mm, as_json: AsJson = False, strict: Strict = False
) -> None:
    """Growth, seals and water; clashes, solids that do not confirm the layout, and moves that are blocked."""
    from model3d.build.checking import check_project
    from model3d.build.project import load
    from model3d.cli.progress import progress

    with progress("Checking") as tick:
        findings = check_project(load(plan), tick=tick)
    report(findings, as_json=as_json, strict=strict, units=units.value)


@app.command()
def build(
    plan: PlanPath,
    out: Annotated[Path, typer.Option("--out", metavar="DIR", help="The folder to make.")],
    only: Annotated[
        list[Output] | None, typer.Option("--only", help="Only this kind of file; can be given again.")
    ] = None,
    language: Annotated[InLanguage, typer.Option("--language", help="Of the words on pictures.")] = InLanguage.en,
    theme: ThemeName = "colour",
) -> None:
    """Solids, STEP and STL files, the room and step pictures, the dimensioned plan and layout.json."""
    from model3d.build.folder import FolderError
    from model3d.build.outputs import BuildError, build_outputs
    from model3d.build.project import load
    from model3d.cli.progress import progress

    look = theme_of(theme)
    project = replace(load(plan), language=language.value, look=look)
    if project.layout.refused:
        print_findings(project.layout.findings, as_json=False)
        typer.echo("Nothing built: the layout cannot be made as it stands.", err=True)
        raise typer.Exit(EXIT_FOUND)
    try:
        with progress("Building") as tick:
            written = build_outputs(project, out, only=frozenset(o.value for o in only or Output), tick=tick)
    except (FolderError, BuildError) as reason:
        typer.echo(str(reason), err=True)
        raise typer.Exit(EXIT_BAD_INPUT) from reason
    print_written(out, written)
    _print_of_the_order(project, written)
    if project.layout.findings:
        print_findings(project.layout.findings, as_json=False)
        code = exit_code(project.layout.findings, strict=False)
        if code:
            raise typer.Exit(code)


def _print_of_the_order(project: Project, written: tuple[str, ...]) -> None:
    """Say of the step pictures when their order is not the usual one, and which steps do not go though they are drawn.
    """
    if not any(name.startswith("steps/") for name in written):
        return
    if project.fitting.findings:
        print_findings(project.fitting.findings, as_json=False)
    if project.fitting.blocked:
        numbers = ", ".join(map(str, project.fitting.blocked))
        word = "step" if len(project.fitting.blocked) == 1 else "steps"
        typer.echo(f"Drawn, but blocked: {word} {numbers}. See dryfit check for what stops it.", err=True)
