"""Pieces that are up already take no step; the steps go on from them."""

from __future__ import annotations

from dataclasses import replace

from model3d.layout import lay_out
from model3d.scene import compose
from model3d.steps import plan_steps, up_already

from .every_joint import every_joint_plan, family_of


def test_fitted_pieces_take_no_step() -> None:
    """With the first piece up, the first piece step is the second piece's, and the first one's parts stand from the
    start.
    """
    family = family_of("a-square")
    plan = every_joint_plan(1, "return")
    layout = lay_out(plan, family)
    run = layout.runs[0]
    first = replace(run.pieces[0], fitted=True)
    begun = replace(layout, runs=(replace(run, pieces=(first, *run.pieces[1:])), *layout.runs[1:]))
    scene = compose(plan.room, begun, family)
    steps = plan_steps(begun, scene, family)
    before = plan_steps(layout, compose(plan.room, layout, family), family)
    assert [s.pieces for s in steps if s.run == run.id and s.kind == "piece"] == [
        s.pieces for s in before if s.run == run.id and s.kind == "piece"
    ][1:]
    up = set(up_already(begun, scene))
    assert f"{first.mark}/piece" in up
    assert not up & {i for s in steps for i in (*s.travels, *s.follows)}
    assert not up_already(layout, scene)
