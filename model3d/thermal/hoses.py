"""A link's hose in every state: at rest, while it engages, hot at either end and at both, and at the frost
set-back.
"""

from __future__ import annotations

import math
from collections.abc import Container
from dataclasses import dataclass

from model3d.families.family import Family
from model3d.figures import Figure
from model3d.geometry.placement import Vec2, Vec3
from model3d.layout import Joint
from model3d.thermal.bent_hose import BentHose, NoShape, bent_hose
from model3d.thermal.values import Growth, HoseState, LinkHose

RESERVE_MM = 1.0  # a hose's ends never stand closer to its full length than this
SHAPE_RULE = "thin elastic hose clamped at both ends, of fixed length"


@dataclass(frozen=True, slots=True, kw_only=True)
class Ends:
    """How the two ends stand off their place: each moved toward the other by growth; the later one, while
    it engages, ``out_mm`` off the wall and ``down_mm``.
    """

    state: str
    earlier_mm: float = 0.0
    later_mm: float = 0.0
    out_mm: float = 0.0
    down_mm: float = 0.0


def hose_ends(
    family: Family, earlier: Growth, later: Growth, *, cut_mm: tuple[float, float] = (0.0, 0.0)
) -> tuple[Ends, ...]:
    """How the ends of a link's hoses stand in every state, between two pieces that grow. A free end may take the whole
    growth of its piece.

    ``cut_mm`` is by how much the faces of the earlier and the later piece stand nearer each other than laid
    out, because of how they were cut.
    """
    a, b = cut_mm
    hot = (earlier.taken_mm("far", earlier.hot), later.taken_mm("near", later.hot))
    frost = (earlier.taken_mm("far", earlier.frost), later.taken_mm("near", later.frost))
    out, down = family.bracket.press_mm, family.bracket.lift_mm
    return (
        Ends(state="at rest", earlier_mm=a, later_mm=b),
        Ends(state="engaging", earlier_mm=a, later_mm=b, out_mm=out, down_mm=down),
        Ends(state="hot at the earlier piece", earlier_mm=a + hot[0], later_mm=b),
        Ends(state="hot at the later piece", earlier_mm=a, later_mm=b + hot[1]),
        Ends(state="hot at both", earlier_mm=a + hot[0], later_mm=b + hot[1]),
        Ends(state="at the frost set-back", earlier_mm=a + frost[0], later_mm=b + frost[1]),
    )


def link_hose(
    family: Family,
    joint: Joint,
    earlier: Growth,
    later: Growth,
    *,
    cut_mm: tuple[float, float] = (0.0, 0.0),
    states: Container[str] | None = None,
) -> LinkHose:
    """The hose of a link in every state, its shape worked out; of ``states`` alone where they are given."""
    ends = hose_ends(family, earlier, later, cut_mm=cut_mm)
    return LinkHose(
        joint=joint.mark,
        states=tuple(_state(family, joint, e) for e in ends if states is None or e.state in states),
        most_apart_mm=most_apart_mm(family),
        least_bend_mm=family.link.least_bend_radius_mm,
    )


def most_apart_mm(family: Family) -> float:
    """How far apart the ends of a family's hoses may stand."""
    return family.link.hose_length_mm - RESERVE_MM


def hose_apart_mm(family: Family, joint: Joint, ends: Ends) -> float:
    """How far apart the ends of a link's hose stand in a state."""
    return math.hypot(*far_end_mm(family, joint.turn_deg, joint.straight_mm, ends))


def before_crossing_mm(family: Family, joint: Joint, ends: Ends) -> float:
    """How far before the place where its two straight lines cross the nearer end of a link's hoses stands; below 0 it
    stands beyond the other end's line. In-line half of what is between the ends.
    """
    room = joint.straight_mm + family.link.arc_radius_mm * math.tan(math.radians(abs(joint.turn_deg)) / 2.0)
    return room - max(ends.earlier_mm, ends.later_mm)


def far_end_mm(family: Family, turn_deg: float, straight_mm: float, ends: Ends) -> Vec3:
    """Where the hose ends, as seen from its beginning (x along its first direction, y toward the room).

    At rest: straight, arc, straight; an internal corner turns toward the room.
    """
    turn, radius = math.radians(turn_deg), family.link.arc_radius_mm
    c, s = math.cos(turn), math.sin(turn)
    x = straight_mm + radius * abs(s) + (straight_mm - ends.later_mm) * c - ends.earlier_mm
    y = math.copysign(radius, turn) * (1.0 - c) + (straight_mm - ends.later_mm) * s
    return (x - ends.out_mm * s, y + ends.out_mm * c, -ends.down_mm)


def _state(family: Family, joint: Joint, ends: Ends) -> HoseState:
    turn = joint.turn_deg
    end = far_end_mm(family, turn, joint.straight_mm, ends)
    apart = math.hypot(*end)
    formula = "sqrt(" + " + ".join(f"{abs(v):.2f}^2" for v in end) + ")"
    rule = f"along, across and down; at most {family.link.hose_length_mm:g} - {RESERVE_MM:g}"
    reach = Figure(name=f"hose ends apart, {ends.state}", formula=formula, value=apart, unit="mm", rule=rule)
    if before_crossing_mm(family, joint, ends) <= 0.0:
        return HoseState(state=ends.state, apart=reach, bend=None, crossed=True)
    try:
        x, y, z = (round(v, 6) for v in end)  # so that like links are worked out once
        shape = bent_hose(family.link.hose_length_mm, (x, y, z), round(turn, 6))
    except NoShape:
        return HoseState(state=ends.state, apart=reach, bend=None)
    bend = Figure(
        name=f"least bend radius, {ends.state}",
        formula=f"{family.link.hose_length_mm:g} / {shape.most_bend:.4f}",
        value=shape.least_radius_mm,
        unit="mm",
        rule=f"{SHAPE_RULE}, turned by {abs(turn):.1f} degrees: its length over its greatest bend",
    )
    return HoseState(state=ends.state, apart=reach, bend=bend, off_edge=_off_edge(family, joint, ends, shape))


def _off_edge(family: Family, joint: Joint, ends: Ends, shape: BentHose) -> Figure | None:
    """How far the hose's outside passes the wall's edge; None at a corner that has none."""
    if joint.turn_deg >= 0.0:
        return None
    e, link = family.section.bore_u_mm, family.link
    half = math.tan(math.radians(-joint.turn_deg) / 2.0)
    edge = ((link.arc_radius_mm - e) * half + joint.straight_mm - ends.earlier_mm, -e)
    middle = min(
        _to_stretch(edge, (a[0], a[1]), (b[0], b[1]))
        for a, b in zip(shape.points_mm, shape.points_mm[1:], strict=False)
    )
    return Figure(
        name=f"hose off the wall's edge, {ends.state}",
        formula=f"{middle:.2f} - {link.outer_radius_mm:g}",
        value=middle - link.outer_radius_mm,
        unit="mm",
        rule=f"{SHAPE_RULE}; its centre line less its radius",
    )


def _to_stretch(point: Vec2, a: Vec2, b: Vec2) -> float:
    du, dv = b[0] - a[0], b[1] - a[1]
    length = du * du + dv * dv
    f = 0.0 if length == 0.0 else ((point[0] - a[0]) * du + (point[1] - a[1]) * dv) / length
    f = min(1.0, max(0.0, f))
    return math.hypot(point[0] - a[0] - f * du, point[1] - a[1] - f * dv)
