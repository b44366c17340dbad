"""Brackets moved to where they can be drilled: off back boxes and chased pipes, onto studs, off cable
strips.

Places are tried every few millimetres and at every edge that matters; a shortest path through them keeps
the spacing rule and strays least from the even places.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from model3d.families.family import Family
from model3d.layout.brackets import bracket_offsets_mm, end_range_mm
from model3d.layout.in_the_wall import Span
from model3d.layout.values import EndJoint

STEP_MM = 10.0
_A_BRACKET = 1e4
"""What one more bracket costs, in the measure in which straying by a spacing costs 1."""
_OFF_STUD = 4e4
_ON_STRIP = 1e3
_BESIDE_MIDDLE = 1.0
_OVER_BARRED = 1e6


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What a piece's brackets find behind it, as spans from its near cut face: where none may stand, where
    one had better not, and the studs (none: anywhere will do). ``over_barred`` is what it costs to stand there
    all the same.
    """

    barred: tuple[Span, ...] = ()
    strips: tuple[Span, ...] = ()
    studs: tuple[Span, ...] = ()
    over_barred: float = math.inf

    def is_plain(self, places_mm: Sequence[float]) -> bool:
        """Whether places have nothing against them."""
        spans = self.barred + self.strips
        return not self.studs and not any(s.holds(x) for s in spans for x in places_mm)

    def cost(self, place_mm: float) -> float:
        """What a bracket there costs: nothing, or for a stud missed, a little for a stud met beside its middle, and
        for a strip met; infinite where it is barred.
        """
        strip = _ON_STRIP if any(s.holds(place_mm) for s in self.strips) else 0.0
        if any(s.holds(place_mm) for s in self.barred):
            return self.over_barred + strip
        if not self.studs:
            return strip
        met = [s for s in self.studs if s.low_mm - 1e-6 <= place_mm <= s.high_mm + 1e-6]
        if not met:
            return strip + _OFF_STUD
        return strip + _BESIDE_MIDDLE * min(_from_middle(s, place_mm) for s in met) ** 2


def _from_middle(stud: Span, place_mm: float) -> float:
    """How far from a stud's middle, as a share of the way to where a screw may stand last."""
    half = (stud.high_mm - stud.low_mm) / 2.0
    return abs(place_mm - stud.low_mm - half) / half if half > 0.0 else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """Middles of brackets from the near cut face. ``strained`` says that the distances from the ends could
    not be kept; ``blocked`` that no places keep the rest either, and those over the least of what bars them are given.
    """

    offsets_mm: tuple[float, ...]
    strained: bool = False
    blocked: bool = False


def bracket_places(family: Family, length_mm: float, near: EndJoint, far: EndJoint, ground: Ground) -> Places:
    """Where the brackets of a piece go on its ground."""
    even = bracket_offsets_mm(family, length_mm, near, far)
    if ground.is_plain(even):
        return Places(offsets_mm=even)
    if len(even) == 1:
        return _single(family, length_mm, even[0], ground)
    ends = (end_range_mm(family, near), end_range_mm(family, far))
    wide = (family.bracket.spacing.end_least_mm, family.bracket.spacing.most_mm)
    for first, last in (ends, (wide, wide)):
        found = _path(family, length_mm, even, first, last, ground)
        if found is not None:
            return Places(offsets_mm=found, strained=(first, last) != ends)
    least = _path(family, length_mm, even, *ends, replace(ground, over_barred=_OVER_BARRED))
    return Places(offsets_mm=least or even, blocked=True)


def _single(family: Family, length_mm: float, middle_mm: float, ground: Ground) -> Places:
    """One bracket of a short piece: as near the middle as can be."""
    half = family.bracket.width_mm / 2.0
    free = [
        (ground.cost(x) + abs(x - middle_mm) / length_mm, x)
        for x in _tried(half, length_mm - half, (middle_mm,), ground)
    ]
    cost, place = min(free, default=(math.inf, middle_mm))
    return Places(offsets_mm=(place,)) if math.isfinite(cost) else Places(offsets_mm=(middle_mm,), blocked=True)


def _tried(low: float, high: float, even: Sequence[float], ground: Ground) -> list[float]:
    """Every place worth trying between two bounds, in order."""
    if high < low:
        return []
    steps = [low + STEP_MM * i for i in range(int((high - low) / STEP_MM) + 1)]
    edges = [e for s in ground.barred + ground.strips + ground.studs for e in (s.low_mm, s.high_mm)]
    middles = [(s.low_mm + s.high_mm) / 2.0 for s in ground.studs]
    return sorted({x for x in (*steps, *edges, *middles, *even, high) if low <= x <= high})


def _path(
    family: Family,
    length_mm: float,
    even: Sequence[float],
    first: tuple[float, float],
    last: tuple[float, float],
    ground: Ground,
) -> tuple[float, ...] | None:
    """The cheapest chain of places: the first and last in their ranges, none further apart than the
    greatest spacing.
    """
    spacing = family.bracket.spacing
    usual = (even[-1] - even[0]) / (len(even) - 1)
    low, high = min(first[0], length_mm / 2.0), length_mm - min(last[0], length_mm / 2.0)
    tried = [(x, cost) for x in _tried(low, high, even, ground) if math.isfinite(cost := ground.cost(x))]
    best: list[tuple[float, int]] = []
    for j, (x, cost) in enumerate(tried):
        found = (math.inf, -1)
        if x <= first[1] + 1e-6:
            found = (((x - even[0]) / usual) ** 2, -1)
        for i in range(j - 1, -1, -1):
            gap = x - tried[i][0]
            if gap > spacing.most_mm + 1e-6:
                break
            if gap >= family.bracket.width_mm:
                found = min(found, (best[i][0] + ((gap - usual) / usual) ** 2, i))
        best.append((found[0] + cost + _A_BRACKET, found[1]))
    ends = [
        (best[j][0] + ((x - even[-1]) / usual) ** 2, j)
        for j, (x, _) in enumerate(tried)
        if length_mm - x <= last[1] + 1e-6 and best[j][1] >= 0
    ]
    total, j = min(ends, default=(math.inf, -1))
    if not math.isfinite(total):
        return None
    chain = []
    while j >= 0:
        chain.append(tried[j][0])
        j = best[j][1]
    return tuple(reversed(chain))
