"""An explanation as text and as plain data."""

from __future__ import annotations

from typing import Any

from model3d.why.numbers import Units, shown
from model3d.why.values import Explanation, Line


def explanation_text(explanation: Explanation, units: Units = "mm") -> str:
    """The sums, one a line, with their rules. The sums are in millimetres, their results in the units asked for."""
    result = explanation.result
    lines = [f"{explanation.title} {shown(result.value, result.unit, units)}"]
    if units == "ft-in":
        lines.append("The sums are in millimetres, 25.4 to the inch; lengths to the nearest 1/32 inch.")
    for section in explanation.sections:
        lines += ["", section.title]
        if section.note:
            lines.append(f"  ({section.note})")
        for k, line in enumerate(section.lines):
            lines.append(f"  {_sum(line, units)}")
            if k + 1 == len(section.lines) or section.lines[k + 1].figure.rule != line.figure.rule:
                lines.append(f"      {line.figure.rule}")
    return "\n".join(lines)


def _sum(line: Line, units: Units) -> str:
    figure = line.figure
    value = shown(figure.value, figure.unit, units)
    given = _is_number(figure.formula)
    return " = ".join(
        [figure.name, *([line.symbols] if line.symbols else []), *([] if given else [figure.formula]), value]
    )


def _is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True


def explanation_data(explanation: Explanation) -> dict[str, Any]:
    """The same as plain data for JSON, lengths in mm."""
    return {
        "mark": explanation.mark,
        "title": explanation.title,
        "result": {"value": explanation.result.value, "unit": explanation.result.unit},
        "sections": [
            {
                "title": section.title,
                "note": section.note,
                "lines": [
                    {
                        "name": line.figure.name,
                        "symbols": line.symbols,
                        "formula": line.figure.formula,
                        "value": line.figure.value,
                        "unit": line.figure.unit,
                        "rule": line.figure.rule,
                    }
                    for line in section.lines
                ],
            }
            for section in explanation.sections
        ],
    }
