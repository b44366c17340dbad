"""Corner and end allowances: each a sum of named terms, the names given by the family.

Source: plane geometry of a tangent arc between two lines at a turn tau, offset e from the wall lines; the rest are the
fittings' own lengths.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from model3d.families.family import Family
from model3d.families.rules import AllowanceOf
from model3d.layout.values import Term

SLIDE_MARGIN_MM = 2.0  # left free at the end of a slide, and past the depth of engagement at its start


@dataclass(frozen=True, slots=True, kw_only=True)
class Situation:
    """What an allowance depends on beside the family: the corner's turn (positive internal); by how much the piece
    slides toward something that stands beyond its end (0: nothing does)."""

    turn_deg: float = 0.0
    slides_mm: float = 0.0


def hose_straight_mm(family: Family, turn_deg: float) -> float:
    """c = (h_l - slack - R |tau|) / 2, the straight part each side of a link's arc; negative when the hose is too
    short.
    """
    link = family.link
    return (link.hose_length_mm - link.slack_mm - link.arc_radius_mm * math.radians(abs(turn_deg))) / 2.0


def engagement_mm(family: Family, joint: str) -> float:
    """How deep a fitting's leg enters a near end: the short leg's or the spigot's full insertion."""
    if joint == "elbow-short" and family.elbow is not None:
        return family.elbow.short_leg_mm - family.elbow.stub_mm
    return {"link": family.link.insertion_mm, "coupler": family.coupler.insertion_mm}.get(
        joint, family.end_insertion_mm
    )


def slide_mm(family: Family, joint: str) -> float:
    """d: the depth of engagement and 2 mm more."""
    return engagement_mm(family, joint) + SLIDE_MARGIN_MM


def _bend_tangent(family: Family, at: Situation) -> tuple[str, float]:
    e, r = family.section.bore_u_mm, family.elbow.bend_radius_mm if family.elbow else 0.0
    return f"({e:g} + {r:g}) tan({at.turn_deg:g}/2)", (e + r) * math.tan(math.radians(at.turn_deg) / 2.0)


def _arc_tangent(family: Family, at: Situation) -> tuple[str, float]:
    e, radius = family.section.bore_u_mm, family.link.arc_radius_mm
    sign, reach = ("+", radius + e) if at.turn_deg > 0 else ("-", radius - e)
    half = math.tan(math.radians(abs(at.turn_deg)) / 2.0)
    return f"({radius:g} {sign} {e:g}) tan({abs(at.turn_deg):g}/2)", reach * half


def _hose_straight(family: Family, at: Situation) -> tuple[str, float]:
    link = family.link
    arc = f"{link.arc_radius_mm:g} x {abs(at.turn_deg):g} deg in radians"
    text = f"({link.hose_length_mm:g} - {link.slack_mm:g} - {arc})/2"
    return text, hose_straight_mm(family, at.turn_deg)


def _slide_room(_family: Family, at: Situation) -> tuple[str, float]:
    if at.slides_mm == 0.0:
        return "nothing beyond", 0.0
    return f"{at.slides_mm:g} + {SLIDE_MARGIN_MM:g}", at.slides_mm + SLIDE_MARGIN_MM


def _plain(value_mm: Callable[[Family], float]) -> Callable[[Family, Situation], tuple[str, float]]:
    def term(family: Family, _at: Situation) -> tuple[str, float]:
        value = value_mm(family)
        return f"{value:g}", value

    return term


TERMS: Mapping[str, Callable[[Family, Situation], tuple[str, float]]] = {
    "bend-tangent": _bend_tangent,
    "elbow-stub": _plain(lambda f: f.elbow.stub_mm if f.elbow else 0.0),
    "arc-tangent": _arc_tangent,
    "hose-straight": _hose_straight,
    "link-stub": _plain(lambda f: f.link.stub_mm),
    "half-gap": _plain(lambda f: f.coupler.gap_mm / 2.0),
    "valve-length": _plain(lambda f: f.valve_end.length_mm),
    "return-length": _plain(lambda f: f.return_end.length_mm),
    "turn-back-length": _plain(lambda f: f.turn_back_end.length_mm),
    "slide-room": _slide_room,
    "cap-plate": _plain(lambda f: f.end_cap.plate_mm),
}


def allowance_terms(family: Family, fitting: AllowanceOf, at: Situation) -> tuple[Term, ...]:
    """The terms of an allowance for a fitting (valve, return, turn-back, elbow, link, coupler, none). Zero terms are
    left out.
    """
    found: list[Term] = []
    for name in family.allowances[fitting]:
        formula, value = TERMS[name](family, at)
        if value != 0.0:
            found.append(Term(name=name, formula=formula, value_mm=value))
    return tuple(found)
