"""Any solids that go straight out of an assembly, ready to be taken apart. It knows nothing of what they are.

bodies = [MotionBody(id="box", mesh=mesh_of(box), placement=at(0, 0, 0)), ...]
take_apart(straight_out(bodies, directions=((0.0, 0.0, 1.0), (1.0, 0.0, 0.0))))
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from itertools import product

import numpy as np

from model3d.geometry.placement import Vec3, scale
from model3d.motion import Memo, MotionBody, Moving, contacts
from model3d.motion.way import SKIN_MM, Meant, rigid
from model3d.order.apart import Assembly

CLEAR_MM = 1.0  # how far past everything a way ends


def straight_out(
    bodies: Sequence[MotionBody],
    *,
    directions: Sequence[Vec3],
    fixed: Collection[str] = (),
    attached: Mapping[str, frozenset[str]] | None = None,
    rests_on: Mapping[str, frozenset[str]] | None = None,
    meant: Meant = rigid,
    skin_mm: float = SKIN_MM,
) -> Assembly[Vec3]:
    """The assembly of these bodies, in the order in which they usually go together. Each goes along one of the unit
    directions, the preferred first, until it is past the box round them all; ``fixed`` ones never go.

    ``meant`` says what of a pair may stand in one another (see ``contacts``); bodies that only touch, within the skin,
    do not block.
    """
    by_id = {b.id: b for b in bodies}
    boxes = {b.id: _corners(b) for b in bodies}
    every = np.concatenate(list(boxes.values()))
    memo: Memo = {}

    def blockers(thing: str, way: Vec3, present: frozenset[str]) -> frozenset[str]:
        body = by_id[thing]
        along = np.array(way)
        length = float((every @ along).max() - (boxes[thing] @ along).min()) + CLEAR_MM
        mover = Moving(id=thing, mesh=body.mesh, poses=(body.placement, body.placement.moved(scale(way, length))))
        others = [by_id[i] for i in sorted({*present, *fixed} - {thing})]
        met = contacts([mover], others, meant=meant, memo=memo, skin_mm=skin_mm)
        return frozenset(c.standing for c in met)

    things = _movable(by_id, fixed)
    return Assembly(
        things=things,
        ways=dict.fromkeys(things, tuple(directions)),
        blockers=blockers,
        attached=attached or {},
        rests_on=rests_on or {},
    )


def _movable(ids: Iterable[str], fixed: Collection[str]) -> tuple[str, ...]:
    return tuple(i for i in ids if i not in fixed)


def _corners(body: MotionBody) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """The eight corners of a body's box, in the outer frame."""
    x, y, z = body.mesh.box.T.tolist()
    return np.array([body.placement.point(corner) for corner in product(x, y, z)])
