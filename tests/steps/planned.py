"""Steps of the gallery's rooms and of a run with every joint, for these tests."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from model3d.build.project import load
from model3d.families.family import Family
from model3d.layout import Layout, lay_out
from model3d.rooms import CheckedPlan
from model3d.scene import Scene, compose
from model3d.steps import Step, plan_steps
from tests.layout.every_joint import FAMILIES, EndFitting, every_joint_plan, family_of

GALLERY = ("l-room", "bay", "faulty")
Planned = tuple[Family, Layout, Scene, tuple[Step, ...]]


def planned(plan: CheckedPlan, family: Family) -> Planned:
    """A plan taken to its steps."""
    layout = lay_out(plan, family)
    scene = compose(plan.room, layout, family)
    return family, layout, scene, plan_steps(layout, scene, family)


@cache
def gallery(room: str) -> Planned:
    """A room of the gallery taken to its steps."""
    project = load(Path(__file__).parents[2] / "gallery" / room / "plan.yaml")
    return project.family, project.layout, project.scene, project.steps


@cache
def every_joint(name: str, sense: int, end_fitting: EndFitting = "return") -> Planned:
    """The run with every joint taken to its steps."""
    return planned(every_joint_plan(sense, end_fitting), family_of(name))


def all_planned() -> list[Planned]:
    """Every room of the gallery, and every joint in every family and both senses."""
    ways = [(name, sense, end) for name in FAMILIES for sense in (1, -1) for end in ("return", "turn-back")]
    return [*(gallery(room) for room in GALLERY), *(every_joint(*way) for way in ways)]
