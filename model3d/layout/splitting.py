"""Walls longer than a stock bar, divided: fewest joints, then least stock bought, then the most even
pieces.

The middle of a joint stays off corners, socket-outlets, doors and pipes. Brackets follow the pieces, and
so stay off the joints. Stock is counted for the wall by itself; what its off-cuts serve for elsewhere
shows when all cuts are nested.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from model3d.families.family import Family
from model3d.layout.in_the_wall import Span
from model3d.rooms import CheckedPlan, Pipe, PipeTail, RunSpan, SocketOutlet

MORE_JOINTS = 2
"""So many joints more than needed are tried before a joint is set near something."""
_MOST_TRIED = {1: 400, 2: 80, 3: 34, 4: 20}
_EXACT_PIECES = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class SplitRules:
    """What a division keeps to. ``keep_off`` are stretches for a joint's middle, from where the run comes
    onto the wall; ``stock_mm`` bars as bought, each with ``trim_mm`` less at either end, and the saw's cut
    between two pieces.
    """

    stock_mm: tuple[float, ...]
    trim_mm: float = 0.0
    kerf_mm: float = 0.0
    keep_off: tuple[Span, ...] = ()

    def usable_mm(self, bar_mm: float) -> float:
        """A bar less its trimmed ends."""
        return bar_mm - 2.0 * self.trim_mm

    @property
    def longest_mm(self) -> float:
        """The longest piece that a bar gives."""
        return self.usable_mm(max(self.stock_mm))


@dataclass(frozen=True, slots=True, kw_only=True)
class Division:
    """Middles of the joints, from where the run comes onto the wall; ``near`` is what they stand too near
    to.
    """

    middles_mm: tuple[float, ...]
    near: tuple[Span, ...] = ()


def split_rules(family: Family, plan: CheckedPlan, span: RunSpan, sense: int) -> SplitRules:
    """The rules of one wall of a run."""
    rules, wall = plan.in_line, span.wall
    kept: list[tuple[float, float, float, str, str]] = [
        (0.0, 0.0, rules.off_corner_mm, f"corner {wall.first_corner.id}", wall.first_corner.id),
        (
            wall.length_mm,
            wall.length_mm,
            rules.off_corner_mm,
            f"corner {wall.last_corner.id}",
            wall.last_corner.id,
        ),
    ]
    for door in plan.room.doors:
        if door.wall_id == wall.id:
            kept.append((*door.kept_clear_mm, rules.off_opening_mm, f"door {door.id}", door.id))
    for thing in plan.room.obstacles:
        if thing.wall_id == wall.id and isinstance(thing, SocketOutlet | Pipe | PipeTail):
            off = rules.off_socket_mm if isinstance(thing, SocketOutlet) else rules.off_pipe_mm
            if (
                not isinstance(thing, Pipe) or thing.from_mm[0] == thing.to_mm[0]
            ):  # a pipe along the wall has no place
                kept.append((thing.low_mm[0], thing.high_mm[0], off, thing.id, thing.id))
    return SplitRules(
        stock_mm=tuple(sorted(set(family.stock_lengths_mm))),
        trim_mm=plan.cutting.end_trim_mm,
        kerf_mm=plan.cutting.kerf_mm,
        keep_off=tuple(_seen(span, sense, *k) for k in kept),
    )


def _seen(span: RunSpan, sense: int, low: float, high: float, off: float, what: str, part: str) -> Span:
    a, b = sorted(sense * (x - span.enters_mm) for x in (low - off, high + off))
    return Span(low_mm=a, high_mm=b, what=what, part=part)


def divided(start_mm: float, last_mm: float, gap_mm: float, least_mm: float, rules: SplitRules) -> Division:
    """Where the joints of a wall go, from ``start_mm`` to ``last_mm``; each takes ``gap_mm`` of it. No
    piece is shorter than ``least_mm`` or longer than a bar gives; none of either when one piece will do.
    """
    pieces = max(1, math.ceil((last_mm - start_mm + gap_mm) / (rules.longest_mm + gap_mm) - 1e-9))
    if pieces == 1:
        return Division(middles_mm=())
    wall = _Wall(start_mm=start_mm, last_mm=last_mm, gap_mm=gap_mm, least_mm=least_mm, rules=rules)
    for joints in range(pieces - 1, pieces + MORE_JOINTS):
        found = wall.best(joints, free=True)
        if found is not None:
            return Division(middles_mm=found)
    forced = wall.best(pieces - 1, free=False) or wall.even(pieces - 1)
    near = tuple(s for s in rules.keep_off if any(s.holds(m) for m in forced))
    return Division(middles_mm=forced, near=near)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wall:
    """One wall to divide."""

    start_mm: float
    last_mm: float
    gap_mm: float
    least_mm: float
    rules: SplitRules

    def even(self, joints: int) -> tuple[float, ...]:
        """Middles that leave equal pieces."""
        each = (self.last_mm - self.start_mm - joints * self.gap_mm) / (joints + 1)
        return tuple(
            self.start_mm + (each + self.gap_mm) * i - self.gap_mm / 2.0 for i in range(1, joints + 1)
        )

    def lengths(self, middles: Sequence[float]) -> list[float]:
        """The pieces between joints."""
        half = self.gap_mm / 2.0
        edges = [self.start_mm, *(e for m in middles for e in (m - half, m + half)), self.last_mm]
        return [b - a for a, b in zip(edges[::2], edges[1::2], strict=True)]

    def best(self, joints: int, *, free: bool) -> tuple[float, ...] | None:
        """The best middles; with ``free`` only places that keep off everything, else fewest that do not
        come first.
        """
        best: tuple[tuple[float, ...], tuple[float, ...]] | None = None
        for middles in combinations(self._tried(joints, free=free), joints):
            lengths = self.lengths(middles)
            if min(lengths) < self.least_mm - 1e-9 or max(lengths) > self.rules.longest_mm + 1e-9:
                continue
            bad = 0 if free else sum(s.holds(m) for m in middles for s in self.rules.keep_off)
            cost = (float(bad), round(bought_mm(lengths, self.rules), 3), -round(min(lengths), 3), *middles)
            if best is None or cost < best[0]:
                best = (cost, middles)
        return None if best is None else best[1]

    def _tried(self, joints: int, *, free: bool) -> list[float]:
        """Places worth trying, in order along the wall: even ones first to be kept, then edges, then whole
        bars.
        """
        low = self.start_mm + self.least_mm + self.gap_mm / 2.0
        high = self.last_mm - self.least_mm - self.gap_mm / 2.0
        found: dict[float, None] = {}
        most = _MOST_TRIED.get(joints, 2 * joints + 6)
        for place in self._worth_trying(joints):
            barred = free and any(s.holds(place) for s in self.rules.keep_off)
            if low - 1e-9 <= place <= high + 1e-9 and not barred:
                found[round(place, 6)] = None
            if len(found) >= most:
                break
        return sorted(found)

    def _worth_trying(self, joints: int) -> Iterator[float]:
        yield from self.even(joints)
        yield from (e for s in self.rules.keep_off for e in (s.low_mm, s.high_mm))
        rules, half = self.rules, self.gap_mm / 2.0
        whole = [rules.usable_mm(bar) for bar in reversed(rules.stock_mm)]
        shared = [(w - (n - 1) * rules.kerf_mm) / n for w in whole for n in (2, 3)]
        ends, starts = [self.start_mm], [self.last_mm]
        for _ in range(joints):
            ends = [
                e + x + half
                for e in ends
                for x in (*whole, *shared, self.rules.longest_mm)
                if e + x < self.last_mm
            ]
            starts = [s - x - half for s in starts for x in (*whole, *shared) if s - x > self.start_mm]
            yield from ends
            yield from starts
            ends, starts = [e + half for e in ends[:40]], [s - half for s in starts[:40]]


def bought_mm(lengths_mm: Sequence[float], rules: SplitRules) -> float:
    """The least length of bars for a wall's few pieces: exactly for up to four, each from the first bar
    with room for more.
    """
    if len(lengths_mm) <= _EXACT_PIECES:
        return _least_mm(tuple(sorted(lengths_mm)), rules)
    total, left = 0.0, [0.0]
    for length in sorted(lengths_mm, reverse=True):
        i = next((i for i, room in enumerate(left) if length <= room), None)
        if i is not None:
            left[i] -= length + rules.kerf_mm
            continue
        bar = _bar_mm([length], rules)
        total += bar
        left.append(rules.usable_mm(bar) - length - rules.kerf_mm)
    return total


def _least_mm(lengths: tuple[float, ...], rules: SplitRules) -> float:
    """Over every way to put the first piece into a bar with some of the others."""
    if not lengths:
        return 0.0
    first, rest = lengths[0], lengths[1:]
    least = math.inf
    for with_it in range(1 << len(rest)):
        here = [first, *(x for i, x in enumerate(rest) if with_it >> i & 1)]
        bar = _bar_mm(here, rules)
        if bar < math.inf:
            others = tuple(x for i, x in enumerate(rest) if not with_it >> i & 1)
            least = min(least, bar + _least_mm(others, rules))
    return least


def _bar_mm(lengths: Sequence[float], rules: SplitRules) -> float:
    """The shortest bar that gives these pieces; infinite when none does."""
    need = sum(lengths) + rules.kerf_mm * (len(lengths) - 1)
    return next((bar for bar in rules.stock_mm if need <= rules.usable_mm(bar) + 1e-6), math.inf)
