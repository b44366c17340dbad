"""The terms of an allowance in symbols and in words.

e: the bores' distance from the wall; r: an elbow's bend radius; R: a hose's; tau: the corner's turn; s: a stub; h_l:
a hose's length; c: its straight part each side; d: depth of engagement + 2.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from model3d.figures import Figure, plain
from model3d.layout import End, Term
from model3d.why.values import Line


@dataclass(frozen=True, slots=True)
class _Meaning:
    """A term in words and symbols, and its rule."""

    words: str
    symbols: str
    rule: str


_MEANINGS: Mapping[str, _Meaning] = {
    "bend-tangent": _Meaning(
        "bend, corner to its end", "(e + r) tan(tau/2)", "tangent length of an arc through the bores, e off the wall"
    ),
    "elbow-stub": _Meaning(
        "stub of the elbow", "s", "family: from the bend's end to the cut face, in the working position"
    ),
    "arc-tangent": _Meaning(
        "hose's arc, corner to its end",
        "(R + e) tan(tau/2), or (R - e) tan(|tau|/2) at an external corner",
        "tangent length of the hose's arc, e off the wall",
    ),
    "hose-straight": _Meaning(
        "straight part of the hose",
        "c = (h_l - slack - R |tau|)/2",
        "half of what the arc and the slack leave of the hose",
    ),
    "link-stub": _Meaning("stub of the link", "s", "family: from the hose's end to the cut face"),
    "half-gap": _Meaning("half the coupler's gap", "gap/2", "family: gap between coupled pieces"),
    "valve-length": _Meaning("length of the valve end", "valve", "family: from the run's end to the cut face"),
    "return-length": _Meaning("length of the return end", "return", "family: from the run's end to the cut face"),
    "turn-back-length": _Meaning(
        "length of the turn-back end", "turn-back", "family: from the run's end to the cut face"
    ),
    "slide-room": _Meaning(
        "room for the slide", "d + 2", "something stands beyond: depth of engagement + 2 to slide, and 2 to spare"
    ),
    "stand-out": _Meaning(
        "pieces standing out from bowed walls",
        "(o' - o cos tau) / sin tau",
        "plane geometry: where the lines of two pieces meet that stand o and o' out from their walls",
    ),
    "cap-plate": _Meaning("plate of the end cap", "cap", "family: closing plate of an end cap"),
}


def term_line(term: Term) -> Line:
    """A term as a line."""
    meaning = _MEANINGS[term.name]
    formula = term.formula.replace(" deg in radians", " x pi / 180")
    figure = Figure(name=meaning.words, formula=formula, value=term.value_mm, unit="mm", rule=meaning.rule)
    return Line(figure=figure, symbols=meaning.symbols)


def allowance_lines(end: End, name: str) -> tuple[Line, ...]:
    """The terms of an end's allowance and their sum."""
    total = Figure(
        name=name,
        formula=" + ".join(plain(t.value_mm) for t in end.terms),
        value=end.allowance_mm,
        unit="mm",
        rule="sum of the above: how far short of the corner, or of the run's end, the piece is cut",
    )
    return (*(term_line(t) for t in end.terms), Line(figure=total))
