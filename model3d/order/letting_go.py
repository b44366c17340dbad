"""Whether a link can be let go by hand between two pieces that are both up: its hose then gives way by the depth of
engagement.

The hose is a thin elastic line of fixed length, clamped at both ends in place and direction; a spigot that stands just
out of its bore still points along it. Only where this is so can a piece go in or come out between its neighbours, or
the later of two go up before the earlier.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from model3d.families.family import Family
from model3d.geometry.placement import Vec3
from model3d.layout import Joint
from model3d.layout.allowances import engagement_mm, hose_straight_mm
from model3d.thermal.bent_hose import NoShape, bent_hose
from model3d.thermal.hoses import Ends, far_end_mm

DIGITS = 6  # figures are rounded to these, so that like links are worked out once


@dataclass(frozen=True, slots=True, kw_only=True)
class LettingGo:
    """A link's hose with one spigot drawn just out of its bore: its least bend radius against what it bears (0 when it
    finds no shape), and at an external corner how far its outside stays off the walls' edge, negative when that would
    cut it; None elsewhere, where it may lie against a flat wall meanwhile. All mm.
    """

    shorter_mm: float
    radius_mm: float
    least_mm: float
    off_edge_mm: float | None

    @property
    def goes(self) -> bool:
        """Whether the hose bears it, clear of the walls' edge."""
        return self.radius_mm >= self.least_mm and (self.off_edge_mm is None or self.off_edge_mm >= 0.0)


def letting_go(family: Family, turn_deg: float) -> LettingGo:
    """A link at a corner of this turn (positive internal, 0 in-line), let go."""
    turn = round(turn_deg, DIGITS)
    shorter = engagement_mm(family, "link")
    straight = hose_straight_mm(family, turn)
    end = far_end_mm(family, turn, straight, Ends(state="let go", earlier_mm=shorter))
    x, y, z = (round(c, DIGITS) + 0.0 for c in end)
    radius: float = 0.0
    off: float | None = None
    if straight >= 0.0:
        try:
            hose = bent_hose(family.link.hose_length_mm, (x, y, z), turn)
        except NoShape:
            pass
        else:
            radius = hose.least_radius_mm
            off = _off_edge_mm(family, turn, (x, y), hose.points_mm) if turn < 0.0 else None
    return LettingGo(shorter_mm=shorter, radius_mm=radius, least_mm=family.link.least_bend_radius_mm, off_edge_mm=off)


def lets_go(family: Family, joint: Joint) -> bool:
    """Whether a joint is a link that can be let go by hand between two pieces that are up."""
    return joint.kind == "link" and letting_go(family, joint.turn_deg).goes


def _off_edge_mm(family: Family, turn_deg: float, end: tuple[float, float], points: tuple[Vec3, ...]) -> float:
    """How far at least the hose's outside stays off the edge of an external corner: of the two walls' planes, which
    stand the bores' distance behind it, every point is in front of one by more than its radius.
    """
    e, turn = family.section.bore_u_mm, math.radians(turn_deg)
    across = (-math.sin(turn), math.cos(turn))
    other = [(p[0] - end[0]) * across[0] + (p[1] - end[1]) * across[1] + e for p in points]
    return min(max(p[1] + e, o) for p, o in zip(points, other, strict=True)) - family.link.outer_radius_mm
