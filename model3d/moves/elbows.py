"""Elbows' long legs in their bores while they are pushed home, drawn out and pressed: insertion in every pose."""

from __future__ import annotations

from collections.abc import Iterable

from model3d.families.elbow_corner import elbow_corner
from model3d.families.family import Family
from model3d.geometry.placement import dot
from model3d.layout import Joint, Piece
from model3d.moves.values import ElbowSlide
from model3d.steps import Shift, Step
from model3d.steps.moves import room_vector

SLACK_MM = 1e-3


def far_elbow_slide(family: Family, joint: Joint, earlier: Piece, step: Step) -> ElbowSlide:
    """The elbows at the far end of a step's last piece: working, pushed home while the piece moves, drawn out once it
    is up, and working again when the next piece has been pressed; read off the step's own shifts.
    """
    if joint.elbow is None:
        raise ValueError(f"joint {joint.mark} has no elbow")
    working = joint.elbow.insertion_mm
    corner = elbow_corner(family, cut_mm=earlier.far_out_mm)
    poses = [("working", working)]
    for name, shifts in (("pushed home", step.pushed_home), ("drawn out", step.drawn_out)):
        poses += [(name, working + _deeper_mm(earlier, shifts))] if shifts else []
    return ElbowSlide(
        joint=joint.mark, piece=earlier.mark, least_mm=corner.least_mm, most_mm=corner.most_mm, poses=tuple(poses)
    )


def outside(slide: ElbowSlide) -> Iterable[tuple[str, float]]:
    """The poses whose insertion leaves the window. Between two poses it changes evenly, so no other can be worse."""
    return [p for p in slide.poses if not slide.least_mm - SLACK_MM <= p[1] <= slide.most_mm + SLACK_MM]


def _deeper_mm(earlier: Piece, shifts: tuple[Shift, ...]) -> float:
    """How much deeper the shifts put the long legs: by so much against the run's direction."""
    return -dot(shifts[0].by_mm, room_vector(earlier, (1.0, 0.0, 0.0)))
