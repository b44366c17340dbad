"""What a survey's report says in words: findings, the reason of a refusal, and the whole as text."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Any

from model3d.findings import Finding
from model3d.survey.report import JudgedReading, SurveyReport

HEADINGS = ("reading", "read", "adjusted", "residual", "sigma", "w-test", "redundancy", "least error found")


def outcome_text(report: SurveyReport) -> str:
    """Whether the readings agree, and the one likely wrong when they do not."""
    if report.redundancy == 0:
        return "nothing checks the readings: there are just enough of them"
    figures = f"weighted squares {report.squares:.1f}, limit {report.limit:.1f} at redundancy {report.redundancy}"
    if report.accepted:
        return f"the readings agree ({figures})"
    return f"the readings do not agree ({figures}){_suspect_text(report)}"


def _suspect_text(report: SurveyReport) -> str:
    suspicion = report.suspicion
    if suspicion is None:
        return ""
    judged = report.reading(suspicion.name)
    more = suspicion.should_read - judged.reading.value
    text = f". Likely wrong: the {judged.name}, read {shown(judged, judged.reading.value)}"
    if suspicion.ties:
        return f"{text}; it cannot be told from: {', '.join(suspicion.ties)}. Measure again, or one diagonal more"
    way = "more" if more > 0 else "less"
    text += f"; the others say {shown(judged, suspicion.should_read)}, {shown(judged, abs(more))} {way}"
    if suspicion.others_agree:
        return f"{text}, and agree without it. Measure it again"
    return f"{text}, and do not agree without it either: more than one is wrong. Measure again"


def shown(judged: JudgedReading, value: float) -> str:
    """A figure in a reading's unit."""
    if math.isinf(value):
        return "none"
    return f"{value:.1f} mm" if judged.unit == "mm" else f"{value:.2f} deg"


def survey_findings(report: SurveyReport) -> tuple[Finding, ...]:
    """What a person should know of a survey that was accepted."""
    found = []
    unchecked = [r for r in report.readings if r.unchecked]
    hardly = [r for r in report.readings if r.hardly_checked and not r.unchecked]
    if unchecked:
        found.append(
            _finding(
                "survey-unchecked",
                f"nothing checks {_names(unchecked)}: an error there would not be seen",
                "Measure a diagonal or an angle more.",
                unchecked,
                0.0,
            )
        )
    if hardly:
        least = ", ".join(f"{r.name} {shown(r, r.least_error)}" for r in hardly)
        found.append(
            _finding(
                "survey-hardly-checked",
                f"the others hardly check {_names(hardly)}; the least errors that would be found: {least}",
                "Measure a diagonal or an angle more.",
                hardly,
                min(r.redundancy for r in hardly),
            )
        )
    if report.suspicion is not None:
        judged = report.reading(report.suspicion.name)
        named = [report.reading(n) for n in report.suspicion.names]
        found.append(
            _finding(
                "survey-suspect",
                f"the readings agree, but the {judged.name} has a w-test of {abs(judged.standardised):.1f}: "
                f"the others say {shown(judged, report.suspicion.should_read)}",
                "Measure it again.",
                named,
                abs(judged.standardised),
            )
        )
    return tuple(found)


def _finding(code: str, message: str, remedy: str, named: Iterable[JudgedReading], measured: float) -> Finding:
    limit = {"survey-unchecked": 0.1, "survey-hardly-checked": 0.1, "survey-suspect": 3.29}[code]
    return Finding(
        code=code,
        severity="warning",
        where="survey",
        message=message,
        remedy=remedy,
        parts=tuple(r.name for r in named),
        measured=measured,
        limit=limit,
        unit="",
    )


def _names(named: Iterable[JudgedReading]) -> str:
    return ", ".join(r.name for r in named)


def survey_text(report: SurveyReport, wall_names: Sequence[str] = ()) -> str:
    """The report as a table of readings, then walls (w1, w2, ... unless named) and corners with standard errors."""
    x, y = report.misclosure_mm
    lines = [
        f"Survey: {outcome_text(report)}.",
        (
            f"Misclosure of walls and angles as read: {report.gap_mm:.1f} mm "
            f"({x:+.1f} along the first wall, {y:+.1f} across it)."
        ),
    ]
    if report.angle_misclosure_deg is not None:
        lines.append(f"The angles miss their sum by {report.angle_misclosure_deg:+.2f} deg.")
    if report.redundancy > 0:
        lines.append(f"Worst reading: {report.worst.name}, w-test {report.worst.standardised:+.2f} (limit 3.29).")
    lines += ["", *_table([HEADINGS, *map(_row, report.readings)]), ""]
    names = wall_names or [f"w{i + 1}" for i in range(len(report.walls))]
    lines += [f"wall {n}: {w.length_mm:.1f} mm +- {w.sigma_mm:.1f}" for n, w in zip(names, report.walls, strict=True)]
    lines += [
        f"corner c{i + 1}: ({c.at_mm[0]:.1f}, {c.at_mm[1]:.1f}) +- ({c.sigma_mm[0]:.1f}, {c.sigma_mm[1]:.1f}), "
        f"turn {c.turn_deg:.2f} deg +- {c.turn_sigma_deg:.2f}"
        for i, c in enumerate(report.corners)
    ]
    return "\n".join(lines)


def _table(rows: Sequence[tuple[str, ...]]) -> list[str]:
    widths = [max(len(row[i]) for row in rows) for i in range(len(HEADINGS))]
    return ["  ".join(_cell(i, t, w) for i, (t, w) in enumerate(zip(r, widths, strict=True))).rstrip() for r in rows]


def _cell(column: int, text: str, width: int) -> str:
    return text.ljust(width) if column == 0 else text.rjust(width)


def _row(r: JudgedReading) -> tuple[str, ...]:
    places = 1 if r.unit == "mm" else 2
    figures = (f"{v:.{places}f}" for v in (r.reading.value, r.adjusted))
    return (
        r.name,
        *figures,
        f"{r.residual:+.{places}f}",
        f"{r.reading.sigma:.{places}f}",
        "-" if r.unchecked else f"{r.standardised:+.2f}",
        f"{r.redundancy:.2f}",
        shown(r, r.least_error),
    )


def survey_data(report: SurveyReport) -> dict[str, Any]:
    """The report as plain data for JSON; what is infinite is null."""
    return {
        "redundancy": report.redundancy,
        "weighted_squares": report.squares,
        "limit": report.limit,
        "accepted": report.accepted,
        "misclosure_mm": list(report.misclosure_mm),
        "angle_misclosure_deg": report.angle_misclosure_deg,
        "readings": [
            {
                "name": r.name,
                "unit": r.unit,
                "read": r.reading.value,
                "sigma": r.reading.sigma,
                "adjusted": r.adjusted,
                "residual": r.residual,
                "w_test": None if r.unchecked else r.standardised,
                "redundancy": r.redundancy,
                "least_error_found": None if r.unchecked else r.least_error,
                "ties": list(r.ties),
            }
            for r in report.readings
        ],
        "walls": [{"length_mm": w.length_mm, "sigma_mm": w.sigma_mm} for w in report.walls],
        "corners": [
            {
                "at_mm": list(c.at_mm),
                "sigma_mm": list(c.sigma_mm),
                "turn_deg": c.turn_deg,
                "turn_sigma_deg": c.turn_sigma_deg,
            }
            for c in report.corners
        ],
        "likely_wrong": list(report.suspicion.names) if report.suspicion is not None else [],
    }
