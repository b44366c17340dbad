"""When and where the parts of a step are in a moving picture."""

from __future__ import annotations

import math
from functools import cache
from itertools import pairwise

import pytest

from model3d.families.family import Family
from model3d.layout import Layout, Piece, lay_out
from model3d.pictures.moving.timeline import Phase, eased, timeline
from model3d.scene import Scene, compose
from model3d.steps import Step, plan_steps
from model3d.steps.poses import leg_poses
from tests.layout.every_joint import FAMILIES, every_joint_plan, family_of

NOWHERE = (0.0, 0.0, 0.0)


@cache
def fitting(name: str) -> tuple[Family, Layout, Scene, tuple[Step, ...]]:
    """The run that meets every joint."""
    family, plan = family_of(name), every_joint_plan(1)
    layout = lay_out(plan, family)
    scene = compose(plan.room, layout, family)
    return family, layout, scene, plan_steps(layout, scene, family)


def films(name: str) -> list[tuple[Step, tuple[Piece, ...], tuple[Phase, ...]]]:
    """The phases of every step that puts pieces up."""
    family, layout, scene, steps = fitting(name)
    found = []
    for step in steps:
        group = tuple(p for m in step.pieces for p in layout.pieces if p.mark == m)
        if group:
            found.append((step, group, timeline(family, scene, step, group)))
    return found


@pytest.mark.parametrize("family", FAMILIES)
def test_no_jumps(family: str) -> None:
    """A travelling part starts each leg where the one before left it."""
    for step, _, phases in films(family):
        for one, other in pairwise(phases):
            for part in step.travels:
                if part in one.after and part in other.before:
                    assert math.dist(one.after[part], other.before[part]) < 1e-9


@pytest.mark.parametrize("family", FAMILIES)
def test_ends_in_place(family: str) -> None:
    """At the end of its step every part that was new stands where the scene has it, but elbows, which stand drawn
    out.
    """
    for step, _, phases in films(family):
        out = {s.part: s.by_mm for s in step.drawn_out}
        last: dict[str, tuple[float, float, float]] = {}
        for phase in phases:
            last |= phase.after
        for part in (*step.travels, *(i for i in step.follows if i in last)):
            assert last[part] == pytest.approx(out.get(part, NOWHERE), abs=1e-9)


@pytest.mark.parametrize("family", FAMILIES)
def test_checked_poses(family: str) -> None:
    """What is shown leg by leg are the poses that the check of moves takes, no others: the same shifts."""
    _, _, scene, _ = fitting(family)
    for step, group, phases in films(family):
        legs = leg_poses(scene, step, group[0])
        for phase, leg in zip(phases, legs, strict=False):
            assert phase.name == leg.leg.name
            assert (phase.before, phase.after, phase.still) == (leg.before, leg.after, leg.standing)


@pytest.mark.parametrize("family", FAMILIES)
def test_late_parts(family: str) -> None:
    """Links that go in once the piece is up are not there before, and come in along the run by the slide."""
    seen = 0
    for step, group, phases in films(family):
        late = [p for p in phases if p.name == "insert"]
        for phase in late:
            seen += 1
            assert all(set(phase.before) <= p.hidden for p in phases if p is not phase)
            along = (group[-1].wall.direction[0] * group[-1].sense, group[-1].wall.direction[1] * group[-1].sense)
            for shift in phase.before.values():
                assert shift[0] * along[0] + shift[1] * along[1] > 20.0
                assert abs(shift[2]) < 1e-9
        assert len(late) <= 1
        assert not (late and step.drawn_out)
    assert seen


def test_swing() -> None:
    """A swing starts turned by the approach's angle about its upright, and ends in the offered place."""
    about = (1000.0, 50.0, 0.0)
    phase = Phase(
        name="offer",
        label="1",
        text="",
        seconds=1.0,
        before={"x": (0.0, 8.0, -5.0)},
        after={"x": (0.0, 8.0, -5.0)},
        still={},
        turn=(about, 15.0),
    )
    end = phase.move("x", 1.0)
    assert end.point((2000.0, 0.0, 3.0)) == pytest.approx((2000.0, 8.0, -2.0))
    start = phase.move("x", 0.0)
    assert start.point((1000.0, 42.0, 0.0)) == pytest.approx((1000.0, 50.0, -5.0))
    x, y, _ = start.point((2000.0, 42.0, 0.0))
    assert math.degrees(math.atan2(y - 50.0, x - 1000.0)) == pytest.approx(15.0)


def test_ease() -> None:
    """Time goes from 0 to 1 without going back, gently at both ends."""
    shares = [eased(k / 50) for k in range(51)]
    assert shares[0] == 0.0
    assert shares[-1] == 1.0
    assert all(a < b for a, b in pairwise(shares))
    assert shares[1] < 0.5 / 50
