"""A refusal: what a family's numbers cannot do, with the sum that fails written out."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from model3d.families.family import Family

Steps = tuple[str | int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """One sum that fails. ``code`` is stable; ``steps`` lead to the value in the file (an int counts a list's entries
    from 0)."""

    code: str
    steps: Steps
    sum: str

    def __str__(self) -> str:
        return f"{self.code}: {self.sum}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What the sums are held against. Without another source named: common practice, no source."""

    squeeze_least: float = 0.15
    """O-ring squeeze, static radial (ISO 3601-2)."""
    squeeze_most: float = 0.30
    squeeze_least_at_tolerance: float = 0.10
    squeeze_most_at_tolerance: float = 0.35
    fill_most: float = 0.85
    """Gland fill, nominal (sources differ, 85 to 90 %)."""
    fill_most_at_tolerance: float = 0.95
    leg_wall_mm: float = 0.5
    """Least wall of a leg under an O-ring groove."""
    groove_land_mm: float = 1.0
    """Least metal before, between and behind grooves."""
    insertion_margin_mm: float = 2.0
    """Past the lead-in, where a family without elbows gives no margin of its own."""
    slide_margin_mm: float = 2.0
    """What a slide has beyond the depth of engagement."""
    wall_mm: float = 1.0
    """Least wall of an extrusion."""
    mouth_wall_mm: float = 0.5
    """Least wall left beside a reamed mouth."""
    web_mm: float = 0.5
    """Least metal left in a clip or a bridge between holes, and at its edge."""
    guide_slop_mm: float = 1.0
    """A tab moved this much up or down must meet its guide."""
    latch_slop_mm: float = 1.0
    """A piece drawn this far off the wall must be held by the latch."""
    latch_margin_mm: float = 1.0
    """What the press distance has beyond the latch's reach."""
    lift_margin_mm: float = 2.0
    """What the floor gap has beyond the lift."""
    arc_slack_mm: float = 0.05
    """Two arcs that lie on one another are followed by chords to within this."""
    trim_gap_mm: float = 0.5
    """A trim farther than this from the face does not lie on it."""
    cover_mm: float = 20.0
    """A trim reaches no farther than this past the face and the top of the piece."""
    hose_reserve_mm: float = 1.0
    """A hose's ends never stand closer to its full length than this."""


Check = Callable[[Family, Limits], Iterator[Refusal]]


def mm(value: float) -> str:
    """A figure as sums show it: one or two decimals."""
    text = f"{round(value, 2) + 0.0:.2f}"
    return text[:-1] if text.endswith("0") else text


class Sum:
    """A sum with its terms: ``str`` shows ``26.0 - 17.0 + 7.5 = 16.5``, ``value`` is its result."""

    def __init__(self, *terms: float) -> None:
        self.terms = terms
        self.value = sum(terms)

    def __str__(self) -> str:
        shown = mm(self.terms[0])
        for term in self.terms[1:]:
            shown += f" {'-' if math.copysign(1.0, term) < 0.0 else '+'} {mm(abs(term))}"
        return shown if len(self.terms) == 1 else f"{shown} = {mm(self.value)}"


def path(dotted: str) -> Steps:
    """Steps from a dotted key; whole numbers are places in a list."""
    return tuple(int(part) if part.isdigit() else part for part in dotted.split("."))


def refuse(code: str, dotted: str, text: str) -> Iterator[Refusal]:
    """One refusal."""
    yield Refusal(code=code, steps=path(dotted), sum=text)
