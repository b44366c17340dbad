"""What cannot be moved, as findings: on which leg, after how far, which two meet, where, how deep, what frees it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from model3d.findings import Finding
from model3d.moves.elbows import outside
from model3d.moves.hoses import most_apart_mm, worst
from model3d.moves.remedies import KEEP_CLEAR, Blockade, remedy_of
from model3d.moves.values import ElbowSlide, HosePose, MoveVerdict, Stop
from model3d.moves.ways import Site

STANDS_IN_PLACE = "stands-in-place"
LEGS = {
    "offer": "while it is offered",
    "raise": "while it is raised",
    "slide": "while it slides onto the short legs",
    "engage": "while it is pushed onto the links",
    "press": "while it is pressed",
    "push-home": "while its elbows are pushed home on the bench",
    "draw-out": "while its elbows are drawn out",
    "insert": "while its links are pushed in",
    "bracket": "while the bracket is put to the wall",
    "cradle": "while the cradle is put to the wall",
}


def step_findings(
    every: Sequence[Site], site: Site, verdict: MoveVerdict, tried: dict[str, str] | None = None
) -> list[Finding]:
    """A finding for everything that has to change before the step goes: what stops it, a hose that does not bear its
    way, elbows that leave their window. ``tried`` keeps remedies between steps: what stands in more than one piece's
    place is moved once.
    """
    tried = {} if tried is None else tried
    found = []
    for stop in verdict.stops:
        gone = frozenset(s.standing for s in verdict.stops if s.standing != stop.standing)
        case = Blockade(every=every, site=site, stop=stop, gone=gone)
        remedy = tried.get(stop.standing) if stop.lasting else None
        remedy = remedy_of(case) if remedy is None else remedy
        if stop.lasting:
            tried[stop.standing] = remedy
        found.append(_stopped(site, stop, remedy))
    bad = worst(site.family, verdict.hoses)
    if bad is not None:
        found.append(_hose(site, bad))
    if verdict.elbows is not None:
        found += [_elbow(site, verdict.elbows, *pose) for pose in outside(verdict.elbows)]
    return found


def with_tried_remedies(standing: Iterable[Finding], moves: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings of everything in its place, but where a thing of the room also stops a move, with the remedy that
    was tried on the moves as well.
    """
    tried = {f.parts[-1]: f.remedy for f in moves if f.code == STANDS_IN_PLACE and f.remedy != KEEP_CLEAR}

    def better(finding: Finding) -> Finding:
        remedy = next((tried[p] for p in finding.parts if p in tried and p.startswith("room/")), None)
        return finding if remedy is None else replace(finding, remedy=remedy)

    return tuple(better(f) for f in standing)


def moves_beyond(standing: Iterable[Finding], moves: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings of moves less those that say again what a check of everything in its place has found: the same
    thing of the room in the same place, or the same two parts.
    """
    said = [set(f.parts) for f in standing]

    def again(finding: Finding) -> bool:
        if finding.code != STANDS_IN_PLACE:
            return False
        thing = finding.parts[-1]
        return any(thing in parts and (thing.startswith("room/") or finding.parts[0] in parts) for parts in said)

    return tuple(f for f in moves if not again(f))


def _where(site: Site, part_id: str) -> str:
    part = site.find(part_id)
    return f"piece {site.name if site.group else part.piece}, wall {part.wall}"


def _stopped(site: Site, stop: Stop, remedy: str) -> Finding:
    mover, other = site.find(stop.mover), site.find(stop.standing)
    x, y, z = stop.place_mm
    began = f"after {stop.done_mm:.1f} mm" if stop.done_mm > 0.0 else "from the start"
    deep = f", {stop.depth_mm:.1f} mm deep {stop.deepest}" if stop.depth_mm > 0.0 else ""
    return Finding(
        code=STANDS_IN_PLACE if stop.lasting else "move-blocked",
        severity="error",
        where=_where(site, stop.mover),
        message=(
            f"step {site.step.number}: {LEGS[stop.leg]}, {began}, {mover.name} meets {other.name} "
            f"at ({x:.0f}, {y:.0f}, {z:.0f}){deep}"
        ),
        remedy=remedy,
        parts=(mover.id, other.id),
        measured=stop.done_mm,
        place_mm=stop.place_mm,
    )


def _hose(site: Site, pose: HosePose) -> Finding:
    link = site.family.link
    apart = pose.apart_mm > most_apart_mm(site.family)
    what = f"its ends stand {pose.apart_mm:.1f} mm apart" if apart else f"it bends to {pose.radius_mm:.1f} mm"
    limit = most_apart_mm(site.family) if apart else link.least_bend_radius_mm
    corner = site.near.corner if site.near is not None else None
    return Finding(
        code="hose-in-move",
        severity="error",
        where=f"link {pose.joint}",
        message=f"step {site.step.number}: {LEGS[pose.leg]}, the hose does not bear it: {what}, limit {limit:g} mm",
        remedy="Cut the two pieces beside the link as laid out, or set them so that its ends come to their places.",
        parts=(pose.joint, site.group[0].mark),
        measured=pose.apart_mm if apart else pose.radius_mm,
        limit=limit,
        place_mm=(*corner.at_mm, 0.0) if corner is not None else None,
    )


def _elbow(site: Site, slide: ElbowSlide, name: str, insertion_mm: float) -> Finding:
    low = insertion_mm < slide.least_mm
    limit = slide.least_mm if low else slide.most_mm
    corner = site.far.corner if site.far is not None else None
    return Finding(
        code="elbow-outside-window",
        severity="error",
        where=f"joint {slide.joint}, in piece {slide.piece}",
        message=(
            f"step {site.step.number}: {name}, its elbows stand {insertion_mm:.1f} mm deep: "
            f"at {'least' if low else 'most'} {limit:.1f} mm"
        ),
        remedy="Cut the piece as laid out, or take a link at this corner.",
        parts=(slide.joint, slide.piece),
        measured=insertion_mm,
        limit=limit,
        place_mm=(*corner.at_mm, 0.0) if corner is not None else None,
    )
