"""Orders, removals and ratings as plain text."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.order.findings import meeting_text, moved_turns
from model3d.order.job import Job
from model3d.order.rating import RatedCorner, Rating
from model3d.order.values import Removed, Sought


def order_text(job: Job, sought: Sought) -> str:
    """The order in one line a step, then why it is not the usual one, or what is trapped and what frees it."""
    usual = dict(moved_turns(job, sought))
    width = max((len(s.title) for s in sought.steps), default=0)
    lines = [_heading(sought)]
    for step in sought.steps:
        moved = f"(usually {usual[step.number]})" if step.number in usual and not sought.trapped else ""
        lines.append(f"  {step.number:>3}  {step.title.ljust(width)}  {moved}".rstrip())
    if not sought.trapped:
        lines += [f"Why: in the usual order {r.thing} is stopped: {meeting_text(job, r)}." for r in sought.reasons]
    lines += [f"Trapped: {t.thing}: {meeting_text(job, t.meeting)}." for t in sought.trapped]
    lines += [f"{'Frees it' if k == 0 else 'And'}, tried: {c.text}" for k, c in enumerate(sought.changes)]
    if sought.trapped and not sought.changes:
        lines.append("No link for an elbow and nothing taken off first frees it: see what dryfit check says to move.")
    return "\n".join(lines)


def _heading(sought: Sought) -> str:
    if sought.usual:
        return "The usual order goes:"
    if sought.trapped:
        return "No order puts everything up. What goes:" if sought.turns else "No order puts everything up."
    return "The usual order does not go as it is; this does:"


def removed_text(job: Job, removed: Removed) -> str:
    """What comes off, in turn, each with its moves."""
    if removed.trapped:
        lines = [f"{removed.mark} cannot be got out."]
        return "\n".join([*lines, *(f"  {t.thing}: {meeting_text(job, t.meeting)}." for t in removed.trapped)])
    lines = [f"To get {removed.mark} out. Isolate and drain the run before a joint is opened."]
    for number, off in enumerate(removed.taken_off, start=1):
        lines.append(f"  {number:>3}  {off.thing}: {' '.join(off.moves)}")
    return "\n".join(lines)


def rating_text(rating: Rating) -> str:
    """The corners, hardest first, then the steps."""
    corners = [_where(c) for c in rating.corners]
    steps = [s.title for s in rating.steps]
    lines = ["Corners, hardest first:" if corners else "No joint is made on the wall."]
    lines += _columns(corners, [c.difficulty.text for c in rating.corners])
    lines += ["", "Steps, in turn:"]
    lines += _columns([f"{s.number:>3}  {s.title}" for s in rating.steps], [s.difficulty.text for s in rating.steps])
    return "\n".join(lines if steps else lines[:-2])


def _where(corner: RatedCorner) -> str:
    if corner.corner is None:
        return f"{corner.joint}, in-line {corner.kind} on wall {corner.wall}"
    kind = "internal" if corner.turn_deg > 0.0 else "external"
    return f"{corner.joint}, {corner.kind} at {kind} corner {corner.corner}"


def _columns(left: Sequence[str], right: Sequence[str]) -> list[str]:
    width = max(map(len, left), default=0)
    return [f"  {a.ljust(width)}  {b}" for a, b in zip(left, right, strict=True)]
