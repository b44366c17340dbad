"""A step by another approach than the preferred one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from model3d.families.family import Family
from model3d.layout import Piece
from model3d.steps.values import Approach, Step
from model3d.steps.words import move_actions
from model3d.wording import catalogue


def approached(family: Family, group: Sequence[Piece], step: Step, approach: Approach) -> Step:
    """The step with its offer coming by ``approach``: its first leg and its words say so; the same step when it does
    already.
    """
    if step.approach == approach:
        return step
    legs = (replace(step.legs[0], from_mm=approach.from_mm), *step.legs[1:])
    said = iter(move_actions(family, group, approach, legs, catalogue(step.language)))
    actions = tuple(next(said) if a.kind == "move" else a for a in step.actions)
    return replace(step, approach=approach, legs=legs, actions=actions)
