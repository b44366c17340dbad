"""How flat walls and floors may be, and how straight a profile is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

AtAndOff = tuple[float, float]

ROW_6_MM = ((100.0, 3.0), (1000.0, 5.0), (4000.0, 10.0), (10000.0, 20.0), (15000.0, 25.0))
"""DIN 18202 table 3 row 6, finished walls: gap under a straightedge by the distance of the measuring points."""
ROW_3_MM = ((100.0, 2.0), (1000.0, 4.0), (4000.0, 10.0), (10000.0, 12.0), (15000.0, 15.0))
"""The same, row 3: finished floors."""

LOCAL_MM = 400.0
"""Over less than this a profile's straightness is as over this: 1.5 mm in 1 m gives the 0.6 mm let pass over 300."""


def flatness_limit_mm(row: Sequence[AtAndOff], distance_mm: float) -> float:
    """The limit for a distance: between the table's distances by a straight line, to the full millimetre."""
    if distance_mm <= row[0][0]:
        return row[0][1]
    for (a, low), (b, high) in pairwise(row):
        if distance_mm <= b:
            return float(round(low + (high - low) * (distance_mm - a) / (b - a)))
    return row[-1][1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Unevenness:
    """The worst place of a face: ``gap_mm`` at ``at_mm``, off the straight line over ``over_mm``, and the limit for
    that distance.
    """

    gap_mm: float
    at_mm: float
    over_mm: float
    limit_mm: float

    @property
    def passes(self) -> bool:
        """Whether it is within the limit."""
        return self.gap_mm <= self.limit_mm


def worst_unevenness(readings: Sequence[AtAndOff], row: Sequence[AtAndOff]) -> Unevenness | None:
    """The reading that uses most of its limit, over every pair of readings; None with fewer than three readings."""
    found = [
        Unevenness(gap_mm=abs(off), at_mm=at, over_mm=b - a, limit_mm=flatness_limit_mm(row, b - a))
        for a, b, at, off in _off_chords(readings)
    ]
    return max(found, key=lambda u: u.gap_mm / u.limit_mm, default=None)


def _off_chords(points: Sequence[AtAndOff]) -> Iterator[tuple[float, float, float, float]]:
    """Each pair of points, and each point between them with how far it stands off their straight line."""
    for (i, (a, low)), (j, (b, high)) in combinations(enumerate(points), 2):
        for at, value in points[i + 1 : j]:
            yield a, b, at, value - (low + (high - low) * (at - a) / (b - a))


def straightness_limit_mm(per_m_mm: float, length_mm: float) -> float:
    """How far a profile may be off the straight over a length: so much for each metre, and over a short length as much
    as over 400 mm: EN 755-9 (from memory) lets pass 1.5 mm in 1 m, and 0.6 mm over any 300 mm.
    """
    return per_m_mm * max(length_mm, LOCAL_MM) / 1000.0


def straight_within(points: Sequence[AtAndOff], per_m_mm: float) -> bool:
    """Whether a profile held at these points stays within its straightness over every length between two of them."""
    return all(abs(off) <= straightness_limit_mm(per_m_mm, b - a) + 1e-9 for a, b, _, off in _off_chords(points))


def greatest_bend_mm(points: Sequence[AtAndOff]) -> float:
    """How far a profile held at these points stands off the straight line between the first and the last."""
    if len(points) < 3:
        return 0.0
    (a, low), (b, high) = points[0], points[-1]
    return max(abs(v - (low + (high - low) * (at - a) / (b - a))) for at, v in points[1:-1])
