"""The interference engine: placed solids in, overlapping pairs out. It knows nothing of skirting.

Boxes first, then the exact boolean once for each distinct pair of shapes in one relative place.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping
from dataclasses import dataclass

import cadquery as cq

from model3d.checks.bodies import Body, box_pairs, own_boxes, placed_boxes
from model3d.checks.overlap import Overlap, overlap
from model3d.geometry.placement import Placement, Vec3

Wanted = Callable[[Body, Body], bool]
Tick = Callable[[int, int], None]
PLACE_DIGITS = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Tolerance:
    """``contact_mm``: an overlap no deeper than this is contact, not a clash."""

    contact_mm: float = 0.02


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """Two bodies that overlap: how, and where in the room frame."""

    first: str
    second: str
    overlap: Overlap
    place_mm: Vec3


def clashes(
    bodies: Iterable[Body], shapes: Mapping[Hashable, cq.Solid], *, wanted: Wanted, tolerance: Tolerance, tick: Tick | None = None
) -> tuple[Clash, ...]:
    """Every wanted pair of bodies whose overlap is deeper than contact, in the order of the bodies.

    ``wanted`` says whether a pair is to be compared. A body wholly inside another overlaps it. Raises OverlapError when the kernel fails.
    """
    listed = tuple(bodies)
    boxes = placed_boxes(listed, own_boxes(shapes))
    pairs = [(listed[i], listed[j]) for i, j in sorted(map(tuple, box_pairs(boxes, margin_mm=0.0).tolist()))]
    pairs = [(a, b) for a, b in pairs if wanted(a, b)]
    memo: dict[Hashable, Overlap | None] = {}
    found: list[Clash] = []
    for number, (a, b) in enumerate(pairs):
        if tick is not None:
            tick(number, len(pairs))
        b_in_a = a.placement.inverse() @ b.placement
        key = (a.shape_key, b.shape_key, rounded(b_in_a))
        if key not in memo:
            memo[key] = overlap(shapes[a.shape_key], shapes[b.shape_key], b_in_a)
        met = memo[key]
        if met is not None and met.depth_mm > tolerance.contact_mm:
            found.append(Clash(first=a.id, second=b.id, overlap=met, place_mm=a.placement.point(met.place_mm)))
    return tuple(found)


def rounded(placement: Placement) -> tuple[float, ...]:
    """A placement as a key: equal for placements that agree to a millionth of a millimetre."""
    rows = (placement.origin_mm, placement.x_axis, placement.y_axis)
    return tuple(round(value, PLACE_DIGITS) + 0.0 for row in rows for value in row)
