"""The verb for moving pictures along checked moves."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from model3d.cli.app import app as app
from model3d.cli.reporting import EXIT_BAD_INPUT, EXIT_FOUND, print_findings, print_json
from model3d.cli.theming import ThemeName, theme_of
from model3d.cli.verbs import AsJson, InLanguage, PlanPath


@app.command()
def animate(
    plan: PlanPath,
    out: Annotated[Path, typer.Option("--out", metavar="FILE", help="The file to write: .webp, .apng or .mp4.")],
    step: Annotated[int | None, typer.Option("--step", metavar="N", help="Only the step of this number.")] = None,
    corner: Annotated[
        str | None, typer.Option("--corner", metavar="CORNER", help="All at one corner, close up.")
    ] = None,
    theme: ThemeName = "colour",
    language: Annotated[InLanguage, typer.Option("--language", help="Of the captions.")] = InLanguage.en,
    as_json: AsJson = False,
) -> None:
    """A moving picture of a step, a corner or the whole assembly, along moves that were checked and go."""
    from model3d.build.project import load
    from model3d.cli.progress import progress

    look = theme_of(theme)
    project = replace(load(plan), language=language.value, look=look)
    if project.layout.refused:
        print_findings(project.layout.findings, as_json=as_json)
        raise typer.Exit(EXIT_FOUND)
    if step is not None and corner is not None:
        raise _refused("--step and --corner do not go together", EXIT_BAD_INPUT)
    from model3d.build.filming import NothingToFilmError, UnprovedError, Wanted, film
    from model3d.pictures.moving.reel import NoVideoError
    from model3d.pictures.opengl import NoOpenGLError

    try:
        with progress("Filming") as tick:
            count = film(project, Wanted(step=step, corner=corner), out, tick=tick)
    except UnprovedError as reason:
        raise _refused(str(reason), EXIT_FOUND) from reason
    except (NothingToFilmError, NoVideoError, NoOpenGLError, ValueError, OSError) as reason:
        raise _refused(str(reason), EXIT_BAD_INPUT) from reason
    if as_json:
        print_json({"file": str(out), "frames": count})
    else:
        typer.echo(f"{out}: {count} frames")


def _refused(why: str, code: int) -> typer.Exit:
    typer.echo(why, err=True)
    return typer.Exit(code)
