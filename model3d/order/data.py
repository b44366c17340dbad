"""Orders, removals and ratings as plain data, for JSON."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from model3d.order.findings import meeting_text, moved_turns, order_findings, removal_findings
from model3d.order.job import Job
from model3d.order.rating import RatedCorner, RatedStep, Rating
from model3d.order.values import Meeting, Removed, Sought
from model3d.steps.difficulty import Difficulty


def order_data(job: Job, sought: Sought) -> dict[str, Any]:
    """The order: its steps in turn, why it is not the usual one, what is trapped, what frees it."""
    usual = dict(moved_turns(job, sought))
    return {
        "usual": sought.usual,
        "steps": [
            {
                "number": t.step.number,
                "usual_number": usual.get(t.step.number, t.step.number),
                "kind": t.step.kind,
                "run": t.step.run,
                "title": t.step.title,
                "pieces": list(t.step.pieces),
                "approach": t.step.approach.name if t.step.approach is not None else None,
                "near_links": "by hand" if t.near == "by hand" else None,
                "far_links_by_hand_into": t.step.links_into,
            }
            for t in sought.turns
        ],
        "reasons": [_meeting(job, m) for m in sought.reasons],
        "trapped": [_meeting(job, t.meeting) for t in sought.trapped],
        "changes": [asdict(c) for c in sought.changes],
        "findings": [asdict(f) for f in order_findings(job, sought)],
    }


def removed_data(job: Job, removed: Removed) -> dict[str, Any]:
    """What comes off, in turn, with its moves; or what keeps the piece in."""
    return {
        "mark": removed.mark,
        "taken_off": [{"what": c.thing, "moves": list(c.moves)} for c in removed.taken_off],
        "trapped": [_meeting(job, t.meeting) for t in removed.trapped],
        "findings": [asdict(f) for f in removal_findings(job, removed)],
    }


def rating_data(rating: Rating) -> dict[str, Any]:
    """The corners, hardest first, and the steps in turn, each with its figures, its difficulty and the reasons."""
    return {"corners": [_corner(c) for c in rating.corners], "steps": [_step(s) for s in rating.steps]}


def _meeting(job: Job, meeting: Meeting) -> dict[str, Any]:
    return {**asdict(meeting), "text": meeting_text(job, meeting)}


def _corner(corner: RatedCorner) -> dict[str, Any]:
    return {**asdict(corner), "difficulty": _difficulty(corner.difficulty)}


def _step(step: RatedStep) -> dict[str, Any]:
    return {**asdict(step), "difficulty": _difficulty(step.difficulty)}


def _difficulty(found: Difficulty) -> dict[str, Any]:
    reasons = [{"points": r.points, "text": r.text} for r in found.reasons]
    return {"level": found.level, "word": found.word, "reasons": reasons}
