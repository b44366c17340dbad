"""A thermal report's figures, piece by piece and joint by joint, with what holds each end and keeps each window."""

from __future__ import annotations

from model3d.figures import FigureGroup
from model3d.thermal.values import Growth, LinkHose, LongLeg, ThermalReport


def thermal_groups(report: ThermalReport) -> tuple[FigureGroup, ...]:
    """Growths, then long legs, then hoses, in the order of the run."""
    return (
        *(_growth(g) for g in report.growths),
        *(_long_leg(leg) for leg in report.long_legs),
        *(_hoses(h) for h in report.hoses),
    )


def _growth(growth: Growth) -> FigureGroup:
    ends = [("toward the valve", growth.near), ("toward the return", growth.far)]
    if growth.near == growth.far:
        ends = [("at both ends", growth.near)]
    notes = [f"{where}: {'held' if end.held else 'free'}, {end.why}" for where, end in ends]
    if growth.floats:
        notes.append("held nowhere, it floats: either end may take the whole growth")
    elif growth.hold == "both":
        notes.append("held at both ends: there is nowhere to grow to")
    else:
        notes.append(f"its whole growth goes toward the {'return' if growth.near.held else 'valve'}")
    first, last = growth.marks[0], growth.marks[-1]
    title = f"Piece {first}" if first == last else f"Pieces {first} to {last}, coupled"
    return FigureGroup(title=f"{title}: growth", figures=growth.figures, marks=growth.marks, notes=tuple(notes))


def _long_leg(leg: LongLeg) -> FigureGroup:
    wrong = {f.name for f in leg.outside}
    states = "; ".join(
        f"{f.name.removeprefix('insertion ')} {f.value:.1f} mm{' OUTSIDE' if f.name in wrong else ''}"
        for f in leg.states
    )
    verdict = "" if wrong else ": all inside"
    return FigureGroup(
        title=f"Joint {leg.joint}: the long legs in piece {leg.piece}",
        figures=leg.figures,
        marks=(leg.joint, leg.piece),
        notes=(f"window {leg.least.value:.1f} to {leg.most.value:.1f} mm: {states}{verdict}",),
    )


def _hoses(hose: LinkHose) -> FigureGroup:
    apart = [s.apart.value for s in hose.states]
    bends = [s.bend.value for s in hose.states if s.bend is not None]
    notes = [
        f"the hoses' ends stand {min(apart):.1f} to {max(apart):.1f} mm apart, at most {hose.most_apart_mm:g} mm",
        f"their bend radius is {min(bends, default=0.0):.1f} mm or more, at least {hose.least_bend_mm:g} mm is asked",
    ]
    edges = [s.off_edge.value for s in hose.states if s.off_edge is not None]
    if edges:
        notes.append(f"they pass the wall's edge by {min(edges):.1f} mm or more")
    return FigureGroup(
        title=f"Link {hose.joint}: its hoses", figures=hose.figures, marks=(hose.joint,), notes=tuple(notes)
    )
