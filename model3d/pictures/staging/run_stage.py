"""The stages of the steps that take a whole run at once: brackets, pressure test, covers."""

from __future__ import annotations

import math

from model3d.geometry.placement import Vec3, add, scale
from model3d.parts.fixings import TrimSpec
from model3d.pictures.stage import Arrow, Frame, Look, Stage
from model3d.pictures.staging.looks import fitted_look, new_look
from model3d.pictures.staging.meshes import MeshLibrary
from model3d.pictures.staging.piece_stage import Occasion
from model3d.pictures.staging.poses import NOWHERE, actors, room_actors, run_direction
from model3d.pictures.staging.words import captions
from model3d.scene import Part

COVER_AWAY_MM = 150.0


def run_stage(at: Occasion, library: MeshLibrary) -> Stage:
    """The whole run seen at once; what the step brings is strong, covers stand off with an arrow each."""
    new = [p for p in at.scene.parts if p.id in set(at.step.follows)]
    moved = {p.id: scale(_outward(p), COVER_AWAY_MM) for p in new} if at.step.kind == "covers" else {}
    joints = {p.id for p in at.up_already if p.joint is not None}
    fitted: list[tuple[Part, Look]] = [
        (p, new_look(p) if at.step.kind == "pressure-test" and p.id in joints else fitted_look(p))
        for p in at.up_already
    ]
    strong: list[tuple[Part, Look]] = [(p, "new" if at.step.kind == "brackets" else new_look(p)) for p in new]
    stage_actors = room_actors(library, at.scene.room) + actors(library, fitted, {}) + actors(library, strong, moved)
    subjects = [p.id for p in new] or [p.id for p in at.up_already if p.role in ("piece", "elbow", "spigot")]
    return Stage(
        meshes=library.of({a.mesh_key for a in stage_actors}),
        actors=tuple(stage_actors),
        frame=Frame(title=at.step.title, captions=captions(at.step), step=at.step.number, steps=at.steps),
        facing=_facing(at),
        arrows=tuple(_arrow(p, moved[p.id]) for p in new if p.id in moved),
        subject_ids=tuple(subjects),
    )


def _facing(at: Occasion) -> Vec3:
    """The direction the run's longest wall faces: the viewer stands on that side."""
    longest = max(at.pieces, key=lambda p: p.cut_length_mm)
    return run_direction(longest, 0.0, 1.0, 0.0)


def _outward(part: Part) -> Vec3:
    """The way a cover comes off: between the two walls it covers, or straight out of its wall."""
    x, y = part.placement.x_axis, part.placement.y_axis
    turn = part.spec.turn_deg if isinstance(part.spec, TrimSpec) else 0.0
    return _halfway(x, y, turn) if turn else y


def _halfway(x: Vec3, y: Vec3, turn_deg: float) -> Vec3:
    """The bisector into the room at a corner: the inward normals of the two walls, added."""
    turn = math.radians(turn_deg)
    other = add(scale(x, -math.sin(turn)), scale(y, math.cos(turn)))
    both = add(y, other)
    size = math.hypot(both[0], both[1])
    return scale(both, 1.0 / size) if size > 1e-9 else NOWHERE


def _arrow(part: Part, by_mm: Vec3) -> Arrow:
    middle = _middle(part)
    return Arrow(start_mm=add(middle, scale(by_mm, 1.6)), end_mm=add(middle, scale(by_mm, 0.8)), kind="press")


def _middle(part: Part) -> Vec3:
    return part.placement.point((0.0, 15.0, 90.0))
