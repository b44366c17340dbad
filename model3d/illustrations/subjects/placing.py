"""Parts placed for a picture: where they stand in the room or moved from there, pieces drawn short."""

from __future__ import annotations

from typing import Literal

import numpy as np

from model3d.geometry.placement import Vec3, add, scale
from model3d.illustrations.broken import stub
from model3d.illustrations.contours import Body
from model3d.illustrations.picture import Flag, Job, Path3
from model3d.illustrations.shapes import shape
from model3d.illustrations.sheet import Colour
from model3d.illustrations.strokes import Shown
from model3d.layout import Joint, Piece
from model3d.parts.profile import PieceSpec
from model3d.scene import Part
from model3d.steps.moves import room_vector
from model3d.wording import Catalogue

NOWHERE: Vec3 = (0.0, 0.0, 0.0)
EndName = Literal["start", "end"]


class UnknownSubject(ValueError):
    """No such part, step, corner or view in the plan; the message names those that there are."""


def piece_of(job: Job, mark: str) -> Piece:
    """The piece of a mark. Raises UnknownSubject."""
    for piece in job.layout.pieces:
        if piece.mark == mark:
            return piece
    raise UnknownSubject(f"no piece {mark!r} (there are {', '.join(p.mark for p in job.layout.pieces)})")


def joint_of(job: Job, name: str) -> Joint:
    """The joint of a mark, or the first one at a corner of that id. Raises UnknownSubject."""
    joints = [j for run in job.layout.runs for j in run.joints]
    for joint in joints:
        if name == joint.mark or (joint.corner is not None and name == joint.corner.id):
            return joint
    names = ", ".join(j.mark + (f" at {j.corner.id}" if j.corner else "") for j in joints)
    raise UnknownSubject(f"no joint or corner of a run {name!r} (there are {names or 'none'})")


def face_mm(job: Job, piece: Piece, end: EndName, height_mm: float) -> Vec3:
    """The bores' line on a cut face, at a height above the floor."""
    x, y = piece.wall.point_mm(piece.near_mm if end == "start" else piece.far_mm, job.family.section.bore_u_mm)
    return (x, y, height_mm)


def outward(piece: Piece, end: EndName) -> Vec3:
    """The direction along the run that leads off an end of a piece."""
    return room_vector(piece, (-1.0 if end == "start" else 1.0, 0.0, 0.0))


def as_is(part: Part, by_mm: Vec3 = NOWHERE, tint: Colour | None = None) -> Shown:
    """A part, moved from its place by a vector of the room frame; an O-ring in its own tint, unless given another."""
    tint = "seal-tint" if tint is None and part.role == "o-ring" else tint
    return Shown(body=Body(owner=part.id, shape=shape(part.spec), placement=part.placement.moved(by_mm)), tint=tint)


def short(
    job: Job,
    piece: Piece,
    end: EndName,
    kept_mm: float,
    by_mm: Vec3 = NOWHERE,
    tint: Colour | None = None,
    *,
    from_above: bool = False,
) -> Shown:
    """The stretch of a piece at one of its ends, broken off ``kept_mm`` from its cut face; ``from_above`` for a view
    from there.
    """
    part = job.scene.part(f"{piece.mark}/piece")
    if not isinstance(part.spec, PieceSpec):
        raise UnknownSubject(f"{piece.mark} is no piece of profile")
    face = piece.near_mm if end == "start" else piece.far_mm
    made = stub(part.spec, kept_mm, "low" if abs(face - piece.low_mm) < 1e-6 else "high", from_above=from_above)
    return Shown(body=Body(owner=part.id, shape=made, placement=part.placement.moved(by_mm)), tint=tint)


def clip_tint(part: Part) -> Colour | None:
    """The flat colour of a clip, by the face it looks to; None for other parts."""
    return None if part.face is None else "front-tint" if part.face == "front" else "back-tint"


def clip_flag(part: Part, words: Catalogue) -> Flag:
    """The word for the face that a clip looks to, with its letter, where enough is seen of it."""
    return Flag(text=words.say(f"face.{part.face}"), owner=part.id, face=part.face, if_seen=True)


def reach(shown: Shown, way: Vec3) -> tuple[float, float]:
    """How far a body extends along a direction, mm: least, most."""
    far = shown.body.corners_mm.reshape(-1, 3) @ np.asarray(way)
    return float(far.min()), float(far.max())


def spread(groups: list[list[Shown]], way: Vec3, gaps_mm: list[float]) -> list[Vec3]:
    """Shifts along a direction that leave a gap before each group but the first, which stays."""
    shifts: list[Vec3] = [NOWHERE]
    end = max(reach(one, way)[1] for one in groups[0])
    for group, gap in zip(groups[1:], gaps_mm, strict=True):
        low, high = min(reach(one, way)[0] for one in group), max(reach(one, way)[1] for one in group)
        by = max(end + gap - low, 0.0)
        shifts.append(scale(way, by))
        end = high + by
    return shifts


def seen_from(facing: Vec3, along: Vec3, *, turn: float, lift: float) -> Vec3:
    """A direction to the viewer: ``facing`` turned toward ``along`` and lifted, each as a share."""
    return add(add(facing, scale(along, turn)), (0.0, 0.0, lift))


def floor_line(piece: Piece, from_mm: float, to_mm: float, by_mm: Vec3 = NOWHERE) -> Path3:
    """The line where the floor meets a wall, between two places along it."""
    (ax, ay), (bx, by) = piece.wall.point_mm(from_mm), piece.wall.point_mm(to_mm)
    return (add((ax, ay, 0.0), by_mm), add((bx, by, 0.0), by_mm))
