"""A room whose scene or solids can be spoilt in one place."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from typing import Any

import cadquery as cq

from model3d.confirm import confirm_project
from model3d.families.family import Family
from model3d.findings import Finding
from model3d.geometry.placement import Vec3, add, scale
from model3d.layout import Layout, lay_out
from model3d.parts.kinds import Spec
from model3d.rooms import CheckedPlan
from model3d.scene import Scene, compose
from model3d.solids.build import solid
from tests.layout.every_joint import every_joint_plan, family_of

Project = tuple[CheckedPlan, Family, Layout, Scene]


@cache
def project(name: str = "a-square", sense: int = 1) -> Project:
    """A run with every joint of a family, laid out and placed."""
    plan, family = every_joint_plan(sense), family_of(name)
    layout = lay_out(plan, family)
    return plan, family, layout, compose(plan.room, layout, family)


def confirmed(
    of: Project, scene: Scene | None = None, *, solid_of: Callable[[Spec], cq.Solid] = solid
) -> tuple[Finding, ...]:
    """What the solids do not confirm, with another scene or other solids."""
    plan, _, layout, own = of
    return confirm_project(plan.room, layout, own if scene is None else scene, solid_of=solid_of)


def with_other(spec: Spec, **changes: Any) -> Callable[[Spec], cq.Solid]:
    """Solids as they are, but for one shape, which is built from other numbers than its spec's."""

    def solid_of(asked: Spec) -> cq.Solid:
        return solid(replace(asked, **changes) if asked == spec else asked)

    return solid_of


def along_wall(of: Project, part_id: str, by_mm: float) -> Scene:
    """The scene with one part shifted along its own wall."""
    plan, _, _, scene = of
    part = scene.part(part_id)
    wall = plan.room.wall(part.wall or "")
    by: Vec3 = scale((*wall.direction, 0.0), by_mm)
    moved = replace(part, placement=replace(part.placement, origin_mm=add(part.placement.origin_mm, by)))
    return Scene(parts=tuple(moved if p.id == part_id else p for p in scene.parts))


def without(scene: Scene, part_id: str) -> Scene:
    """The scene without one part."""
    return Scene(parts=tuple(p for p in scene.parts if p.id != part_id))


def codes(findings: tuple[Finding, ...]) -> set[str]:
    """The codes of findings."""
    return {f.code for f in findings}
