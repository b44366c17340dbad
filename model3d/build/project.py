"""A plan taken all the way to steps, in numbers: what every verb starts from."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from model3d.families.family import Family
from model3d.families.reading import find_family, read_family
from model3d.layout import Layout, lay_out
from model3d.rooms import CheckedPlan
from model3d.rooms.read_plan import read_plan

if TYPE_CHECKING:
    from model3d.scene import Scene
    from model3d.steps import Step


@dataclass(frozen=True, kw_only=True)
class Project:
    """A checked plan with its family and layout; scene and steps are worked out when first asked for."""

    plan: CheckedPlan
    family: Family
    layout: Layout

    @cached_property
    def scene(self) -> Scene:
        """Every part placed. Raises ValueError when the layout was refused."""
        from model3d.scene import compose  # the layout alone does not wait for it

        return compose(self.plan.room, self.layout, self.family)

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """The steps of the fitting."""
        from model3d.steps import plan_steps

        return plan_steps(self.layout, self.scene, self.family)


def load(path: Path) -> Project:
    """Read a plan and its family, and lay it out. Raises FaultyFile with every fault of the file that has some."""
    plan = read_plan(path, find_family=find_family)
    family = read_family(plan.family_path)
    layout = lay_out(plan, family)
    if plan.as_cut or plan.fitted:
        from model3d.as_cut import with_cuts

        layout = with_cuts(plan, layout, family).layout
    return Project(plan=plan, family=family, layout=layout)
