"""The steps of two layouts matched and compared."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from model3d.changes.values import StepChange
from model3d.steps import Step

Key = tuple[str, str | None, tuple[str, ...], int]


def step_changes(old: Sequence[Step], new: Sequence[Step], renamed: Mapping[str, str]) -> tuple[StepChange, ...]:
    """What differs, in the order of the new steps, then the steps that are no more.

    A step is the same one when it is of the same kind and run and puts up the same pieces, be their marks other ones.
    """
    before, after = _keyed(old, renamed), _keyed(new, {})
    kept = [k for k in before if k in after]
    order = {k: i for i, k in enumerate(k for k in after if k in before)}
    found = []
    for key, step in after.items():
        if key not in before:
            found.append(
                StepChange(title=step.title, kind="added", old_number=0, new_number=step.number, come=_texts(step, {}))
            )
            continue
        was = before[key]
        told, tells = _texts(was, renamed), _texts(step, {})
        moved = kept.index(key) != order[key]
        if told != tells or moved:
            found.append(
                StepChange(
                    title=step.title,
                    kind="changed",
                    old_number=was.number,
                    new_number=step.number,
                    moved=moved,
                    gone=tuple(t for t in told if t not in tells),
                    come=tuple(t for t in tells if t not in told),
                )
            )
    found += [
        StepChange(title=s.title, kind="removed", old_number=s.number, new_number=0, gone=_texts(s, {}))
        for k, s in before.items()
        if k not in after
    ]
    return tuple(found)


def _keyed(steps: Sequence[Step], renamed: Mapping[str, str]) -> dict[Key, Step]:
    found: dict[Key, Step] = {}
    for step in steps:
        pieces = tuple(renamed.get(m, m) for m in step.pieces)
        count = sum(1 for k in found if k[:3] == (step.kind, step.run, pieces))
        found[(step.kind, step.run, pieces, count)] = step
    return found


def _texts(step: Step, renamed: Mapping[str, str]) -> tuple[str, ...]:
    """What a step says, with pieces under their new marks."""
    return tuple(_renamed(a.text, renamed) for a in step.actions)


def _renamed(text: str, renamed: Mapping[str, str]) -> str:
    if not renamed:
        return text
    marks = "|".join(re.escape(m) for m in sorted(renamed, key=len, reverse=True))
    return re.sub(rf"(?<![\w-])({marks})(?![\w-])", lambda found: renamed[found[1]], text)
