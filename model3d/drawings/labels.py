"""Where figures, letters and their lines stand on paper: each where it crosses least of what is drawn already.

What is placed is an ``Ink``: its words, its lines and their boxes. Of several inks for one thing the page takes the one
that costs least; a figure over another, or over a wall or a piece, costs most.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from model3d.drawings.boxes import Box, boxes_meet, line_box, within
from model3d.drawings.sheet import path
from model3d.geometry.placement import Vec2

OFF_THE_PAGE, OVER_WORDS, OVER_LINE, LINE_OVER_SOLID, LINE_OVER_LINE = 1000.0, 100.0, 12.0, 3.0, 0.6
A_MILLIMETRE = 0.05  # what each millimetre from the best place costs


@dataclass(frozen=True, slots=True, kw_only=True)
class Ink:
    """One way to draw a thing: ``words`` and ``lines`` are the boxes of its text and its lines, ``away_mm`` how far it
    stands from where it would stand best.
    """

    svg: tuple[str, ...]
    words: tuple[Box, ...] = ()
    lines: tuple[Box, ...] = ()
    away_mm: float = 0.0


@dataclass(slots=True, kw_only=True)
class Page:
    """What is on the page so far: ``solids`` are walls, pieces and obstacles; ``words`` and ``lines`` as in an ink.
    ``area`` is where things may stand.
    """

    area: Box
    solids: list[Box] = field(default_factory=list)
    words: list[Box] = field(default_factory=list)
    lines: list[Box] = field(default_factory=list)

    def put(self, ink: Ink) -> tuple[str, ...]:
        """Take an ink as drawn; return its SVG."""
        self.words += ink.words
        self.lines += ink.lines
        return ink.svg

    def place(self, inks: Iterable[Ink], last_resort: Iterable[Ink] = ()) -> tuple[str, ...]:
        """Put the ink that costs least; those of ``last_resort`` are tried only where all others have words over words
        or over a solid.
        """
        best, cost = self._best(inks)
        if cost >= OVER_WORDS:
            other, lower = self._best(last_resort)
            best = other if other is not None and lower < cost else best
        return self.put(best) if best is not None else ()

    def _best(self, inks: Iterable[Ink]) -> tuple[Ink | None, float]:
        best: Ink | None = None
        least = float("inf")
        for ink in inks:
            cost = self.cost(ink, least)
            if cost < least:
                best, least = ink, cost
        return best, least

    def cost(self, ink: Ink, enough: float = float("inf")) -> float:
        """What an ink would cross; counting stops at ``enough``."""
        total = ink.away_mm * A_MILLIMETRE
        total += OFF_THE_PAGE * sum(not within(b, self.area) for b in (*ink.words, *ink.lines))
        weights = (
            (OVER_WORDS, ink.words, self.words),
            (OVER_WORDS, ink.words, self.solids),
            (OVER_LINE, ink.words, self.lines),
            (OVER_LINE, ink.lines, self.words),
            (LINE_OVER_SOLID, ink.lines, self.solids),
            (LINE_OVER_LINE, ink.lines, self.lines),
        )
        for weight, mine, theirs in weights:
            if total >= enough:
                break
            total += weight * _meetings(mine, theirs)
        return total


def round_about(point: Vec2, *, first_mm: float, rings: int) -> Iterator[tuple[Vec2, float]]:
    """Places round a point, on rings 5 mm apart, every 15 degrees, with their distance."""
    for ring in range(rings):
        reach = first_mm + 5.0 * ring
        for i in range(24):
            angle = math.radians(15.0 * i)
            yield (point[0] + reach * math.cos(angle), point[1] + reach * math.sin(angle)), reach


def leader(point: Vec2, words: Box, css: str = "soft-line") -> tuple[str, Box]:
    """A thin line from a point to the nearest place on the upright rectangle round words, and its box."""
    left, top, right, bottom = words.bounds
    end = (max(min(point[0], right), left), max(min(point[1], bottom), top))
    return f'<path class="thin {css}" d="{path([point, end])}"/>', line_box(point, end)


def _meetings(mine: Sequence[Box], theirs: Sequence[Box]) -> int:
    return sum(boxes_meet(a, b) for a in mine for b in theirs)
