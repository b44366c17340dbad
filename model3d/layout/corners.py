"""Which joint a corner takes, and whether it can be made there at all."""

from __future__ import annotations

import math
from dataclasses import dataclass

from model3d.families.family import Family
from model3d.findings import Finding
from model3d.layout.allowances import Situation, allowance_terms, hose_straight_mm
from model3d.layout.values import JointKind, Term
from model3d.rooms import Corner, CornerPass

RIGHT_ANGLE_DEG = 90.0
BODY_MARGIN_MM = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerChoice:
    """The joint of a corner, its allowance (the same on both sides), why it was chosen, and what is wrong with it."""

    kind: JointKind
    terms: tuple[Term, ...]
    straight_mm: float
    reason: str
    findings: tuple[Finding, ...]


def choose(family: Family, passed: CornerPass) -> CornerChoice:
    """The joint for a corner of a run.

    An elbow serves an internal corner within its play of a right angle; everything else takes a link. A joint the plan
    forces is kept, and refused in a finding where it cannot work. Whether the pieces' ends meet there is for
    ``meeting_findings``, when the pieces are known.
    """
    kind, reason, findings = _kind(family, passed)
    at = Situation(turn_deg=passed.corner.turn_deg)
    terms = allowance_terms(family, kind, at)
    straight = hose_straight_mm(family, at.turn_deg) if kind == "link" else 0.0
    if kind == "link":
        findings += _hose_findings(family, passed.corner, straight)
    return CornerChoice(kind=kind, terms=terms, straight_mm=straight, reason=reason, findings=findings)


def _kind(family: Family, passed: CornerPass) -> tuple[JointKind, str, tuple[Finding, ...]]:
    corner, elbow = passed.corner, family.elbow
    off = corner.turn_deg - RIGHT_ANGLE_DEG
    if corner.turn_deg <= 0:
        if passed.use == "elbow":
            return "link", "external corner", (_elbow_refused(corner, "an elbow serves internal corners only", off),)
        return "link", "external corner", ()
    if elbow is None or family.corner_joints.internal == "link":
        if passed.use == "elbow":
            return "link", "no elbow in this family", (_elbow_refused(corner, "this family has no elbow", off),)
        return "link", "the family takes a link at every corner", ()
    if abs(off) > elbow.play_deg:
        if passed.use == "elbow":
            text = f"an elbow bears {elbow.play_deg:g} degrees either way, this corner is {abs(off):.2f} off square"
            return "elbow", "asked for", (_elbow_refused(corner, text, off, elbow.play_deg),)
        reason = f"{abs(off):.2f} degrees off square, the elbow bears {elbow.play_deg:g}"
        return "link", reason, (_past_play_note(corner, off, elbow.play_deg, reason),)
    if passed.use == "link":
        return "link", "asked for", ()
    return "elbow", "internal corner within the elbow's play", ()


def _past_play_note(corner: Corner, off_deg: float, play_deg: float, reason: str) -> Finding:
    return Finding(
        code="link-for-elbow",
        severity="note",
        where=f"corner {corner.id}",
        message=f"takes a link, not an elbow: {reason}",
        remedy="Nothing to do; the sheet says so.",
        parts=(corner.id,),
        measured=abs(off_deg),
        limit=play_deg,
        unit="deg",
        place_mm=(*corner.at_mm, 0.0),
    )


def _elbow_refused(corner: Corner, text: str, off_deg: float, play_deg: float = 0.0) -> Finding:
    return Finding(
        code="elbow-past-play", severity="error", where=f"corner {corner.id}", message=text,
        remedy="Use a link at this corner.", parts=(corner.id,), measured=abs(off_deg), limit=play_deg, unit="deg",
        place_mm=(*corner.at_mm, 0.0),
    )


def meeting_findings(family: Family, corner: Corner, choice: CornerChoice, growth_mm: float) -> tuple[Finding, ...]:
    """Two square-cut ends meet at an internal corner unless each stands (b + D) tan(tau/2) + growth + 2 short of it.

    ``growth_mm`` is the most that either of the two pieces at the corner can grow.
    """
    allowance_mm = sum(t.value_mm for t in choice.terms)
    if corner.turn_deg <= 0:
        return ()
    need = family.section.front_u_mm * math.tan(math.radians(corner.turn_deg) / 2.0) + growth_mm + BODY_MARGIN_MM
    if allowance_mm >= need:
        return ()
    return (Finding(
        code="corner-too-acute", severity="error", where=f"corner {corner.id}",
        message=f"the ends would meet: they need {need:.1f} mm each, the joint leaves {allowance_mm:.1f} mm",
        remedy="End the run before this corner and start another after it.", parts=(corner.id,), measured=allowance_mm,
        limit=need, place_mm=(*corner.at_mm, 0.0),
    ),)


def _hose_findings(family: Family, corner: Corner, straight_mm: float) -> tuple[Finding, ...]:
    """A link needs hose enough for its arc and both tails, and at an external corner it must clear the wall's apex."""
    link, e = family.link, family.section.bore_u_mm
    where, place = f"corner {corner.id}", (*corner.at_mm, 0.0)
    found: list[Finding] = []
    tail = link.tail.length_mm
    if straight_mm < tail:
        code = "corner-too-acute" if corner.turn_deg > 0 else "corner-too-sharp"
        short = f"{2 * (tail - straight_mm):.1f} mm too short"
        found.append(
            Finding(
                code=code,
                severity="error",
                where=where,
                message=f"the hose is {short} for a turn of {abs(corner.turn_deg):.1f} degrees",
                remedy="End the run before this corner and start another after it.",
                parts=(corner.id,),
                measured=straight_mm,
                limit=tail,
                place_mm=place,
            )
        )
    if corner.turn_deg < 0:
        half = math.cos(math.radians(corner.turn_deg) / 2.0)
        apex = link.arc_radius_mm - (link.arc_radius_mm - e) / half
        if apex < link.outer_radius_mm:
            found.append(
                Finding(
                    code="corner-too-sharp",
                    severity="error",
                    where=where,
                    message=f"the hose would cut the wall's edge: its middle passes at {apex:.1f} mm, "
                    f"it needs {link.outer_radius_mm:g} mm",
                    remedy="End the run before this corner and start another after it.",
                    parts=(corner.id,),
                    measured=apex,
                    limit=link.outer_radius_mm,
                    place_mm=place,
                )
            )
    return tuple(found)
