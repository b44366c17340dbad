"""The words on a step picture, from the step's own."""

from __future__ import annotations

from typing import Literal

from model3d.layout import Piece
from model3d.pictures.stage import Caption
from model3d.steps import Step

CAUTION = "Cautions: isolate and drain first; mind sharp edges; local codes and the maker's instructions come first."


def captions(step: Step) -> tuple[Caption, ...]:
    """What to do, in order; a move carries the number of its arrow. Snags and lifting by two come last."""
    found = [Caption(text=a.text, label=a.label) for a in step.actions]
    found += [Caption(text=text, kind="snag") for text in step.snags]
    if step.two_people:
        found.append(Caption(text="Two people: past the length or weight for one.", kind="warning"))
    return tuple(found)


def end_title(piece: Piece, end: Literal["start", "end"], step: Step) -> str:
    """The heading of a close-up: which end, and which face its clip takes."""
    at = piece.start if end == "start" else piece.end
    toward = "valve" if end == "start" else "return"
    what = f"clip {at.clip.upper()}" if at.clip != "none" else "no clip"
    name = {"elbow-long": "long leg", "elbow-short": "short leg", "none": "cap"}.get(at.joint, at.joint)
    return f"Toward the {toward}: {name}, {what}" if step.kind == "piece" else f"{piece.mark}: {name}"
