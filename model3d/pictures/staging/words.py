"""The words on a step picture, from the step's own."""

from __future__ import annotations

from model3d.pictures.stage import Caption
from model3d.steps import Step
from model3d.wording import catalogue


def captions(step: Step) -> tuple[Caption, ...]:
    """What to do, in order; a move carries the number of its arrow. A snag stands with the bench work or under the move
    it comes with; lifting by two comes last.
    """
    bench = [Caption(text=a.text) for a in step.actions if not a.label]
    bench += [Caption(text=s.text, kind="snag") for s in step.snags if s.during == "bench"]
    moves = [Caption(text=a.text, label=a.label) for a in step.actions if a.label]
    for number, leg in enumerate(step.legs, 1):
        moves += [Caption(text=s.text, label=str(number), kind="snag") for s in step.snags if s.during == leg.name]
    if step.two_people:
        moves.append(Caption(text=catalogue(step.language).say("caption.two-people"), kind="warning"))
    return (*bench, *moves)
