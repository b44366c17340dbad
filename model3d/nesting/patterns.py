"""Patterns: how many of each length are cut from one bar.

Only full patterns matter, those that no further piece in demand fits into: a piece too many in one is left
out when the bar is cut.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from model3d.nesting.stock import FITS_MM

Pattern = tuple[int, ...]


def full_patterns(
    takes_mm: Sequence[float],
    demand: Sequence[int],
    room_mm: float,
    *,
    worth: Sequence[float] | None = None,
    at_least: float = -math.inf,
) -> Iterator[Pattern]:
    """Every full pattern of a bar with ``room_mm``; lengths in falling order, each with its cut.

    With ``worth``, a worth of each length not below 0, only those worth ``at_least`` or more in all. The
    search gives a branch up when even filling its rest at the best worth for length would not do.
    """
    values = [0.0] * len(takes_mm) if worth is None else list(worth)
    rates = [0.0] * (len(takes_mm) + 1)
    for i in reversed(range(len(takes_mm))):
        rates[i] = max(rates[i + 1], values[i] / takes_mm[i])
    count = [0] * len(takes_mm)

    def filled(i: int, left: float, have: float) -> Iterator[Pattern]:
        if have + rates[i] * left < at_least - 1e-12:
            return
        if i == len(takes_mm):
            if all(count[j] >= demand[j] or takes_mm[j] > left + FITS_MM for j in range(len(takes_mm))):
                yield tuple(count)
            return
        most = min(demand[i], int((left + FITS_MM) // takes_mm[i]))
        for n in range(most, -1, -1):
            count[i] = n
            yield from filled(i + 1, left - n * takes_mm[i], have + n * values[i])
        count[i] = 0

    yield from filled(0, room_mm, 0.0)


def best_pattern(
    takes_mm: Sequence[float], demand: Sequence[int], room_mm: float, worth: Sequence[float]
) -> tuple[float, Pattern]:
    """The pattern of greatest worth, by branch and bound: densest worth first."""
    order = sorted(range(len(takes_mm)), key=lambda i: -worth[i] / takes_mm[i])
    count = [0] * len(takes_mm)
    most_worth, best = 0.0, tuple(count)

    def filled(place: int, left: float, have: float) -> None:
        nonlocal most_worth, best
        if have > most_worth + 1e-12:
            most_worth, best = have, tuple(count)
        if place == len(order):
            return
        i = order[place]
        if worth[i] <= 0.0 or have + worth[i] / takes_mm[i] * left <= most_worth + 1e-12:
            return
        most = min(demand[i], int((left + FITS_MM) // takes_mm[i]))
        for n in range(most, -1, -1):
            count[i] = n
            filled(place + 1, left - n * takes_mm[i], have + n * worth[i])
        count[i] = 0

    filled(0, room_mm, 0.0)
    return most_worth, best
