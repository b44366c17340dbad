"""Whether every piece can be moved into place in the usual order, and by which approach."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from model3d.families.family import Family
from model3d.findings import Finding
from model3d.layout import Layout
from model3d.moves.approaching import tried_in_turn
from model3d.moves.elbows import far_elbow_slide
from model3d.moves.findings import step_findings
from model3d.moves.hose_bodies import hose_stop
from model3d.moves.hoses import hose_poses
from model3d.moves.shapes import Shapes
from model3d.moves.sites import sites
from model3d.moves.trying import first_stop, narrowest
from model3d.moves.values import MoveVerdict, Stop, Tried
from model3d.moves.ways import Site, bracket_ways, hand_ways, piece_ways
from model3d.scene import Scene
from model3d.steps import Step
from model3d.steps.approached import approached
from model3d.steps.moves import approaches

Tick = Callable[[str, int, int], None]
Proved = tuple[tuple[Step, ...], tuple[MoveVerdict, ...], tuple[Finding, ...]]


def proved(
    layout: Layout,
    scene: Scene,
    steps: Sequence[Step],
    family: Family,
    *,
    shapes: Shapes | None = None,
    tick: Tick | None = None,
    clearances: bool = True,
) -> Proved:
    """The steps, each with the first approach of its family that is free; a verdict for every step that moves
    something; findings for those that cannot be done.

    A step that no approach gets through keeps its preferred one. ``shapes`` keeps meshes and answers for the next time.
    ``clearances`` False leaves out how near the pieces come to anything.
    """
    shapes = Shapes(family=family) if shapes is None else shapes
    every = sites(layout, scene, steps, shapes)
    new: list[Step] = []
    verdicts: list[MoveVerdict] = []
    findings: list[Finding] = []
    tried: dict[str, str] = {}
    for site in every:
        if tick is not None:
            tick(site.step.title, site.step.number, len(steps))
        if site.step.kind not in ("piece", "brackets"):
            new.append(site.step)
            continue
        piece = site.step.kind == "piece"
        verdict = piece_verdict(site, clearance=clearances) if piece else bracket_verdict(site)
        verdicts.append(verdict)
        findings += step_findings(every, site, verdict, tried)
        new.append(_as_proved(site, verdict))
    return tuple(new), tuple(verdicts), tuple(findings)


def check_moves(
    layout: Layout,
    scene: Scene,
    steps: Sequence[Step],
    family: Family,
    *,
    shapes: Shapes | None = None,
    tick: Tick | None = None,
    clearances: bool = True,
) -> tuple[tuple[MoveVerdict, ...], tuple[Finding, ...]]:
    """The verdicts and findings of ``proved``."""
    return proved(layout, scene, steps, family, shapes=shapes, tick=tick, clearances=clearances)[1:]


def piece_verdict(site: Site, *, clearance: bool = True) -> MoveVerdict:
    """The approaches tried in the family's order until one is free; then its least clearance, the work by hand, the
    hoses of its links and the far elbows.
    """
    tried, free = tried_in_turn(site)
    by_hand = hand_ways(site)
    hand_stop = first_stop(site, by_hand)
    elbow = site.far if site.far is not None and site.far.kind == "elbow" else None
    bent = hose_stop(site)
    goes = free is not None and hand_stop is None and bent is None
    near = narrowest(site, [*(free or ()), *by_hand]) if clearance and goes else None
    return MoveVerdict(
        step=site.step.number,
        tried=tried,
        clearance=near[1] if near is not None else None,
        clearance_leg=near[0] if near is not None else None,
        by_hand=hand_stop,
        bent=bent,
        hoses=tuple(pose for _, poses in hose_poses(site) for pose in poses),
        elbows=far_elbow_slide(site.family, elbow, site.group[-1], site.step) if elbow else None,
        stops=_with_hoses(site, _all_stops(site, tried, hand_stop), bent),
    )


def _all_stops(site: Site, tried: Sequence[Tried], by_hand: Stop | None) -> tuple[Stop, ...]:
    """What stops the preferred approach, one after the other as each is taken away; then the work by hand."""
    found: list[Stop] = []
    if all(t.stop is not None for t in tried):
        stop = tried[0].stop
        ways = piece_ways(site, approaches(site.family, site.group)[0])
        while stop is not None:
            found.append(stop)
            stop = first_stop(site, ways, [s.standing for s in found])
    return (*found, by_hand) if by_hand is not None else tuple(found)


def _with_hoses(site: Site, stops: tuple[Stop, ...], bent: Stop | None) -> tuple[Stop, ...]:
    """The stops, and what else a step's bent hoses meet, one thing after the other as each is taken away."""
    found = list(stops)
    gone = {s.standing for s in stops}
    while bent is not None:
        found += [] if bent.standing in gone else [bent]
        gone.add(bent.standing)
        bent = hose_stop(site, gone)
    return tuple(found)


def bracket_verdict(site: Site) -> MoveVerdict:
    """Whether each bracket of the step comes straight to the wall."""
    ways = bracket_ways(site)
    stops = tuple(s for s in (first_stop(site, [w]) for w in ways) if s is not None)
    tried = Tried(approach="straight", stop=stops[0] if stops else None)
    return MoveVerdict(step=site.step.number, tried=(tried,), stops=stops)


def _as_proved(site: Site, verdict: MoveVerdict) -> Step:
    if not site.group or verdict.approach is None:
        return site.step
    listed = approaches(site.family, site.group)
    return approached(site.family, site.group, site.step, listed[len(verdict.tried) - 1])
