"""The interference engine: placed solids in, overlapping pairs out. It knows nothing of skirting; any solids
of the kernel will do.

Boxes first; then each pair of equal shapes in the same place to one another is looked at once, and what is
found is kept in a ``Memory`` for the next time.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

import cadquery as cq
import numpy as np

from model3d.checks.engine.bodies import Body, Overlap, box_pairs, placed_boxes
from model3d.checks.engine.verdict import Memory, Solids, hull_overlap_mm, near_of, overlap_beyond, size_mm
from model3d.geometry.placement import Placement, Vec3

Allowed = Callable[[Body, Body], float | None]
Tick = Callable[[int, int], None]

ORIGIN_DIGITS, AXIS_DIGITS = 6, 10  # placements that agree so far, in millimetres and as directions, are one


MUCH_LARGER = 2.0  # times as large: from here on only what of a body comes near the small one is looked at


@dataclass(frozen=True, slots=True, kw_only=True)
class Tolerance:
    """``contact_mm``: two bodies touch, and do not clash, when no wider ball than this fits in what they
    share, nor one of them has to be moved further to be off the other.
    """

    contact_mm: float = 0.02


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """Two bodies that overlap deeper than they may: how, and where in the room frame."""

    first: str
    second: str
    overlap: Overlap
    place_mm: Vec3


def clashes(
    bodies: Iterable[Body],
    shapes: Mapping[Hashable, cq.Solid],
    *,
    allowed_mm: Allowed,
    tolerance: Tolerance,
    memory: Memory | None = None,
    tick: Tick | None = None,
) -> Iterator[Clash]:
    """Every pair of bodies that share more than they may, in the order of the bodies, as they are found. A
    body wholly inside another overlaps it.

    ``allowed_mm`` gives the depth to which a pair is meant to overlap (0 for most), None for a pair that is
    not to be compared. Raises RuntimeError when neither the kernel nor the meshes can say.
    """
    listed = tuple(bodies)
    solids = Solids(
        shapes=shapes, memory=Memory() if memory is None else memory, contact_mm=tolerance.contact_mm
    )
    skins = [solids.skin(body.shape_key) for body in listed]
    own = {id(s): np.array([s.hull.min(axis=0), s.hull.max(axis=0)]) for s in skins}
    pairs = box_pairs(placed_boxes(listed, [own[id(s)] for s in skins]), margin_mm=0.0)
    asked = [(listed[i], listed[j]) for i, j in pairs.tolist()]
    depths = [(a, b, limit) for a, b in asked if (limit := allowed_mm(a, b)) is not None]
    for number, (a, b, limit) in enumerate(depths):
        if tick is not None:
            tick(number, len(depths))
        met = _verdict(solids, a, b, limit)
        if met is not None:
            yield met


def _verdict(solids: Solids, a: Body, b: Body, allowed_mm: float) -> Clash | None:
    """The clash of two bodies, from memory where an equal pair was met before, the other way round or not."""
    b_in_a = a.placement.inverse() @ b.placement
    forth, back = rounded(b_in_a), rounded(b_in_a.inverse())
    kept = solids.memory.verdicts
    there = (a.shape_key, b.shape_key, forth, allowed_mm, solids.contact_mm)
    turned = (b.shape_key, a.shape_key, back, allowed_mm, solids.contact_mm)
    if there not in kept and turned in kept:
        met, frame = kept[turned], b.placement
    else:
        if there not in kept:
            kept[there] = _alike(solids, a.shape_key, b.shape_key, b_in_a, allowed_mm)
        met, frame = kept[there], a.placement
    if met is None:
        return None
    return Clash(first=a.id, second=b.id, overlap=met, place_mm=frame.point(met.place_mm))


def _alike(solids: Solids, a: Hashable, b: Hashable, b_in_a: Placement, allowed_mm: float) -> Overlap | None:
    """What two solids share beyond what they may, from memory where the smaller one met the same faces
    before.
    """
    sizes = size_mm(solids, a), size_mm(solids, b)
    if (
        max(sizes) < MUCH_LARGER * min(sizes)
        or hull_overlap_mm(solids.skin(a), solids.skin(b), b_in_a) <= 0.0
    ):
        return overlap_beyond(solids, a, b, b_in_a, allowed_mm=allowed_mm)
    a_small = sizes[0] < sizes[1]
    small, large, small_in_large = (a, b, b_in_a.inverse()) if a_small else (b, a, b_in_a)
    near = near_of(solids, large, small, small_in_large)
    if near is None:
        return overlap_beyond(solids, a, b, b_in_a, allowed_mm=allowed_mm)
    kept, name = solids.memory.verdicts, (small, near, allowed_mm, solids.contact_mm)
    if name not in kept:
        met = overlap_beyond(solids, small, large, small_in_large.inverse(), allowed_mm=allowed_mm)
        kept[name] = met
    met = kept[name]
    if met is None or a_small:
        return met
    return replace(met, place_mm=b_in_a.point(met.place_mm))


def rounded(placement: Placement) -> tuple[float, ...]:
    """A placement as a key: equal for placements that agree to a millionth of a millimetre over a body of
    metres.
    """
    turned = (*placement.x_axis, *placement.y_axis)
    return (
        *(round(value, ORIGIN_DIGITS) + 0.0 for value in placement.origin_mm),
        *(round(value, AXIS_DIGITS) + 0.0 for value in turned),
    )
