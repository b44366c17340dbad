"""Links' hoses while a piece moves: their ends' places in every pose, how far apart, how tightly the hose bends.

The hose is a thin elastic line of fixed length, clamped at both ends in place and direction.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from model3d.families.family import Family
from model3d.geometry.placement import Vec3, add, scale, subtract
from model3d.layout import Joint, Piece
from model3d.layout.allowances import engagement_mm
from model3d.moves.values import HosePose
from model3d.moves.ways import Site
from model3d.steps import MoveLeg
from model3d.thermal.bent_hose import NoShape, bent_hose
from model3d.thermal.hoses import RESERVE_MM, Ends, far_end_mm

SHARES = tuple(k / 6.0 for k in range(1, 7))
DIGITS = 6  # places are rounded to these, so that like links are worked out once
BY_HAND = "insert"


def hose_poses(site: Site) -> Iterator[tuple[Joint, list[HosePose]]]:
    """The links whose hoses a step bends: at the near end, which the piece is pushed onto or that is pushed in by hand
    when the piece before is up; at the far end, when the piece beyond it is up already.
    """
    near, far, step = site.near, site.far, site.step
    if near is not None and near.kind == "link":
        if not step.near_by_hand:
            yield near, near_hose_poses(site.family, near, site.pieces, step.legs)
        elif site.is_up(near.earlier):
            yield near, by_hand_hose_poses(site.family, near, site.pieces)
    if far is not None and far.kind == "link" and site.is_up(far.later):
        yield far, by_hand_hose_poses(site.family, far, site.pieces)


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


def by_hand_hose_poses(family: Family, joint: Joint, pieces: Mapping[str, Piece]) -> list[HosePose]:
    """The hose of a link that is pushed by hand into the later of two pieces that are up: from where its spigot stands
    just out of the bore, along it, to its place.
    """
    out = -engagement_mm(family, "link")
    return [_pose(family, joint, pieces, BY_HAND, (out * (1.0 - share), 0.0, 0.0)) for share in (0.0, *SHARES)]


def _along(legs: Sequence[MoveLeg]) -> Iterator[tuple[MoveLeg, Vec3]]:
    for leg in legs:
        for share in SHARES:
            yield leg, add(leg.from_mm, scale(subtract(leg.to_mm, leg.from_mm), share))


def _pose(family: Family, joint: Joint, pieces: Mapping[str, Piece], leg: str, at_mm: Vec3) -> HosePose:
    """The hose with its later end ``at_mm`` from its place, in the later piece's run frame."""
    t, u, v = at_mm
    earlier, later = pieces[joint.earlier].far_out_mm, pieces[joint.later].near_out_mm
    ends = Ends(state=leg, earlier_mm=earlier, later_mm=later - t, out_mm=u, down_mm=-v)
    x, y, z = (round(c, DIGITS) + 0.0 for c in far_end_mm(family, joint.turn_deg, joint.straight_mm, ends))
    try:
        radius = bent_hose(family.link.hose_length_mm, (x, y, z), round(joint.turn_deg, DIGITS)).least_radius_mm
    except NoShape:
        radius = 0.0
    return HosePose(joint=joint.mark, leg=leg, at_mm=at_mm, end_mm=(x, y, z), radius_mm=radius)


def most_apart_mm(family: Family) -> float:
    """How far apart a hose's ends may stand."""
    return family.link.hose_length_mm - RESERVE_MM


def worst(family: Family, poses: Sequence[HosePose]) -> HosePose | None:
    """The pose that breaks the hose's limits furthest, None when all keep them."""
    bad = [p for p in poses if p.apart_mm > most_apart_mm(family) or p.radius_mm < family.link.least_bend_radius_mm]
    return min(bad, key=lambda p: (p.apart_mm <= most_apart_mm(family), p.radius_mm), default=None)
