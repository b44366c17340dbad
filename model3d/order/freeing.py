"""The smallest change that frees what is trapped. Every change is tried: the plan is laid out with it, and an order is
sought again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import combinations

from model3d.checks import check_scene
from model3d.layout import Joint
from model3d.motion.sweep import stands_in
from model3d.motion.way import SKIN_MM
from model3d.moves.meant import FLEXIBLE, NOT_STANDING
from model3d.order.apart import take_apart
from model3d.order.blocking import Blocking
from model3d.order.job import Job, job_of, things_of
from model3d.order.letting_go import letting_go
from model3d.order.seek import Tick, seek
from model3d.order.values import Change, ChangeKind, Sought, Trap
from model3d.parts.room import CylinderSpec
from model3d.rooms import CheckedPlan
from model3d.scene import Part, Scene

MOST_TOGETHER = 2  # changes tried together
MOST_PAIRED = 6  # changes of which pairs are tried


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A change to be tried."""

    kind: ChangeKind
    what: str


def seek_and_free(job: Job, *, tick: Tick | None = None) -> Sought:
    """The order of a job; when something is trapped, with the smallest change that frees all of it, if one is found."""
    sought = seek(job, tick=tick)
    if not sought.trapped:
        return sought
    return replace(sought, changes=freed_by(job, sought.trapped))


def freed_by(job: Job, trapped: Iterable[Trap]) -> tuple[Change, ...]:
    """The first of the changes, one alone before two together, that leaves nothing trapped; none when no such is found.

    An obstacle taken off until the pieces are up comes before a link for an elbow, which alters two cut lengths.
    """
    listed = list(_candidates(job, tuple(trapped)))
    for count in range(1, MOST_TOGETHER + 1):
        for chosen in combinations(listed if count == 1 else listed[:MOST_PAIRED], count):
            changed = applied(job, chosen)
            if changed is not None and not seek(changed).trapped and not _clashes(changed, chosen):
                return tuple(_said(job, changed, c) for c in chosen)
    return ()


def _candidates(job: Job, trapped: tuple[Trap, ...]) -> Iterator[Candidate]:
    met = {t.meeting.standing for t in trapped}
    things = (p for p in job.scene.room if p.id in met and p.role == "obstacle" and p.obstacle is not None)
    for name in dict.fromkeys(str(p.obstacle) for p in things if not isinstance(p.spec, CylinderSpec)):
        if _can_go_back(job, name):
            yield Candidate(kind="obstacle off first", what=name)
    names = {t.thing for t in trapped}
    marks = {m for t in things_of(job).all if t.kind == "piece" and t.name in names for m in t.marks}
    for joint in (j for j in job.joints if j.later in marks), (j for j in job.joints if j.earlier in marks):
        for found in joint:
            if _may_be_link(job, found):
                yield Candidate(kind="link for elbow", what=found.corner.id if found.corner is not None else "")


def _can_go_back(job: Job, obstacle: str) -> bool:
    """Whether an obstacle stands clear of all that is fitted, so that it can be put back."""
    mine = [p for p in job.scene.room if p.obstacle == obstacle and p.role not in NOT_STANDING]
    fitted = [p for p in job.scene.fitted if p.role not in FLEXIBLE]
    return not any(_share_room(job, a, b) for a in mine for b in fitted)


def _share_room(job: Job, a: Part, b: Part) -> bool:
    mesh, other = job.shapes.mesh(a).drawn(SKIN_MM), job.shapes.mesh(b)
    return stands_in(mesh, b.placement.inverse() @ a.placement, other)


def _may_be_link(job: Job, joint: Joint) -> bool:
    """Whether a link would help at a joint: its hose can shorten by the depth of engagement."""
    return joint.kind == "elbow" and joint.corner is not None and letting_go(job.family, joint.turn_deg).goes


def applied(job: Job, changes: Iterable[Candidate]) -> Job | None:
    """The job with the changes made; None when it cannot be laid out so."""
    changes = tuple(changes)
    corners = {c.what for c in changes if c.kind == "link for elbow"}
    off = {c.what for c in changes if c.kind == "obstacle off first"}
    if corners:
        try:
            job = job_of(with_links(job.plan, corners), job.family, shapes=job.shapes)
        except ValueError:  # the layout is refused
            return None
    return without(job, off) if off else job


def with_links(plan: CheckedPlan, corners: Iterable[str]) -> CheckedPlan:
    """The plan with a link asked for at these corners."""
    wanted = set(corners)
    runs = tuple(
        replace(r, corners=tuple(replace(c, use="link") if c.corner.id in wanted else c for c in r.corners))
        for r in plan.runs
    )
    return replace(plan, runs=runs)


def without(job: Job, obstacles: Iterable[str]) -> Job:
    """The job with some obstacles of the room not there."""
    gone = set(obstacles)
    return replace(job, scene=Scene(parts=tuple(p for p in job.scene.parts if p.obstacle not in gone)))


def _clashes(changed: Job, changes: Iterable[Candidate]) -> bool:
    """Whether a link in place of an elbow brings an error with it: in the layout, or a clash of the link or of the
    pieces that it joins, which are cut otherwise.
    """
    corners = {c.what for c in changes if c.kind == "link for elbow"}
    joints = [j for j in changed.joints if j.corner is not None and j.corner.id in corners]
    if not joints:
        return False
    marks = {m for j in joints for m in (j.mark, j.earlier, j.later)}
    mine = {p.id for p in changed.scene.fitted if p.joint in marks or p.piece in marks}
    found = (*changed.layout.findings, *check_scene(changed.scene))
    return any(f.severity == "error" and (mine | marks) & set(f.parts) for f in found)


def _said(job: Job, changed: Job, change: Candidate) -> Change:
    if change.kind == "link for elbow":
        text = f"Take a link in place of the elbow at corner {change.what}: its hose can be let go by hand."
    else:
        text = f"Take {change.what} off first, and put it back when {_last_stopped(job, changed, change.what)} is up."
    return Change(kind=change.kind, what=change.what, text=text)


def _last_stopped(job: Job, changed: Job, obstacle: str) -> str:
    """The last thing of the order without an obstacle that the obstacle would stop."""
    order = take_apart(Blocking(job=changed, things=things_of(changed)).assembly()).order
    there: set[str] = set()
    stopped = order[-1].thing
    blocking = Blocking(job=job, things=things_of(job))
    ids = {p.id for p in job.scene.parts if p.obstacle == obstacle}
    known = {t.name for t in blocking.things.all}
    for removal in order:
        if removal.thing in known and blocking(removal.thing, removal.way, frozenset(there) & known) & ids:
            stopped = removal.thing
        there.add(removal.thing)
    return stopped
