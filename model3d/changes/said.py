"""Changes as text and as plain data."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from model3d.changes.values import Changes, PartChange, StepChange


def changes_text(changes: Changes) -> str:
    """What differs, block by block; one line when nothing does."""
    if changes.none:
        return "Nothing differs."
    blocks = [
        _block("Pieces", [_part(p) for p in changes.pieces]),
        _block("Cut anew", [", ".join(changes.recut)] if changes.recut else []),
        _block("Joints", [_part(j) for j in changes.joints]),
        _block("Marks", [f"{r.old} is now {r.new}, the same" for r in changes.marks]),
        _block("Steps", [line for s in changes.steps for line in _step(s)]),
        _block("New findings", list(changes.new_findings)),
        _block("Findings that are gone", list(changes.gone_findings)),
    ]
    return "\n\n".join(b for b in blocks if b)


def _block(title: str, lines: list[str]) -> str:
    return "\n".join([f"{title}:", *(f"  {line}" for line in lines)]) if lines else ""


def _part(part: PartChange) -> str:
    if part.kind == "changed":
        return f"{part.mark} ({part.where}): {'; '.join(str(f) for f in part.fields)}"
    sides = [f"{f.name} {f.new if part.kind == 'added' else f.old}" for f in part.fields]
    return f"{part.mark} ({part.where}) {'is new' if part.kind == 'added' else 'is no more'}: {'; '.join(sides)}"


def _step(step: StepChange) -> list[str]:
    if step.kind == "added":
        return [f"step {step.new_number} is new: {step.title}"]
    if step.kind == "removed":
        return [f"step {step.old_number} is no more: {step.title}"]
    number = str(step.new_number) if step.old_number == step.new_number else f"{step.new_number}, was {step.old_number}"
    head = f"step {number}: {step.title}{' (comes at another place)' if step.moved else ''}"
    return [head, *(f"  - {t}" for t in step.gone), *(f"  + {t}" for t in step.come)]


def changes_data(changes: Changes) -> dict[str, Any]:
    """The same as plain data for JSON."""
    return {**asdict(changes), "recut": list(changes.recut)}
