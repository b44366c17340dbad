"""One wall's share of a run: where its pieces' cut faces stand, counted from where the run comes onto the
wall.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from model3d.families.family import Family
from model3d.findings import Finding
from model3d.layout.allowances import Situation, allowance_terms
from model3d.layout.in_the_wall import Span
from model3d.layout.splitting import SplitRules, divided
from model3d.rooms import InLineJoint, RunSpan
from model3d.rooms.runs import InLineUse

CLOSES_WITHIN_MM = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """One piece's stretch: its cut faces from the span's beginning, and the growth gap left beyond its far
    one.
    """

    near_mm: float
    far_mm: float
    growth_gap_mm: float = 0.0

    @property
    def length_mm(self) -> float:
        """The cut length."""
        return self.far_mm - self.near_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class SpanLayout:
    """The stretches of a span, the in-line joints between them (one fewer), and what did not work out."""

    stretches: tuple[Stretch, ...]
    joints: tuple[InLineUse, ...]
    findings: tuple[Finding, ...]


def growth_mm(family: Family, length_mm: float, rise_k: float) -> float:
    """dL = alpha L dT."""
    return family.material.expansion_per_k * length_mm * rise_k


def lay_span(
    family: Family,
    span: RunSpan,
    *,
    start_mm: float,
    end_mm: float,
    free_rise_k: float,
    run_id: str,
    rules: SplitRules | None = None,
) -> SpanLayout:
    """Pieces between the two end allowances of a span.

    ``free_rise_k`` above 0 says that the far end is free with no stub between, so that the last piece is
    cut short by its own growth over that rise. Without joints asked for, a span longer than a stock bar
    gives is divided by ``rules`` (of itself: whole bars, nothing to keep off). Lengths asked for are kept,
    the other pieces share what is left; when nothing is left to share and the sum is off, a finding says
    by how much.
    """
    last_mm = span.length_mm - end_mm
    rules = rules or SplitRules(stock_mm=tuple(sorted(family.stock_lengths_mm)))
    joints, findings = _joints(family, span, start_mm, last_mm, run_id, rules)
    half = [sum(t.value_mm for t in allowance_terms(family, j, Situation())) for j in (x.use for x in joints)]
    if span.cut_lengths and not span.joints:
        stretches = _shared(span, start_mm, last_mm, half)
    else:
        bounds = [start_mm]
        for joint, gap in zip(joints, half, strict=True):
            middle = abs(joint.at_mm - span.enters_mm)
            bounds += [middle - gap, middle + gap]
        bounds.append(last_mm)
        stretches = [Stretch(near_mm=a, far_mm=b) for a, b in zip(bounds[::2], bounds[1::2], strict=True)]
    stretches, off = _asked(span, stretches, last_mm, run_id)
    if free_rise_k > 0 and stretches:
        tail = stretches[-1]
        asked = {c.piece for c in span.cut_lengths}
        gap = tail.length_mm * (1 - 1 / (1 + family.material.expansion_per_k * free_rise_k))
        if len(stretches) not in asked:
            stretches[-1] = Stretch(near_mm=tail.near_mm, far_mm=tail.far_mm - gap, growth_gap_mm=gap)
    return SpanLayout(
        stretches=tuple(stretches), joints=tuple(j.use for j in joints), findings=tuple(findings) + off
    )


def _joints(
    family: Family, span: RunSpan, start_mm: float, last_mm: float, run_id: str, rules: SplitRules
) -> tuple[tuple[InLineJoint, ...], list[Finding]]:
    """The joints asked for; with lengths asked for, as many as they and the stock need; else those of a
    division.
    """
    if span.joints:
        return span.joints, []
    gap = 2 * sum(t.value_mm for t in allowance_terms(family, family.inline_joint, Situation()))
    if span.cut_lengths:
        room, most = last_mm - start_mm, max(c.piece for c in span.cut_lengths)
        pieces = max(1, math.ceil((room + gap) / (rules.longest_mm + gap) - 1e-9), most)
        return (InLineJoint(at_mm=0.0, use=family.inline_joint),) * (pieces - 1), []
    division = divided(start_mm, last_mm, gap, least_piece_mm(family), rules)
    sense = 1 if span.leaves_mm > span.enters_mm else -1
    joints = tuple(
        InLineJoint(at_mm=span.enters_mm + sense * m, use=family.inline_joint) for m in division.middles_mm
    )
    return joints, _split_findings(span, run_id, last_mm - start_mm, rules, joints, division.near)


def least_piece_mm(family: Family) -> float:
    """The least length of any piece of a family: the deepest insertions at both its ends, and 2 mm."""
    ends = [family.link.insertion_mm, family.coupler.insertion_mm, family.end_insertion_mm]
    if family.elbow is not None:
        ends += [
            family.elbow.long_leg_mm - family.elbow.margin_mm,
            family.elbow.short_leg_mm - family.elbow.stub_mm,
        ]
    deepest, other = sorted(ends, reverse=True)[:2]
    return deepest + other + 2.0


def _split_findings(
    span: RunSpan,
    run_id: str,
    room_mm: float,
    rules: SplitRules,
    joints: tuple[InLineJoint, ...],
    near: tuple[Span, ...],
) -> list[Finding]:
    """That a wall was divided, where, and what a joint had to be set too near to."""
    if not joints:
        return []
    where, places = f"run {run_id}, wall {span.wall.id}", ", ".join(f"{j.at_mm:.0f}" for j in joints)
    found = [
        Finding(
            code="split-for-stock",
            severity="note",
            where=where,
            message=(
                f"{room_mm:.1f} mm is more than a stock bar gives, {rules.longest_mm:g} mm: "
                f"{len(joints) + 1} pieces, joint(s) at {places} from corner {span.wall.first_corner.id}"
            ),
            remedy="Give in-line joints of your own if these stand badly.",
            parts=(span.wall.id,),
            measured=room_mm,
            limit=rules.longest_mm,
        )
    ]
    if near:
        things = ", ".join(s.what for s in near)
        found.append(
            Finding(
                code="joint-near",
                severity="warning",
                where=where,
                message=f"no place for its joints keeps off {things}",
                remedy="Give an in-line joint of your own, or allow less distance.",
                parts=(span.wall.id, *(s.part for s in near)),
                place_mm=(*span.wall.point_mm(joints[0].at_mm), 0.0),
            )
        )
    return found


def _shared(span: RunSpan, start_mm: float, last_mm: float, half: list[float]) -> list[Stretch]:
    """Stretches with the lengths asked for, the rest equal."""
    count = len(half) + 1
    asked = {c.piece: c.length_mm for c in span.cut_lengths}
    room = last_mm - start_mm - 2 * sum(half)
    free = [i for i in range(1, count + 1) if i not in asked]
    each = (room - sum(asked.values())) / len(free) if free else 0.0
    here, found = start_mm, []
    for i in range(1, count + 1):
        length = asked.get(i, each)
        found.append(Stretch(near_mm=here, far_mm=here + length))
        here += length + (2 * half[i - 1] if i < count else 0.0)
    return found


def _asked(
    span: RunSpan, stretches: list[Stretch], last_mm: float, run_id: str
) -> tuple[list[Stretch], tuple[Finding, ...]]:
    """With joints at given places, a length asked for is set from the piece's near end; either way the far
    end is compared.
    """
    if span.joints:
        asked = {c.piece: c.length_mm for c in span.cut_lengths}
        kept = [
            Stretch(near_mm=s.near_mm, far_mm=s.near_mm + asked.get(i, s.length_mm))
            for i, s in enumerate(stretches, 1)
        ]
        offs = [k.far_mm - s.far_mm for k, s in zip(kept, stretches, strict=True)]
    else:
        kept, offs = stretches, [stretches[-1].far_mm - last_mm]
    off = max(offs, key=abs, default=0.0)
    if abs(off) <= CLOSES_WITHIN_MM:
        return kept, ()
    return kept, (
        Finding(
            code="length-off",
            severity="warning",
            where=f"run {run_id}, wall {span.wall.id}",
            message=f"the lengths asked for come out {abs(off):.1f} mm too {'long' if off > 0 else 'short'}",
            remedy=f"Cut {abs(off):.1f} mm {'off' if off > 0 else 'longer'}, or leave the length out.",
            parts=(span.wall.id,),
            measured=off,
            limit=0.0,
        ),
    )
