"""The verbs about order: the order of fitting, what must come off to get a piece out, which corners are hard."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from model3d.cli.app import app as app
from model3d.cli.reporting import EXIT_BAD_INPUT, EXIT_FOUND, exit_code, print_findings, print_json
from model3d.cli.verbs import AsJson, PlanPath, Strict

if TYPE_CHECKING:
    from model3d.order import Job


@app.command()
def order(plan: PlanPath, as_json: AsJson = False, strict: Strict = False) -> None:
    """The order of fitting, found by taking the finished assembly apart; when it is barred, what would free it."""
    job = _job(plan)
    from model3d.cli.progress import progress
    from model3d.order import order_data, order_findings, order_text, seek_and_free

    with progress("Taking apart") as tick:
        sought = seek_and_free(job, tick=tick)
    if as_json:
        print_json(order_data(job, sought))
    else:
        typer.echo(order_text(job, sought))
    code = exit_code(order_findings(job, sought), strict=strict)
    if code:
        raise typer.Exit(code)


@app.command()
def remove(
    plan: PlanPath,
    mark: Annotated[str, typer.Argument(metavar="MARK", help="A piece, such as A-2.")],
    as_json: AsJson = False,
) -> None:
    """What must come off, at least, to get one piece out once all is fitted, and by which moves."""
    job = _job(plan)
    from model3d.cli.progress import progress
    from model3d.order import remove as removal
    from model3d.order import removed_data, removed_text

    marks = [p.mark for p in job.layout.pieces]
    if mark not in marks:
        typer.echo(f"no piece {mark}: the pieces are {', '.join(marks)}", err=True)
        raise typer.Exit(EXIT_BAD_INPUT)
    with progress("Taking apart") as tick:
        found = removal(job, mark, tick=tick)
    if as_json:
        print_json(removed_data(job, found))
    else:
        typer.echo(removed_text(job, found))
    if found.trapped:
        raise typer.Exit(EXIT_FOUND)


@app.command()
def corners(plan: PlanPath, as_json: AsJson = False) -> None:
    """How hard each corner is, hardest first, and each step: 1 to 5 in plain words, with the reasons."""
    job = _job(plan)
    from model3d.cli.progress import progress
    from model3d.order import rate, rating_data, rating_text, seek

    with progress("Rating") as tick:
        rating = rate(job, seek(job, tick=tick), tick=tick)
    if as_json:
        print_json(rating_data(rating))
    else:
        typer.echo(rating_text(rating))


def _job(path: Path) -> Job:
    """What an order is sought for. Raises typer.Exit when the layout cannot be made."""
    from model3d.build.project import load

    project = load(path)
    if project.layout.refused:
        print_findings(project.layout.findings, as_json=False)
        typer.echo("No order: the layout cannot be made as it stands.", err=True)
        raise typer.Exit(EXIT_FOUND)
    return project.job
