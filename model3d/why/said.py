"""An explanation as text and as plain data."""

from __future__ import annotations

from typing import Any

from model3d.figures import Units, block, shown
from model3d.figures.lines import IN_FEET
from model3d.why.values import Explanation


def explanation_text(explanation: Explanation, units: Units = "mm") -> str:
    """The sums, one a line, with their rules. The sums are in millimetres, their results in the units asked for."""
    result = explanation.result
    lines = [f"{explanation.title} {shown(result.value, result.unit, units)}"]
    if units == "ft-in":
        lines.append(IN_FEET)
    for section in explanation.sections:
        notes = section.note.split("\n") if section.note else ()
        lines += ["", *block(section.title, notes, [(line.figure, line.symbols) for line in section.lines], units)]
    return "\n".join(lines)


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
