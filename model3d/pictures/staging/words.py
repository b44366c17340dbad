"""The words on a step picture, from the step's own."""

from __future__ import annotations

from typing import cast

from model3d.pictures.stage import Caption, Hardness, Level
from model3d.steps import Step
from model3d.wording import catalogue


def hardness(step: Step) -> Hardness | None:
    """How hard the step is, with the reasons; None where its moves have not been looked at."""
    if step.difficulty is None:
        return None
    words = catalogue(step.language)
    text = words.say("difficulty.step", what=step.difficulty.said(words))
    return Hardness(level=cast(Level, step.difficulty.level), text=text)


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
