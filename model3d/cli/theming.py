"""The theme that a verb's pictures are made with."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from model3d.cli.reporting import EXIT_BAD_INPUT

if TYPE_CHECKING:
    from model3d.themes import Theme

ThemeName = Annotated[str, typer.Option("--theme", metavar="THEME", help="colour, print, or the path of a theme file.")]


def theme_of(name: str) -> Theme:
    """The theme of that name or path. Leaves with exit code 2 when there is none; raises FaultyFile for one that will
    not do.
    """
    from model3d.themes import UnknownTheme, find_theme, read_theme

    try:
        return read_theme(find_theme(name))
    except UnknownTheme as reason:
        typer.echo(str(reason), err=True)
        raise typer.Exit(EXIT_BAD_INPUT) from reason
