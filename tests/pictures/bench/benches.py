"""Bench pictures of a run that meets every joint, in each reference family."""

from __future__ import annotations

from functools import cache

from model3d.layout import lay_out
from model3d.pictures.bench.staging import bench
from model3d.pictures.bench.values import Bench
from model3d.pictures.staging.meshes import MeshLibrary
from model3d.scene import compose
from model3d.steps import plan_steps
from model3d.wording import ENGLISH, Catalogue
from tests.layout.every_joint import every_joint_plan, family_of


@cache
def benches(family_name: str, sense: int = 1) -> tuple[Bench, ...]:
    """The bench of every heated piece of the run."""
    return benches_in(ENGLISH, family_name, sense)


def benches_in(words: Catalogue, family_name: str, sense: int = 1) -> tuple[Bench, ...]:
    """The same in the words of a catalogue."""
    family, plan = family_of(family_name), every_joint_plan(sense)
    layout = lay_out(plan, family)
    scene = compose(plan.room, layout, family)
    return tuple(
        bench(family, layout, scene, step, piece, library())
        for step in plan_steps(layout, scene, family, words)
        if step.run is not None
        for piece in layout.pieces
        if piece.mark in step.pieces
    )


@cache
def library() -> MeshLibrary:
    """Meshes, made once for all tests."""
    return MeshLibrary()
