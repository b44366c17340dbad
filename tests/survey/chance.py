"""Skew rooms by chance, the readings of them, and readings with errors, all from a seeded generator."""

from __future__ import annotations

import math
import random
from collections.abc import Mapping, Sequence
from dataclasses import replace

from model3d.geometry.placement import Vec2
from model3d.survey import AngleReading, LengthReading, Reading


def skew_room(rng: random.Random) -> list[Vec2]:
    """A room of 4 to 8 corners at any angle, anticlockwise, the first at (0, 0), the first wall along x."""
    count = rng.randint(4, 8)
    shares = [rng.uniform(0.6, 1.0) for _ in range(count)]
    bearing, points = 0.0, []
    for share in shares:
        reach = rng.uniform(1800.0, 4500.0)
        points.append((reach * math.cos(bearing), reach * math.sin(bearing)))
        bearing += 2.0 * math.pi * share / sum(shares)
    return framed(points)


def framed(points: Sequence[Vec2]) -> list[Vec2]:
    """The same room with its first corner at (0, 0) and its first wall along x."""
    (x0, y0), (x1, y1) = points[0], points[1]
    length = math.hypot(x1 - x0, y1 - y0)
    c, s = (x1 - x0) / length, (y1 - y0) / length
    return [((x - x0) * c + (y - y0) * s, (y - y0) * c - (x - x0) * s) for x, y in points]


def interior_deg(points: Sequence[Vec2], i: int) -> float:
    """The interior angle at a corner."""
    here, after, before = points[i], points[(i + 1) % len(points)], points[i - 1]
    turn = math.atan2(before[1] - here[1], before[0] - here[0]) - math.atan2(after[1] - here[1], after[0] - here[0])
    return math.degrees(turn) % 360.0


def wall(points: Sequence[Vec2], i: int, sigma_mm: float = 2.0) -> LengthReading:
    """A faultless reading of a wall."""
    return length(points, i, (i + 1) % len(points), sigma_mm, f"wall {i + 1}")


def length(points: Sequence[Vec2], i: int, j: int, sigma_mm: float = 2.0, name: str = "") -> LengthReading:
    """A faultless reading of the distance of two corners."""
    value = math.dist(points[i], points[j])
    return LengthReading(name=name or f"diagonal {i + 1}-{j + 1}", first=i, second=j, value_mm=value, sigma_mm=sigma_mm)


def angle(points: Sequence[Vec2], i: int, sigma_deg: float = 0.2) -> AngleReading:
    """A faultless reading of an interior angle."""
    count = len(points)
    return AngleReading(
        name=f"angle {i + 1}",
        corner=i,
        toward=(i + 1) % count,
        back=(i - 1) % count,
        value_deg=interior_deg(points, i),
        sigma_deg=sigma_deg,
    )


def faultless(rng: random.Random, points: Sequence[Vec2]) -> list[Reading]:
    """Walls, enough diagonals to fix the room, one to four more, and some angles; without errors."""
    count = len(points)
    found: list[Reading] = [wall(points, i, rng.uniform(1.5, 3.0)) for i in range(count)]
    fan = [(0, j) for j in range(2, count - 1)]
    others = [(i, j) for i in range(1, count) for j in range(i + 2, count)]
    rng.shuffle(others)
    found += [length(points, i, j, rng.uniform(2.0, 3.0)) for i, j in fan + others[: rng.randint(1, 4)]]
    found += [angle(points, i, rng.uniform(0.1, 0.3)) for i in rng.sample(range(count), rng.randint(0, count))]
    return found


def with_errors(
    rng: random.Random, readings: Sequence[Reading], off: Mapping[str, float] | None = None
) -> list[Reading]:
    """The readings with normal errors of their standard errors, and those named ``off`` wrong by that much more."""
    return [shifted(r, rng.gauss(0.0, r.sigma) + (off or {}).get(r.name, 0.0)) for r in readings]


def shifted(reading: Reading, by: float) -> Reading:
    """A reading that is wrong by so much."""
    if isinstance(reading, LengthReading):
        return replace(reading, value_mm=reading.value_mm + by)
    return replace(reading, value_deg=reading.value_deg + by)


def roughly(rng: random.Random, points: Sequence[Vec2]) -> list[Vec2]:
    """Corners off by some 50 mm, in the room's frame."""
    return framed([(x + rng.gauss(0.0, 50.0), y + rng.gauss(0.0, 50.0)) for x, y in points])
