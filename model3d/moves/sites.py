"""Every step where it is done: what stands before it."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.layout import Layout
from model3d.moves.by_hand import with_free_near
from model3d.moves.shapes import Shapes
from model3d.moves.ways import Site
from model3d.scene import Scene
from model3d.steps import Step, up_already


def sites(layout: Layout, scene: Scene, steps: Sequence[Step], shapes: Shapes) -> list[Site]:
    """Every step with all parts that stand before it, in order."""
    pieces = {p.mark: p for p in layout.pieces}
    joints = [j for run in layout.runs for j in run.joints]
    after, before = {j.earlier: j for j in joints}, {j.later: j for j in joints}
    by_id = {p.id: p for p in scene.parts}
    up = list(up_already(layout, scene))
    found = []
    for step in steps:
        marks = step.pieces
        site = Site(
            family=shapes.family,
            scene=scene,
            by_id=by_id,
            pieces=pieces,
            shapes=shapes,
            step=step,
            group=tuple(pieces[m] for m in marks),
            near=before.get(marks[0]) if marks else None,
            far=after.get(marks[-1]) if marks else None,
            standing=(*scene.room, *(by_id[i] for i in up)),
        )
        found.append(with_free_near(site) if step.near_by_hand else site)
        up += [*step.travels, *step.follows]
    return found
