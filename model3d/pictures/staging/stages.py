"""The stages of all steps of a fitting, in order."""

from __future__ import annotations

from model3d.families.family import Family
from model3d.layout import Joint, Layout, Piece
from model3d.pictures.stage import Stage
from model3d.pictures.staging.meshes import MeshLibrary
from model3d.pictures.staging.occasion import Occasion
from model3d.pictures.staging.piece_stage import piece_stage
from model3d.pictures.staging.run_stage import run_stage
from model3d.scene import Part, Scene
from model3d.steps import Step, up_already


class StepStages:
    """Makes the stage of any step; meshes are made once and shared by all of them."""

    def __init__(
        self, layout: Layout, scene: Scene, steps: tuple[Step, ...], family: Family, library: MeshLibrary | None = None
    ) -> None:
        self._layout, self._scene, self._steps, self._family = layout, scene, steps, family
        self._library = MeshLibrary() if library is None else library

    def stage(self, number: int) -> Stage:
        """The stage of the step of that number, from 1."""
        step = self._steps[number - 1]
        pieces = self._pieces(step)
        near, between, far = self._joints(step)
        occasion = Occasion(
            family=self._family,
            scene=self._scene,
            step=step,
            steps=len(self._steps),
            up_already=self._up_before(step),
            pieces=pieces,
            near=near,
            between=between,
            far=far,
            every_piece=self._layout.pieces,
        )
        return piece_stage(occasion, self._library) if step.kind == "piece" else run_stage(occasion, self._library)

    def _up_before(self, step: Step) -> tuple[Part, ...]:
        up = {i for s in self._steps[: step.number - 1] for i in (*s.travels, *s.follows)}
        up |= set(up_already(self._layout, self._scene))
        return tuple(p for p in self._scene.fitted if p.id in up)

    def _pieces(self, step: Step) -> tuple[Piece, ...]:
        if step.pieces:
            return tuple(p for p in self._layout.pieces if p.mark in step.pieces)
        return tuple(p for p in self._layout.pieces if p.run == step.run)

    def _joints(self, step: Step) -> tuple[Joint | None, tuple[Joint, ...], Joint | None]:
        """The joints before the first, between, and after the last piece of a step."""
        if not step.pieces:
            return None, tuple(j for run in self._layout.runs if run.id == step.run for j in run.joints), None
        joints = [j for run in self._layout.runs for j in run.joints]
        inside = set(step.pieces)
        near = next((j for j in joints if j.later == step.pieces[0]), None)
        far = next((j for j in joints if j.earlier == step.pieces[-1]), None)
        return near, tuple(j for j in joints if {j.earlier, j.later} <= inside), far
