"""The verb that takes pictures for the customer: the finished room, the room before, pairs side by side."""

from __future__ import annotations

import re
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from model3d.cli.app import app as app
from model3d.cli.reporting import EXIT_BAD_INPUT, EXIT_FOUND, print_findings, print_json
from model3d.cli.verbs import AsJson, PlanPath

if TYPE_CHECKING:
    from model3d.build.project import Project
    from model3d.pictures.raytrace.view import Settings

LEAST_PX, MOST_PX = 64, 8000


class Quality(StrEnum):
    """How much work a picture gets."""

    draft = "draft"
    normal = "normal"
    fine = "fine"


class Tongue(StrEnum):
    """The languages of captions."""

    en = "en"
    de = "de"


@app.command()
def picture(
    plan: PlanPath,
    view: Annotated[
        str, typer.Option("--view", metavar="NAME", help="A viewpoint of the plan; above, corner; a wall or a corner.")
    ] = "above",
    out: Annotated[Path | None, typer.Option("--out", metavar="FILE", help="The file to write: .png or .webp.")] = None,
    size: Annotated[str, typer.Option("--size", metavar="WxH", help="Pixels across and down.")] = "1600x1000",
    quality: Annotated[Quality, typer.Option("--quality", help="draft, normal or fine.")] = Quality.normal,
    before: Annotated[bool, typer.Option("--before", help="The room as it was.")] = False,
    beside: Annotated[
        str | None, typer.Option("--beside", metavar="WHAT", help="Side by side with 'before', or with another family.")
    ] = None,
    language: Annotated[Tongue, typer.Option("--language", help="Language of the captions.")] = Tongue.en,
    views: Annotated[bool, typer.Option("--list", help="Print the names of the views, and take no picture.")] = False,
    as_json: AsJson = False,
) -> None:
    """The room for the customer, ray-traced from a named viewpoint; no graphics driver needed."""
    from model3d.build.project import load

    project = load(plan)
    if views:
        _list_views(project, as_json)
        return
    if project.layout.refused:
        print_findings(project.layout.findings, as_json=as_json)
        raise typer.Exit(EXIT_FOUND)
    if out is None:
        raise _refused("give --out FILE, or --list for the names of the views")
    size_px = _size(size)
    if out.suffix.lower() not in (".png", ".webp"):
        raise _refused(f"a picture is written as .png or .webp, not as '{out.name}'")
    if before and beside is not None:
        raise _refused("--before and --beside do not go together: --beside before shows both")
    _write(project, view, size_px, quality, language, before=before, beside=beside, out=out, as_json=as_json)


def _refused(why: str) -> typer.Exit:
    typer.echo(why, err=True)
    return typer.Exit(EXIT_BAD_INPUT)


def _size(text: str) -> tuple[int, int]:
    found = re.fullmatch(r"(\d{1,5})[x×](\d{1,5})", text.strip())
    sides = (int(found[1]), int(found[2])) if found else (0, 0)
    if not all(LEAST_PX <= side <= MOST_PX for side in sides):
        raise _refused(f"'{text}' is no size: pixels across and down, {LEAST_PX} to {MOST_PX} each, such as 1600x1000")
    return sides


def _settings(quality: Quality) -> Settings:
    from model3d.pictures.raytrace.view import DRAFT, FINE, Settings

    return {Quality.draft: DRAFT, Quality.normal: Settings(), Quality.fine: FINE}[quality]


def _other_family(project: Project, name: str) -> Project:
    from model3d.build.customer import with_family
    from model3d.families.reading import UnknownFamily

    try:
        other = with_family(project, name)
    except (UnknownFamily, LookupError) as reason:
        raise _refused(str(reason.args[0] if reason.args else reason)) from reason
    if other.layout.refused:
        print_findings(other.layout.findings, as_json=False)
        raise typer.Exit(EXIT_FOUND)
    return other


def _write(
    project: Project,
    view: str,
    size_px: tuple[int, int],
    quality: Quality,
    language: Tongue,
    *,
    before: bool,
    beside: str | None,
    out: Path,
    as_json: bool,
) -> None:
    """Take the picture, write it, and say what was written."""
    from model3d.build.customer import BEFORE, customer_picture
    from model3d.pictures.rooms.cameras import NoViewError
    from model3d.pictures.rooms.files import write_picture
    from model3d.wording import catalogue

    other = None if beside in (None, BEFORE) else _other_family(project, str(beside))
    try:
        made = customer_picture(
            project,
            view,
            size_px=size_px,
            settings=_settings(quality),
            before=before,
            beside=other,
            pair=beside == BEFORE,
            words=catalogue(language.value),
        )
    except NoViewError as reason:
        raise _refused(str(reason)) from reason
    write_picture(made.picture, out)
    high, wide = made.picture.shape[:2]
    if as_json:
        said = {"written": str(out), "view": view, "size_px": [wide, high], "run_seen": round(made.run_seen, 3)}
        print_json({**said, "left_out": list(made.left_out)})
        return
    typer.echo(f"Wrote {out}: {wide} by {high} pixels, {100 * made.run_seen:.0f} % of the run's face in sight.")
    if made.left_out:
        typer.echo(f"Left out, since the run would be hidden: {', '.join(made.left_out)}.")


def _list_views(project: Project, as_json: bool) -> None:
    from model3d.pictures.rooms.cameras import view_names

    own = {v.id for v in project.plan.viewpoints}
    names = view_names(project.plan)
    if as_json:
        listed: list[dict[str, Any]] = [{"view": name, "of_the_plan": name in own} for name in names]
        print_json({"views": listed})
        return
    for name in names:
        typer.echo(f"{name}  (of the plan)" if name in own else name)
