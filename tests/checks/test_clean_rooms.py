"""No false alarm: rooms that are right have no finding, whatever family, joint, end and sense."""

from __future__ import annotations

from dataclasses import replace

import pytest

from model3d.checks import Surroundings, check_scene
from model3d.checks.engine import Memory
from model3d.confirm import confirm_project
from model3d.layout import lay_out
from model3d.scene import compose
from model3d.steps import plan_steps
from tests.layout.every_joint import FAMILIES, EndFitting, every_joint_plan, family_of

DRY_SHORT_MM = 100.0  # the dry piece ends this much before the corner where the run begins or ends


def all_clear(name: str, sense: int, end_fitting: EndFitting, memory: Memory) -> None:
    """Assert that a run with every joint has no finding, standing or measured, of room to work or of clearances."""
    plan, family = every_joint_plan(sense, end_fitting), family_of(name)
    dry = tuple(replace(d, to_mm=d.to_mm - DRY_SHORT_MM) for d in plan.dry_pieces)
    plan = replace(plan, dry_pieces=dry)
    layout = lay_out(plan, family)
    scene = compose(plan.room, layout, family)
    assert [f.message for f in check_scene(scene, memory=memory)] == []
    steps = plan_steps(layout, scene, family)
    around = Surroundings(layout=layout, scene=scene, steps=steps, family=family, memory=memory)
    assert [f.message for f in around.findings()] == []
    assert [f.message for f in confirm_project(plan.room, layout, scene)] == []


@pytest.mark.parametrize(("sense", "end_fitting"), [(1, "return"), (-1, "turn-back")])
@pytest.mark.parametrize("name", FAMILIES)
def test_every_joint_of_every_family(name: str, sense: int, end_fitting: EndFitting, memory: Memory) -> None:
    """A run that meets every joint of its family has no finding at all."""
    all_clear(name, sense, end_fitting, memory)


@pytest.mark.slow
@pytest.mark.parametrize(("sense", "end_fitting"), [(1, "turn-back"), (-1, "return")])
@pytest.mark.parametrize("name", FAMILIES)
def test_the_other_sense_of_each(name: str, sense: int, end_fitting: EndFitting, memory: Memory) -> None:
    """The same with each end fitting at the end of a run of the other sense."""
    all_clear(name, sense, end_fitting, memory)
