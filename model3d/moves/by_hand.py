"""A piece that goes up with nothing at its near end to go onto; the links there are pushed in by hand afterwards."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from model3d.families.family import Family
from model3d.layout import Piece
from model3d.moves.ways import Site
from model3d.steps import Approach, Step
from model3d.steps.moves import chain
from model3d.steps.poses import near_link_parts


def with_free_near(site: Site) -> Site:
    """The step with nothing at its near end to go onto: the piece goes up as the first of a run does, and what is to
    be pushed in there by hand is not there yet.
    """
    first = site.group[0]
    loose = set(near_link_parts(site.scene, first))
    group = (replace(first, start=replace(first.start, joint="none")), *site.group[1:])
    standing = tuple(p for p in site.standing if p.id not in loose)
    step = site.step
    if not step.near_by_hand:
        step = replace(step_by(site.family, group, step), near_by_hand=True)
    return replace(site, group=group, standing=standing, step=step)


def step_by(family: Family, group: Sequence[Piece], step: Step, approach: Approach | None = None) -> Step:
    """The step with the chain of moves that these pieces call for, coming by an approach."""
    preferred, legs = chain(family, group)
    wanted = approach or preferred
    return replace(step, approach=wanted, legs=(replace(legs[0], from_mm=wanted.from_mm), *legs[1:]))
