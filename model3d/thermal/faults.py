"""What is wrong with growth, long legs and hoses, as findings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from model3d.families.family import Family
from model3d.findings import Finding
from model3d.geometry.placement import Vec3
from model3d.layout import Joint, Layout, Piece
from model3d.rooms import CheckedPlan
from model3d.thermal.hoses import Ends, before_crossing_mm, hose_apart_mm, most_apart_mm
from model3d.thermal.values import Growth, LinkHose, LongLeg

GAP_MM = 0.01


def held_twice(growth: Growth, pieces: dict[str, Piece]) -> Iterator[Finding]:
    """A piece, or coupled pieces, held at both ends: a fault of the plan, with the force that shows why."""
    if growth.hold != "both" or growth.force is None:
        return
    first, last = pieces[growth.marks[0]], pieces[growth.marks[-1]]
    what = f"piece {growth.marks[0]}" if len(growth.marks) == 1 else f"pieces {growth.marks[0]} to {growth.marks[-1]}"
    worst = max(growth.hot.value, growth.frost.value, key=abs)
    yield Finding(
        code="held-at-both-ends",
        severity="error",
        where=f"{what}, wall {first.wall.id}",
        message=(
            f"held at both ends ({growth.near.why}; {growth.far.why}), with {abs(worst):.2f} mm to "
            f"{'grow' if worst > 0 else 'shrink'} and nowhere to go: about {growth.force.value:.0f} kN"
        ),
        remedy="Leave the return's pipework free to move, or put an in-line link between the two ends.",
        parts=growth.marks,
        measured=abs(worst),
        limit=0.0,
        place_mm=(*first.wall.point_mm((first.near_mm + last.far_mm) / 2.0), 0.0),
    )


def gap_too_small(plan: CheckedPlan, layout: Layout, of: dict[str, Growth]) -> Iterator[Finding]:
    """A run's free end with no stub between needs its growth gap, which a cut length of one's own may have
    taken.
    """
    for run, laid in zip(plan.runs, layout.runs, strict=True):
        piece = laid.pieces[-1]
        growth = of[piece.mark]
        if growth.far.held:
            continue
        need, left = growth.hot.value, abs(run.spans[-1].leaves_mm - piece.far_mm) - piece.end.allowance_mm
        if left >= need - GAP_MM:
            continue
        yield Finding(
            code="growth-gap-too-small",
            severity="warning",
            where=f"piece {piece.mark}, wall {piece.wall.id}",
            message=f"it grows {need:.2f} mm at its far end, where {left:.2f} mm are left free",
            remedy=f"Cut it {need - left:.1f} mm shorter, or see that nothing stands beyond its end.",
            parts=(piece.mark,),
            measured=left,
            limit=need,
            place_mm=(*piece.wall.point_mm(piece.far_mm), 0.0),
        )


def leg_outside(leg: LongLeg, place: Vec3) -> Iterator[Finding]:
    """Each state of a long leg that leaves its window, and elbows that would hit the far wall."""
    for state in leg.outside:
        low = state.value < leg.least.value
        limit = leg.least if low else leg.most
        yield Finding(
            code="long-leg-outside-window",
            severity="error",
            where=f"joint {leg.joint}, in piece {leg.piece}",
            message=(
                f"{state.name} {state.value:.1f} mm: "
                f"{'at least' if low else 'at most'} {limit.value:.1f} mm ({limit.rule})"
            ),
            remedy="Take a link at this corner, or divide the wall with an in-line link.",
            parts=(leg.joint, leg.piece),
            measured=state.value,
            limit=limit.value,
            place_mm=place,
        )
    if leg.to_far_wall_mm < 0.0:
        yield Finding(
            code="elbow-cannot-slide",
            severity="error",
            where=f"joint {leg.joint}, in piece {leg.piece}",
            message=f"pushed right home, its elbows stand {-leg.to_far_wall_mm:.1f} mm into the far wall",
            remedy="Take a link at this corner.",
            parts=(leg.joint, leg.piece),
            measured=leg.to_far_wall_mm,
            limit=0.0,
            place_mm=place,
        )


def hose_too_short(family: Family, joint: Joint, ends: Sequence[Ends], place: Vec3) -> Iterator[Finding]:
    """A link whose hoses' ends would stand too far apart, in the worst of its states."""
    longest = max(ends, key=lambda e: hose_apart_mm(family, joint, e))
    apart, most = hose_apart_mm(family, joint, longest), most_apart_mm(family)
    if apart <= most:
        return
    cold = longest.state == "at the frost set-back"
    yield Finding(
        code="hose-too-short",
        severity="error",
        where=f"link {joint.mark}",
        message=(
            f"{longest.state} its hoses' ends stand {apart:.1f} mm apart, at most {most:g} mm of their "
            f"{family.link.hose_length_mm:g} mm"
        ),
        remedy=(
            "Fit it on a cooler day, or divide the wall with another in-line link, so that less comes to this one."
            if cold
            else "Cut the pieces beside it longer."
        ),
        parts=(joint.mark,),
        measured=apart,
        limit=most,
        place_mm=place,
    )


