"""Comparing two layouts and their steps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from model3d.changes.parts import Matching, joint_shown, piece_shown
from model3d.changes.steps import step_changes
from model3d.changes.values import Changes
from model3d.findings import Finding
from model3d.layout import Joint, Layout, Piece
from model3d.steps import Step


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """A plan as it stands: its layout and steps; no steps when the layout was refused."""

    layout: Layout
    steps: tuple[Step, ...] = ()


def changed(old: Stand, new: Stand) -> Changes:
    """Which pieces, joints, marks, steps and findings differ. Lengths count to a tenth of a millimetre."""
    pieces: Matching[Piece] = Matching(old.layout.pieces, new.layout.pieces, piece_shown)
    joints: Matching[Joint] = Matching(_joints(old.layout), _joints(new.layout), joint_shown)
    marks = (*pieces.marks, *joints.marks)
    was, now = _said(old.layout.findings), _said(new.layout.findings)
    return Changes(
        pieces=pieces.changes(),
        joints=joints.changes(),
        marks=marks,
        steps=step_changes(old.steps, new.steps, {r.old: r.new for r in marks}),
        new_findings=tuple(f for f in now if f not in was),
        gone_findings=tuple(f for f in was if f not in now),
    )


def _joints(layout: Layout) -> tuple[Joint, ...]:
    return tuple(j for run in layout.runs for j in run.joints)


def _said(findings: Sequence[Finding]) -> list[str]:
    return [f"{f.severity} {f.code}: {f.where}: {f.message}" for f in findings]
