"""What line drawings are made from, of a project."""

from __future__ import annotations

from typing import TYPE_CHECKING

from model3d.build.project import Project

if TYPE_CHECKING:
    from model3d.illustrations.picture import Job, Outlook

OUTLOOK_PX = (1600, 1000)


def job_of(project: Project, *, moved: bool = False, view: str | None = None) -> Job:
    """The job of a project in its language; ``moved``: with steps by approaches that were tried and are free; ``view``:
    with the viewpoint of that name, when the plan has it, or the one from above. Raises NoViewError where nobody can
    stand.
    """
    from model3d.illustrations.picture import Job
    from model3d.wording import catalogue

    own = tuple(v.id for v in project.plan.viewpoints)
    return Job(
        room=project.plan.room,
        layout=project.layout,
        scene=project.scene,
        steps=project.moved_steps if moved else project.steps,
        family=project.family,
        words=catalogue(project.language),
        viewpoints=own,
        outlooks={} if view is None or view not in (*own, "above") else {view: outlook(project, view)},
    )


def outlook(project: Project, name: str) -> Outlook:
    """The viewpoint of that name as the customer's pictures have it."""
    from model3d.illustrations.picture import Outlook
    from model3d.pictures.rooms.cameras import shot

    taken = shot(project.plan, project.layout, project.family, name, OUTLOOK_PX)
    width, height = taken.view.size_px
    return Outlook(
        eye_mm=taken.view.eye_mm,
        target_mm=taken.view.target_mm,
        field_deg=taken.view.field_of_view_deg,
        aspect=width / height,
        shift=taken.view.shift,
        left_out=taken.shown.cut | taken.shown.unseen | taken.shown.left_out,
    )
