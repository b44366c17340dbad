"""How verbs report: findings as a table or as JSON, faults on the error stream, and the exit code."""

from __future__ import annotations

import json
import sys
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

import typer

from model3d.figures import Units, feet_inches, in_units

if TYPE_CHECKING:
    from pathlib import Path

    from rich.table import Table

    from model3d.findings import Finding
    from model3d.sources.faults import Fault

EXIT_FOUND = 1
EXIT_BAD_INPUT = 2
EXIT_OWN_FAULT = 3

_WORST_FIRST = ("error", "warning", "note")
_COLOURS = {"error": "bold red", "warning": "yellow", "note": "cyan"}
_PIPED_WIDTH = 110


def exit_code(findings: Iterable[Finding], *, strict: bool) -> int:
    """1 when there is an error among the findings, or with ``strict`` anything at all; else 0."""
    return EXIT_FOUND if any(strict or f.severity == "error" for f in findings) else 0


def worst_first(findings: Iterable[Finding]) -> list[Finding]:
    """The findings with errors first, then warnings, then notes; otherwise in the order given."""
    return sorted(findings, key=lambda f: _WORST_FIRST.index(f.severity))


def print_json(value: Any) -> None:
    """Print plain data as JSON on the standard output, ASCII only.

    Raises ValueError for a number that is not finite.
    """
    typer.echo(json.dumps(value, indent=2, allow_nan=False))


def print_findings(findings: Iterable[Finding], *, as_json: bool, units: Units = "mm") -> None:
    """Print findings, worst first, on the standard output: ``{"findings": [...]}`` in millimetres, or a table in the
    units asked for and a count.
    """
    ordered = worst_first(findings)
    if as_json:
        print_json({"findings": [asdict(f) for f in ordered]})
        return
    if ordered:
        from rich.console import Console

        Console(width=None if sys.stdout.isatty() else _PIPED_WIDTH).print(_table(ordered, units))
    typer.echo(_count(ordered))


def report(findings: Sequence[Finding], *, as_json: bool, strict: bool, units: Units = "mm") -> None:
    """Print the findings, then leave with their exit code. Raises typer.Exit when that is not 0."""
    print_findings(findings, as_json=as_json, units=units)
    code = exit_code(findings, strict=strict)
    if code:
        raise typer.Exit(code)


def print_faults(faults: Iterable[Fault]) -> None:
    """Print each fault of a file on the error stream, one a line: ``file:line:column: key: message``."""
    for fault in faults:
        typer.echo(str(fault), err=True)


def print_written(out: Path, names: Sequence[str]) -> None:
    """Print what a build wrote: each file at the top of its folder, and of each folder in it how many files."""
    folders = Counter(name.split("/")[0] for name in names if "/" in name)
    shown = sorted([name for name in names if "/" not in name] + [f"{name}/" for name in folders])
    width = max((len(name) for name in shown), default=0)
    typer.echo(f"{out}: {_many(len(names), 'file')}")
    for name in shown:
        count = folders.get(name.rstrip("/"))
        typer.echo(f"  {name.ljust(width)}  {_many(count, 'file')}" if count else f"  {name}")


def _table(findings: Sequence[Finding], units: Units) -> Table:
    from rich import box
    from rich.table import Table
    from rich.text import Text

    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, expand=False)
    for heading in ("", "where", "what, and what to do"):
        table.add_column(heading, overflow="fold")
    table.add_column("measured", justify="right", no_wrap=True)
    table.add_column("limit", justify="right", no_wrap=True)
    for f in findings:
        what = Text(f"{in_units(f.message, units)} [{f.code}]")
        if f.parts:
            what.append(f"\nparts: {', '.join(f.parts)}")
        if f.remedy:
            what.append(f"\n{in_units(f.remedy, units)}", style="italic")
        severity = Text(f.severity, style=_COLOURS[f.severity])
        measured, limit = (_figure(value, f.unit, units) for value in (f.measured, f.limit))
        table.add_row(severity, Text(f.where), what, measured, limit)
    return table


def _figure(value: float | None, unit: str, units: Units) -> str:
    """A figure with at most three decimals and its unit; nothing when there is none."""
    if value is None:
        return ""
    if unit == "mm" and units == "ft-in":
        return feet_inches(value)
    written = f"{value:.3f}".rstrip("0").rstrip(".")
    return f"{written} {unit}".rstrip()


def _count(findings: Sequence[Finding]) -> str:
    """``2 errors, 1 warning``, or ``Nothing found.``"""
    counts = [(sum(f.severity == severity for f in findings), severity) for severity in _WORST_FIRST]
    said = [_many(n, severity) for n, severity in counts if n]
    return ", ".join(said) if said else "Nothing found."


def _many(count: int, word: str) -> str:
    return f"{count} {word}" if count == 1 else f"{count} {word}s"
