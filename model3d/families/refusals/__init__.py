"""The sums that must hold in a family, each a pure function that says the sum that fails."""

from __future__ import annotations

from model3d.families.family import Family
from model3d.families.refusals import (
    brackets,
    clips,
    elbows,
    ends,
    hoses,
    insertions,
    moves,
    orings,
    rules,
    sections,
    trims,
)
from model3d.families.refusals.refusal import Check, Limits, Refusal, Sum, mm

__all__ = ["CHECKS", "Check", "Limits", "Refusal", "Sum", "mm", "refusals"]

CHECKS: tuple[Check, ...] = (
    *sections.CHECKS,
    *orings.CHECKS,
    *insertions.CHECKS,
    *elbows.CHECKS,
    *hoses.CHECKS,
    *clips.CHECKS,
    *ends.CHECKS,
    *brackets.CHECKS,
    *trims.CHECKS,
    *rules.CHECKS,
    *moves.CHECKS,
)


def refusals(family: Family, limits: Limits | None = None) -> tuple[Refusal, ...]:
    """Everything a family's numbers cannot do, empty when they can work.

    Outlines that are no outlines are refused alone, since the other sums need them.
    """
    held_to = Limits() if limits is None else limits
    unsound = tuple(sections.outlines(family, held_to))
    if unsound:
        return unsound
    return tuple(dict.fromkeys(refusal for check in CHECKS for refusal in check(family, held_to)))
