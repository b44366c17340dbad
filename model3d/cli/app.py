"""The ``dryfit`` application that the verbs are hung on, and what holds for every verb.

Exit codes: 0 all well; 1 errors found (with ``--strict`` warnings and notes too); 2 bad input or bad usage;
3 a fault of dryfit itself, with its traceback.
"""

from __future__ import annotations

from typing import Annotated, Any

import typer
from typer.core import TyperGroup

from model3d import __version__
from model3d.cli.reporting import EXIT_BAD_INPUT, print_faults


class FaultsLeaveWithTwo(TyperGroup):
    """The group of verbs: a faulty file that a verb meets has its faults printed and the exit code 2."""

    def invoke(self, ctx: Any) -> Any:
        """Run the verb that the arguments name. Raises typer.Exit(2) when it raises FaultyFile."""
        try:
            return super().invoke(ctx)
        except Exception as reason:
            from model3d.sources.faults import FaultyFile  # here, since it brings what reads files with it

            if not isinstance(reason, FaultyFile):
                raise
            print_faults(reason.faults)
            raise typer.Exit(EXIT_BAD_INPUT) from reason


app = typer.Typer(
    name="dryfit",
    cls=FaultsLeaveWithTwo,
    help="Dry-fit heated skirting in 3D before any metal is cut.",
    epilog="Exit codes: 0 all well, 1 errors found (--strict: anything found), 2 bad input, 3 a fault of its own.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)


def _show_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"dryfit {__version__}")
        raise typer.Exit


@app.callback()
def every_verb(
    version: Annotated[
        bool,
        typer.Option("--version", help="Print the version and leave.", callback=_show_version, is_eager=True),
    ] = False,
) -> None:
    """Dry-fit heated skirting in 3D before any metal is cut."""
