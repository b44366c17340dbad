"""Everything a check looks at: layout, seals, warmth and cold, water, interference, measured solids, moves, room to
work in.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

from model3d.build.project import Project
from model3d.findings import Finding

if TYPE_CHECKING:
    from model3d.scene import Part

Tick = Callable[[str, int, int], None]


def check_project(project: Project, *, tick: Tick | None = None) -> tuple[Finding, ...]:
    """All findings of a project: what the layout says, what the figures say of seals, hoses and water, then clashes,
    then solids that do not confirm the layout, then blocked moves, or that they go in another order than the usual,
    then room to work and clearances.

    A layout that was refused is not built; its own findings are all there is.
    """
    findings = project.layout.findings
    if project.layout.refused:
        return findings
    from model3d.checks import Surroundings, check_scene
    from model3d.checks.engine import Memory
    from model3d.confirm import confirm_project
    from model3d.moves import check_moves, goes_with, moves_beyond, sites, with_tried_remedies

    scene, family, shapes = project.scene, project.family, project.job.shapes

    def fits(thing: Part) -> bool:
        return goes_with(sites(project.layout, scene, project.fitting.steps, shapes), {thing.id: thing})

    figures = project.unsaid(_by_figures(project))
    fitting = project.fitting
    around = Surroundings(
        layout=project.layout, scene=scene, steps=fitting.steps, family=family, memory=Memory(), fits=fits
    )
    standing = check_scene(scene, memory=around.memory, fits=fits, asks=around.leaves, tick=tick)
    confirmed = confirm_project(project.plan.room, project.layout, scene)
    _, blocked = check_moves(
        project.layout, scene, fitting.steps, family, shapes=shapes, tick=tick, clearances=False
    )
    beyond = _cut_right(project, (*moves_beyond(standing, blocked), *fitting.findings))
    beyond = _off_the_edge((*findings, *figures), beyond)
    about = around.findings((*standing, *blocked))
    return findings + figures + with_tried_remedies(standing, blocked) + confirmed + beyond + about


def _by_figures(project: Project) -> tuple[Finding, ...]:
    """What is wrong with seals, with anything that warms and cools, and with the water. What is only worth knowing of
    the family's seals, whatever the plan, stays with their figures.
    """
    from model3d.seals import seal_report
    from model3d.thermal import thermal_report
    from model3d.water import water_report

    plan, layout, family = project.plan, project.layout, project.family
    return (
        *(f for f in seal_report(family).findings if f.severity != "note"),
        *thermal_report(plan, layout, family).findings,
        *water_report(plan, layout, family).findings,
    )


def _cut_right(project: Project, blocked: Iterable[Finding]) -> tuple[Finding, ...]:
    """Blocked moves but those of what is moved with a piece that was cut wrong: that is one mistake, said once."""
    cut_wrong = {m for p in project.cuts if not p.seals for m in (p.mark, *(e.mark for e in p.ends)) if m is not None}
    return tuple(f for f in blocked if not cut_wrong & {part.split("/")[0] for part in f.parts})


def _off_the_edge(said: Iterable[Finding], blocked: Iterable[Finding]) -> tuple[Finding, ...]:
    """Blocked moves but those of hoses that are said already to rub on a wall's edge."""
    rubbing = {f.parts[0] for f in said if f.code == "hose-on-edge"}

    def again(finding: Finding) -> bool:
        mover, other = finding.parts[0], finding.parts[-1]
        return "-hose-" in mover and mover.split("/")[0] in rubbing and other.startswith("room/")

    return tuple(f for f in blocked if not again(f))
