"""All pairs whose overlap is known."""

from __future__ import annotations

from tests.checks.cases import Answer, Case
from tests.checks.flat_answers import FLAT
from tests.checks.round_answers import ROUND
from tests.checks.slight_answers import SLIGHT

CASES: tuple[Case, ...] = (*FLAT, *ROUND, *SLIGHT)

__all__ = ["CASES", "Answer", "Case"]
