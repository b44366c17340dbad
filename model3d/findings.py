"""Findings: what a check has to say, coded, with the numbers behind it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Severity = Literal["error", "warning", "note"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing a check found.

    ``code`` is stable (``clash``, ``obstacle-in-run``); ``where`` names the place in trade words; ``parts`` are part
    ids or marks; ``measured`` and ``limit`` carry the figures in ``unit`` (mm, mm3, deg, K), None where there is none;
    ``place_mm`` is a point in the room frame; ``remedy`` says what to do.
    """

    code: str
    severity: Severity
    where: str
    message: str
    remedy: str
    parts: tuple[str, ...] = ()
    measured: float | None = None
    limit: float | None = None
    unit: str = "mm"
    place_mm: tuple[float, float, float] | None = None
