"""Every figure of a report, with the sum behind it, as text and as plain data."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import asdict, fields, is_dataclass
from typing import Any

from model3d.figures import Figure

LABELS = ("mark", "piece", "run", "joint", "leg", "number")


def figures_in(value: Any, where: str = "") -> Iterator[tuple[str, Figure]]:
    """Each figure in a report's frozen values, in order, with the marks of what it belongs to."""
    if isinstance(value, Figure):
        yield where, value
    elif is_dataclass(value) and not isinstance(value, type):
        said = [str(getattr(value, label)) for label in LABELS if isinstance(getattr(value, label, None), str | int)]
        here = " ".join(dict.fromkeys([*where.split(), *said]))
        for field in fields(value):
            if field.name not in ("findings", "section", "layout"):
                yield from figures_in(getattr(value, field.name), here)
    elif isinstance(value, tuple | list):
        for item in value:
            yield from figures_in(item, where)
    elif isinstance(value, Mapping):
        for item in value.values():
            yield from figures_in(item, where)


def figures_text(report: Any) -> str:
    """One line a figure: where, name, sum, value, rule."""
    return "\n".join(f"{where}: {figure}" if where else str(figure) for where, figure in figures_in(report))


def figures_data(report: Any) -> list[dict[str, Any]]:
    """The same as plain data."""
    return [{"where": where, **asdict(figure)} for where, figure in figures_in(report)]


def bars_text(nesting: Any) -> str:
    """The bars of a nesting, one a line: what is cut from each, and what is left."""
    lines = []
    for section in nesting.sections:
        for number, bar in enumerate(section.bars, 1):
            cuts = ", ".join(f"{cut.mark} {cut.length_mm:.1f}" for cut in bar.cuts)
            kind = "off-cut" if bar.off_cut else "bar"
            lines.append(f"{kind} {number} of {bar.length_mm:.0f}: {cuts}; {bar.left_mm:.1f} left")
    return "\n".join(lines)
