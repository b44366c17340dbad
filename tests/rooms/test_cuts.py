"""Pieces cut and up already, as a plan gives them."""

from __future__ import annotations

import pytest

from .plans import GOOD, faults_of, read


def test_cuts_and_fitted_pieces_are_read() -> None:
    """Lengths as cut, in any unit, and marks of what is up stand in the checked plan."""
    plan = read(GOOD + "as_cut: {A-2: 3.49 m, plain: 690}\nfitted: [A-1, A-2]\n")
    assert [(c.mark, c.length_mm) for c in plan.as_cut] == [("A-2", 3490.0), ("plain", 690.0)]
    assert plan.fitted == ("A-1", "A-2")
    assert (read(GOOD).as_cut, read(GOOD).fitted) == ((), ())


@pytest.mark.parametrize(
    ("text", "key", "words"),
    [
        ("as_cut: {Z-2: 3490}", "as_cut.Z-2", "no piece can be marked 'Z-2'"),
        ("as_cut: {A2: 3490}", "as_cut.A2", "(marks: a run and a number, A-1, B-1, C-1, plain)"),
        ("as_cut: {A-0: 3490}", "as_cut.A-0", "no piece can be marked 'A-0'"),
        ("as_cut: {A-1: -3}", "as_cut.A-1", "must be more than 0"),
        ("fitted: [A-1, B-x]", "fitted[2]", "no piece can be marked 'B-x'"),
        ("fitted: [A-1, A-1]", "fitted[2]", "'A-1' is given twice"),
    ],
)
def test_marks_that_cannot_be(text: str, key: str, words: str) -> None:
    """A mark of no run and no dry piece, one given twice, and a length of nothing are faults at their keys."""
    (fault,) = faults_of(GOOD + text + "\n")
    assert fault.key == key
    assert words in fault.message
    assert fault.line == GOOD.count("\n") + 1
