"""Close-ups of a whole run's step: one of each kind of part it brings, or of its joints, as large as a hand."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence

from model3d.geometry.placement import Vec3, add, scale
from model3d.layout import Piece
from model3d.parts.fixings import TrimSpec
from model3d.pictures.stage import Inset
from model3d.pictures.staging.looks import brought_look, fitted_look, new_look
from model3d.pictures.staging.meshes import MeshLibrary
from model3d.pictures.staging.occasion import Occasion
from model3d.pictures.staging.poses import NOWHERE, Moves, actors
from model3d.scene import Part
from model3d.steps.words import END_FITTINGS

NEAR_MM = 900.0
TITLES = {"bracket": "inset.bracket", "cradle": "inset.cradle", "trim": "inset.trims", "end-cap": "inset.caps"}


def closeups(at: Occasion, library: MeshLibrary, new: Sequence[Part], moved: Moves) -> tuple[Inset, ...]:
    """A bracket and the cradle; a trim and an end cap; or a joint of the run under test."""
    if at.step.kind == "pressure-test":
        joints = sorted({p.joint for p in at.up_already if p.run == at.step.run and p.joint is not None})
        return (_joint_inset(at, library, joints),) if joints else ()
    found = []
    for role, title in TITLES.items():
        of_kind = [p for p in new if p.role == role]
        if of_kind:
            words = at.words.say(title, count=len(of_kind))
            found.append(_part_inset(at, library, of_kind[len(of_kind) // 2], moved, words))
    return tuple(found)


def _part_inset(at: Occasion, library: MeshLibrary, part: Part, moved: Moves, title: str) -> Inset:
    """A part and what is up near it."""
    place = moved[part.id] @ part.placement if part.id in moved else part.placement
    centre = place.point((0.0, 15.0, at.family.section.middle_v_mm))
    mine = {piece.mark for piece in at.pieces if part.piece == piece.mark or _joins(at, part, piece)}
    shown = [(p, fitted_look(p)) for p in at.up_already if _near(p, centre, mine)] + [(part, brought_look(part))]
    way = outward(part)
    aside = (0.35 * way[1], -0.35 * way[0], 0.55)
    return Inset(
        centre_mm=centre,
        radius_mm=95.0 if not at.up_already else 125.0,
        title=title,
        actors=tuple(actors(library, shown, moved)),
        direction=add(way, aside),
        other_directions=(add(way, (-aside[0], -aside[1], 0.55)), add(way, (0.0, 0.0, 0.9))),
        subject_ids=(part.id,),
    )


def _joint_inset(at: Occasion, library: MeshLibrary, joints: Sequence[str]) -> Inset:
    """The middle one of the run's joints, with the piece ends it joins."""
    mark = joints[len(joints) // 2]
    parts = [p for p in at.up_already if p.joint == mark]
    bodies = [p for p in parts if p.role in ("elbow", "spigot", "coupler")]
    centre = _middle([p.placement.origin_mm for p in bodies])
    mine = {piece.mark for piece in at.pieces if any(_joins(at, p, piece) for p in parts)}
    near = [p for p in at.up_already if _near(p, centre, mine) and p.joint != mark]
    shown = [(p, new_look(p) if p.face else fitted_look(p)) for p in near] + [(p, new_look(p)) for p in parts]
    return Inset(
        centre_mm=centre,
        radius_mm=150.0,
        title=at.words.say("inset.joints", count=len(joints) + _end_fittings(at)),
        actors=tuple(actors(library, shown, {})),
        direction=add(_level(at, mark), (0.0, 0.0, 0.75)),
        other_directions=(add(_level(at, mark), (0.0, 0.0, 1.4)),),
        keeps_side=True,
        subject_ids=tuple(p.id for p in parts if p.role in ("elbow", "hose", "coupler")),
    )


def _end_fittings(at: Occasion) -> int:
    """How many valve, return and turn-back ends the run has: joints to be looked at as well."""
    ends = [end.joint for piece in at.pieces for end in (piece.start, piece.end)]
    return sum(1 for joint in ends if joint in END_FITTINGS)


def outward(part: Part) -> Vec3:
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


def _level(at: Occasion, mark: str) -> Vec3:
    """The inward normals of the walls of the two pieces that a joint joins, added."""
    joined = {m for joint in at.between if joint.mark == mark for m in (joint.earlier, joint.later)}
    return _middle([(p.wall.normal[0], p.wall.normal[1], 0.0) for p in at.pieces if p.mark in joined])


def _joins(at: Occasion, part: Part, piece: Piece) -> bool:
    """Whether a part belongs to a joint at one end of a piece."""
    ends = {joint.mark for joint in at.between if piece.mark in (joint.earlier, joint.later)}
    return part.joint is not None and part.joint in ends


def _near(part: Part, centre: Vec3, marks: Collection[str]) -> bool:
    """Pieces are long: they are kept by their marks; other parts by their distance."""
    if part.role in ("piece", "dry-piece"):
        return part.piece in marks
    far = [a - b for a, b in zip(part.placement.origin_mm, centre, strict=True)]
    return sum(c * c for c in far) < NEAR_MM**2


def _middle(points: Sequence[Vec3]) -> Vec3:
    total = (0.0, 0.0, 0.0)
    for point in points:
        total = add(total, point)
    return (total[0] / len(points), total[1] / len(points), total[2] / len(points))
