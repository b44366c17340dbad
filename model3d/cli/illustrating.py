"""The verb that draws line illustrations for manuals."""

from __future__ import annotations

from dataclasses import replace
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NoReturn

import typer

from model3d.cli.app import app as app
from model3d.cli.reporting import EXIT_BAD_INPUT, EXIT_FOUND, print_findings, print_json
from model3d.cli.theming import ThemeName, theme_of
from model3d.cli.verbs import AsJson, InLanguage, PlanPath

if TYPE_CHECKING:
    from model3d.build.project import Project
    from model3d.illustrations.draw import Format, Kind
    from model3d.illustrations.sheet import Sheet
    from model3d.themes import Theme


class FileForm(StrEnum):
    """The kinds of file an illustration is written as."""

    svg = "svg"
    pdf = "pdf"
    png = "png"


@app.command()
def draw(
    plan: PlanPath,
    view: Annotated[
        str | None, typer.Option("--view", metavar="NAME", help="A viewpoint of the plan; above, plan, or a wall.")
    ] = None,
    part: Annotated[str | None, typer.Option("--part", metavar="ID", help="A piece's mark or a part's id.")] = None,
    step: Annotated[str | None, typer.Option("--step", metavar="N", help="A step of the fitting, by number.")] = None,
    corner: Annotated[str | None, typer.Option("--corner", metavar="ID", help="A corner or a joint.")] = None,
    exploded: Annotated[
        str | None, typer.Option("--exploded", metavar="ID", help="A piece, corner or joint, exploded, with a list.")
    ] = None,
    pair: Annotated[
        str | None, typer.Option("--pair", metavar="NAME", help="Right and wrong: clip-face, push-home, grease, o-ring")
    ] = None,
    out: Annotated[Path | None, typer.Option("--out", metavar="FILE", help="The file to write.")] = None,
    form: Annotated[FileForm | None, typer.Option("--format", help="svg, pdf or png; else as FILE ends.")] = None,
    theme: ThemeName = "colour",
    no_labels: Annotated[bool, typer.Option("--no-labels", help="No words, numbers or marks: for exercises.")] = False,
    language: Annotated[InLanguage, typer.Option("--language", help="Of the words on it.")] = InLanguage.en,
    as_json: AsJson = False,
) -> None:
    """A line drawing with hidden lines removed: a view, part, step or corner, exploded, or right and wrong."""
    asked: dict[Kind, str | None] = {
        "view": view, "part": part, "step": step, "corner": corner, "exploded": exploded, "pair": pair,
    }  # fmt: skip
    given = [(kind, name) for kind, name in asked.items() if name is not None]
    if len(given) != 1:
        _refuse("give one of --view, --part, --step, --corner, --exploded, --pair")
    kind, name = given[0]
    as_form = _form(form, out)
    from model3d.build.project import load

    look = theme_of(theme)
    project = replace(load(plan), language=language.value)
    if project.layout.refused:
        print_findings(project.layout.findings, as_json=False)
        typer.echo("Nothing drawn: the layout cannot be made as it stands.", err=True)
        raise typer.Exit(EXIT_FOUND)
    sheet = _drawn(project, kind, name, look, labels=not no_labels)
    from model3d.illustrations.draw import written

    path = out or Path(f"{kind}-{name.replace('/', '-')}.{as_form}")
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(written(sheet, look, as_form))
    if as_json:
        listed = [{"number": one.number, "name": one.name, "count": one.count} for one in sheet.listed]
        print_json({"file": str(path), "size_mm": list(sheet.size), "title": sheet.title, "parts": listed})
    else:
        typer.echo(f"{path}: {sheet.title}, {sheet.size[0]:g} x {sheet.size[1]:g} mm")


def _drawn(project: Project, kind: Kind, name: str, look: Theme, *, labels: bool) -> Sheet:
    from model3d.build.illustrating import job_of
    from model3d.illustrations.balloons import NoRoomForBalloons
    from model3d.illustrations.callouts import NotSeen
    from model3d.illustrations.draw import illustration
    from model3d.illustrations.subjects.placing import UnknownSubject
    from model3d.pictures.rooms.cameras import NoViewError

    try:
        job = job_of(project, moved=kind == "step", view=name if kind == "view" else None)
        return illustration(job, kind, name, look, labels=labels)
    except (UnknownSubject, NotSeen, NoRoomForBalloons, NoViewError) as reason:
        _refuse(str(reason))


def _form(form: FileForm | None, out: Path | None) -> Format:
    """The kind of file that is asked for, or that the file's name ends in, or SVG."""
    if form is not None:
        return form.value
    if out is None:
        return "svg"
    suffix = out.suffix.lower().lstrip(".")
    if suffix == "pdf":
        return "pdf"
    if suffix == "png":
        return "png"
    if suffix != "svg":
        _refuse(f"{out}: give --format, or a name that ends in .svg, .pdf or .png")
    return "svg"


def _refuse(reason: str) -> NoReturn:
    typer.echo(reason, err=True)
    raise typer.Exit(EXIT_BAD_INPUT)
