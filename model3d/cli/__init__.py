"""The command line, ``dryfit``: reads the arguments, calls the layer that does the work, prints what it says.

Only this layer prints. Verbs import what they need when they run, so that ``--help`` and the verbs that need
numbers only load neither the CAD kernel nor the renderer.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from typer import Typer

# The modules that hang their verbs on the application.
VERBS = ("explaining", "picturing", "ordering", "animating", "illustrating")


def application() -> Typer:
    """The application with every verb hung on it."""
    from importlib import import_module

    from model3d.cli.app import app

    for group in VERBS:
        import_module(f"model3d.cli.{group}")
    return app


def main() -> None:
    """Run ``dryfit`` on the process's arguments and leave with its exit code."""
    import io
    import sys
    import traceback

    from model3d.cli.reporting import EXIT_OWN_FAULT

    app = application()
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):  # a console without some character must not end a verb
            stream.reconfigure(errors="replace")
    try:
        app()
    except Exception as reason:
        traceback.print_exc()
        raise SystemExit(EXIT_OWN_FAULT) from reason
