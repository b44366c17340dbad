"""Links' hoses while a piece moves: their ends' places in every pose, how far apart, how tightly the hose bends.

The hose is a thin elastic line of fixed length, clamped at both ends in place and direction.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from model3d.families.family import Family
from model3d.geometry.placement import Vec3, add, scale, subtract
from model3d.layout import Joint, Piece
from model3d.moves.values import HosePose
from model3d.steps import MoveLeg
from model3d.thermal.bent_hose import NoShape, bent_hose
from model3d.thermal.hoses import RESERVE_MM, Ends, far_end_mm

SHARES = tuple(k / 6.0 for k in range(1, 7))
DIGITS = 6  # places are rounded to these, so that like links are worked out once


def near_hose_poses(
    family: Family, joint: Joint, pieces: Mapping[str, Piece], legs: Sequence[MoveLeg]
) -> list[HosePose]:
    """The hose of the link at a piece's near end, from where its end is held for the piece to meet it, to where the
    piece is pressed home.

    While the piece is offered the hose end waits where the piece will engage it.
    """
    engage = next((k for k, leg in enumerate(legs) if leg.name == "engage"), None)
    if engage is None:
        return []
    found = [_pose(family, joint, pieces, "engage", legs[engage].to_mm)]
    return found + [_pose(family, joint, pieces, leg.name, at) for leg, at in _along(legs[engage + 1 :])]


def far_hose_poses(
    family: Family, joint: Joint, pieces: Mapping[str, Piece], legs: Sequence[MoveLeg]
) -> list[HosePose]:
    """The hose of the link at a piece's far end when the piece beyond it is up: from the offer to the piece's place."""
    found = [_pose(family, joint, pieces, "offer", legs[0].to_mm, far=True)]
    return found + [_pose(family, joint, pieces, leg.name, at, far=True) for leg, at in _along(legs[1:])]


def _along(legs: Sequence[MoveLeg]) -> Iterator[tuple[MoveLeg, Vec3]]:
    for leg in legs:
        for share in SHARES:
            yield leg, add(leg.from_mm, scale(subtract(leg.to_mm, leg.from_mm), share))


def _pose(
    family: Family, joint: Joint, pieces: Mapping[str, Piece], leg: str, at_mm: Vec3, *, far: bool = False
) -> HosePose:
    """The hose with the moving piece ``at_mm`` from its place, in its run frame; ``far``: it is the earlier piece."""
    t, u, v = at_mm
    earlier, later = pieces[joint.earlier].far_out_mm, pieces[joint.later].near_out_mm
    if far:
        ends = Ends(state=leg, earlier_mm=earlier + t, later_mm=later)
        end = subtract(far_end_mm(family, joint.turn_deg, joint.straight_mm, ends), (0.0, u, v))
    else:
        ends = Ends(state=leg, earlier_mm=earlier, later_mm=later - t, out_mm=u, down_mm=-v)
        end = far_end_mm(family, joint.turn_deg, joint.straight_mm, ends)
    x, y, z = (round(c, DIGITS) + 0.0 for c in end)
    try:
        radius = bent_hose(family.link.hose_length_mm, (x, y, z), round(joint.turn_deg, DIGITS)).least_radius_mm
    except NoShape:
        radius = 0.0
    return HosePose(joint=joint.mark, leg=leg, at_mm=at_mm, apart_mm=math.hypot(x, y, z), radius_mm=radius)


def most_apart_mm(family: Family) -> float:
    """How far apart a hose's ends may stand."""
    return family.link.hose_length_mm - RESERVE_MM


def worst(family: Family, poses: Sequence[HosePose]) -> HosePose | None:
    """The pose that breaks the hose's limits furthest, None when all keep them."""
    bad = [p for p in poses if p.apart_mm > most_apart_mm(family) or p.radius_mm < family.link.least_bend_radius_mm]
    return min(bad, key=lambda p: (p.apart_mm <= most_apart_mm(family), p.radius_mm), default=None)