def hose_past_crossing(family: Family, joint: Joint, ends: Sequence[Ends], place: Vec3) -> Iterator[Finding]:
    """A link whose hoses begin beyond one another's line: there is nothing for them to turn in."""
    worst = min(ends, key=lambda e: before_crossing_mm(family, joint, e))
    left = before_crossing_mm(family, joint, worst)
    if left > 0.0:
        return
    yield Finding(
        code="hose-past-crossing",
        severity="error",
        where=f"link {joint.mark}",
        message=f"{worst.state} a hose's end stands {-left:.1f} mm beyond the line of the other",
        remedy="Cut the pieces beside it shorter.",
        parts=(joint.mark,),
        measured=left,
        limit=0.0,
        place_mm=place,
    )


def hose_faults(family: Family, hose: LinkHose, place: Vec3) -> Iterator[Finding]:
    """Each fault of a hose's shape once, in its worst state."""
    link, where, most = family.link, f"link {hose.joint}", hose.most_apart_mm
    bends = [s.bend for s in hose.states if s.bend is not None]
    tight = min(bends, key=lambda b: b.value, default=None)
    if tight is not None and tight.value < link.least_bend_radius_mm:
        state = tight.name.removeprefix("least bend radius, ")
        yield Finding(
            code="hose-bent-too-tight",
            severity="error",
            where=where,
            message=f"{state} its hoses bend to {tight.value:.2f} mm, {link.least_bend_radius_mm:g} mm are the least",
            remedy="Divide the wall with another in-line link, so that less growth comes to this one.",
            parts=(hose.joint,),
            measured=tight.value,
            limit=link.least_bend_radius_mm,
            place_mm=place,
        )
    lost = next((s for s in hose.states if s.bend is None and not s.crossed and s.apart.value <= most), None)
    if lost is not None:
        yield Finding(
            code="hose-bent-too-tight",
            severity="error",
            where=where,
            message=f"{lost.state} its hoses' ends stand {lost.apart.value:.1f} mm apart: there they find no shape",
            remedy="Divide the wall with another in-line link, so that less growth comes to this one.",
            parts=(hose.joint,),
            measured=lost.apart.value,
            limit=most,
            place_mm=place,
        )
    edges = [s.off_edge for s in hose.states if s.off_edge is not None]
    near = min(edges, key=lambda f: f.value, default=None)
    if near is not None and near.value < 0.0:
        yield Finding(
            code="hose-on-edge",
            severity="error",
            where=where,
            message=f"{near.name} {near.value:.1f} mm: it would rub",
            remedy="Round the wall's edge off, or end the run before this corner.",
            parts=(hose.joint,),
            measured=near.value,
            limit=0.0,
            place_mm=place,
        )
