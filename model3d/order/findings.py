"""What an order has to say, as findings: one that differs from the usual, pieces that no order puts up."""

from __future__ import annotations

from collections.abc import Iterator

from model3d.findings import Finding
from model3d.moves.findings import LEGS
from model3d.order.job import Job
from model3d.order.values import Meeting, Removed, Sought, Trap


def order_findings(job: Job, sought: Sought) -> tuple[Finding, ...]:
    """An error for every thing that is trapped, with what frees it; a warning for every thing that the usual order
    stops, when another order goes.
    """
    frees = " ".join(c.text for c in sought.changes)
    found = [trap_finding(job, t, frees or "No change that was tried frees it.") for t in sought.trapped]
    if not sought.trapped:
        found += [_another(job, sought, m) for m in sought.reasons]
    return tuple(found)


def removal_findings(job: Job, removed: Removed) -> tuple[Finding, ...]:
    """An error for everything that keeps a piece in."""
    return tuple(trap_finding(job, t, "It cannot come off before this is out of its way.") for t in removed.trapped)


def trap_finding(job: Job, trap: Trap, remedy: str) -> Finding:
    """A thing that is trapped."""
    return _finding(job, trap.meeting, "trapped", f"no order puts it up: {meeting_text(job, trap.meeting)}", remedy)


def meeting_text(job: Job, meeting: Meeting) -> str:
    """On which leg, after how far, what meets what, and where."""
    mover, other = job.scene.part(meeting.mover), job.scene.part(meeting.standing)
    x, y, z = meeting.place_mm
    began = f"after {meeting.done_mm:.1f} mm" if meeting.done_mm > 0.0 else "from the start"
    where = f"({x:.0f}, {y:.0f}, {z:.0f})"
    deep = f", {meeting.depth_mm:.1f} mm deep {meeting.deepest}" if meeting.depth_mm > 0.0 else ""
    return f"{LEGS[meeting.leg]}, {began}, {mover.name} meets {other.obstacle or other.name} at {where}{deep}"


def pieces_in_turn(sought: Sought) -> str:
    """The pieces in the order in which they go up, and what goes onto no links but has them pushed in by hand."""
    turns = (t for t in sought.turns if t.step.kind == "piece")
    return ", ".join(f"{t.thing}, its near links by hand" if t.near == "by hand" else str(t.thing) for t in turns)


def _another(job: Job, sought: Sought, meeting: Meeting) -> Finding:
    message = f"the usual order does not go: {meeting_text(job, meeting)}"
    remedy = f"Put the pieces up in this order, which goes: {pieces_in_turn(sought)}. Steps and pictures keep to it."
    return _finding(job, meeting, "another-order", message, remedy)


def _finding(job: Job, meeting: Meeting, code: str, message: str, remedy: str) -> Finding:
    mover = job.scene.part(meeting.mover)
    return Finding(
        code=code,
        severity="error" if code == "trapped" else "warning",
        where=f"{meeting.thing}, wall {mover.wall}",
        message=message,
        remedy=remedy,
        parts=(meeting.mover, meeting.standing),
        measured=meeting.done_mm,
        place_mm=meeting.place_mm,
    )


def moved_turns(job: Job, sought: Sought) -> Iterator[tuple[int, int]]:
    """The steps whose number differs from the usual one: (number now, usual number)."""
    usual = {s.title: s.number for s in job.steps}
    for step in sought.steps:
        if usual.get(step.title, step.number) != step.number:
            yield step.number, usual[step.title]
