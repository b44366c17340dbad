"""Fittings of rooms by chance, each the same for the same seed."""

from __future__ import annotations

import random
from collections.abc import Iterator

from model3d.layout import lay_out
from model3d.pictures.staging import StepStages
from model3d.scene import compose
from model3d.steps import Step, plan_steps
from model3d.wording import ENGLISH, Catalogue
from tests.layout.every_joint import FAMILIES, family_of
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over

Corners = list[tuple[float, float]]


def fittings(count: int, first_seed: int = 0, words: Catalogue = ENGLISH) -> Iterator[tuple[str, StepStages, Step]]:
    """The steps of ``count`` rooms that can be laid out, each with its name and its stages."""
    seed = first_seed
    while count > 0:
        made = _fitting(random.Random(seed), words)
        if made is not None:
            count -= 1
            stages, steps = made
            for step in steps:
                yield f"room {seed}, step {step.number}", stages, step
        seed += 1


def _fitting(chance: random.Random, words: Catalogue) -> tuple[StepStages, tuple[Step, ...]] | None:
    ring = ring_of(_corners(chance))
    sense = chance.choice((1, -1))
    count = chance.randint(1, min(5, len(ring.walls)))
    joints = {}
    wall = ring.walls[0]
    if wall.length_mm > 2400.0 and chance.random() < 0.4:
        joints = {"w1": [(round(chance.uniform(1000.0, wall.length_mm - 1000.0)), chance.choice(("link", "coupler")))]}
    end = chance.choice(("return", "turn-back"))
    first = 1 if sense > 0 else count
    run = run_over(ring, first, count, sense=sense, end_fitting=end, joints=joints)
    plan, family = plan_of(ring, run), family_of(chance.choice(FAMILIES))
    layout = lay_out(plan, family)
    if layout.refused:
        return None
    scene = compose(plan.room, layout, family)
    steps = plan_steps(layout, scene, family, words)
    return StepStages(layout, scene, steps, family), steps


def _corners(chance: random.Random) -> Corners:
    """A rectangle, one with a corner cut out of it, with a chimney breast, or with a splay."""
    wide, deep = (round(chance.uniform(2400.0, 6000.0)) for _ in range(2))
    kind = chance.choice(("plain", "cut out", "breast", "splay"))
    a, b = round(wide * chance.uniform(0.35, 0.6)), round(deep * chance.uniform(0.35, 0.6))
    if kind == "cut out":
        return [(0.0, 0.0), (wide, 0.0), (wide, b), (a, b), (a, deep), (0.0, deep)]
    if kind == "breast":
        out, half = round(chance.uniform(250.0, 500.0)), round(chance.uniform(450.0, 700.0))
        low, high = deep / 2 - half, deep / 2 + half
        return [(0.0, 0.0), (wide, 0.0), (wide, low), (wide - out, low), (wide - out, high), (wide, high), (wide, deep),
                (0.0, deep)]  # fmt: skip
    if kind == "splay":
        return [(0.0, 0.0), (wide, 0.0), (wide, deep - 900.0), (wide - 900.0, deep), (0.0, deep)]
    return [(0.0, 0.0), (wide, 0.0), (wide, deep), (0.0, deep)]
