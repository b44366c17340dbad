"""Everything a check looks at: layout, interference, measured solids, moves."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from model3d.build.project import Project
from model3d.findings import Finding

Tick = Callable[[str, int, int], None]


def check_project(project: Project, *, tick: Tick | None = None) -> tuple[Finding, ...]:
    """All findings of a project: what the layout says, then clashes, then solids that do not confirm the layout, then
    blocked moves.

    A layout that was refused is not built; its own findings are all there is.
    """
    findings = project.layout.findings
    if project.layout.refused:
        return findings
    from model3d.checks import check_scene
    from model3d.checks.moves_check import check_moves
    from model3d.confirm import confirm_project

    scene = project.scene
    standing = check_scene(scene, tick=tick)
    confirmed = confirm_project(project.plan.room, project.layout, scene)
    _, blocked = check_moves(project.layout, scene, project.steps, project.family, tick=tick)
    return findings + standing + confirmed + tuple(_beyond(blocked, standing))


def _beyond(blocked: Iterable[Finding], standing: tuple[Finding, ...]) -> Iterable[Finding]:
    """Blocked moves but those that run into what was found to stand in the run already: that is one mistake, said
    once.
    """
    in_the_way = {part for finding in standing for part in finding.parts if part.startswith("room/")}
    return (finding for finding in blocked if not in_the_way & set(finding.parts))
