"""The stages of the steps that take a whole run at once: brackets, pressure test, covers."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.geometry.placement import Placement, Vec3, add, scale
from model3d.pictures.stage import Arrow, Callout, Frame, Look, Stage
from model3d.pictures.staging.looks import brought_look, fitted_look, new_look
from model3d.pictures.staging.meshes import MeshLibrary
from model3d.pictures.staging.occasion import Occasion
from model3d.pictures.staging.poses import actors, room_actors, run_direction, shifted
from model3d.pictures.staging.run_closeups import closeups, outward
from model3d.pictures.staging.side_view import side_view
from model3d.pictures.staging.words import captions
from model3d.scene import Part

COVER_AWAY_MM = 110.0
FOOT_OUT_MM = 30.0
COVER_ARROW = (0.4, 3.4)  # where an arrow may point, where arrows would meet: onto the cover, or further off


def run_stage(at: Occasion, library: MeshLibrary) -> Stage:
    """The whole run at once; what the step brings is strong, covers stand off with an arrow each; a close-up of one of
    each kind.
    """
    new = at.parts(at.step.follows)
    moved = {p.id: shifted(scale(outward(p), COVER_AWAY_MM)) for p in new} if at.step.kind == "covers" else {}
    mine = {p.id for p in at.up_already if p.run == at.step.run}
    fitted = [(p, _look_before(at, p, mine)) for p in at.standing()]
    strong: list[tuple[Part, Look]] = [(p, brought_look(p)) for p in new]
    stage_actors = room_actors(library, at.scene.room) + actors(library, fitted, {}) + actors(library, strong, moved)
    run_ids = [p.id for p in at.up_already if p.id in mine and p.role in ("piece", "elbow", "spigot", "valve-end")]
    insets = closeups(at, library, new, moved)
    every = [a for inset in insets for a in inset.actors or ()]
    return Stage(
        meshes=library.of({a.mesh_key for a in (*stage_actors, *every)}),
        actors=tuple(stage_actors),
        frame=Frame(
            title=at.step.title,
            captions=captions(at.step),
            step=at.step.number,
            steps=at.steps,
            language=at.step.language,
        ),
        facing=_facing(at),
        arrows=tuple(_arrow(p, moved[p.id]) for p in new if p.id in moved),
        callouts=_counts(at, new) if at.step.kind == "brackets" else (),
        insets=insets,
        subject_ids=tuple(p.id for p in new) or tuple(run_ids),
        framed_ids=tuple(run_ids) if at.step.kind == "covers" else (),
        overview=True,
        side_view=side_view(at.family) if at.step.kind == "pressure-test" else None,
    )


def _look_before(at: Occasion, part: Part, mine: set[str]) -> Look:
    """Up already: muted; in the pressure test the joints of the run to be looked at keep their colours."""
    if at.step.kind == "pressure-test" and part.id in mine and (part.joint is not None or part.role.endswith("-end")):
        return new_look(part)
    return fitted_look(part)


def _counts(at: Occasion, new: Sequence[Part]) -> tuple[Callout, ...]:
    """How many brackets go on each wall, where there are several walls: those near the viewer are seen from behind."""
    walls: dict[str, list[Part]] = {}
    for part in new:
        if part.role == "bracket" and part.wall is not None:
            walls.setdefault(part.wall, []).append(part)
    if len(walls) < 2:
        return ()
    found = []
    for parts in walls.values():
        first, last = (p.placement.point((0.0, FOOT_OUT_MM, 0.0)) for p in (parts[0], parts[-1]))
        middle = scale(add(first, last), 0.5)
        found.append(Callout(at_mm=middle, text=at.words.say("inset.bracket", count=len(parts))))
    return tuple(found)


def _facing(at: Occasion) -> Vec3:
    """The direction the run's longest wall faces: the viewer stands on that side."""
    longest = max(at.pieces, key=lambda p: p.cut_length_mm)
    return run_direction(longest, 0.0, 1.0, 0.0)


def _arrow(part: Part, move: Placement) -> Arrow:
    """From the room onto the cover, toward where it goes."""
    by, middle = move.origin_mm, _middle(part)
    start = add(middle, scale(by, 2.6))
    near, far = (add(middle, scale(by, share)) for share in COVER_ARROW)
    return Arrow(start_mm=start, end_mm=add(middle, scale(by, 1.4)), kind="press", along_mm=(near, far))


def _middle(part: Part) -> Vec3:
    return part.placement.point((0.0, 15.0, 90.0))
