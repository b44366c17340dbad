"""Where the parts of a step stand before and after each leg of its move, as shifts from their final places, room
frame.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from model3d.geometry.placement import Vec3, add
from model3d.layout import Piece
from model3d.scene import Part, Scene
from model3d.steps.moves import room_vector
from model3d.steps.values import Approach, MoveLeg, Shift, Step

NOWHERE: Vec3 = (0.0, 0.0, 0.0)
HAND_MM = 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LegPoses:
    """One leg: the movers' shifts before and after it, and the shifts of parts that stand but not in their final
    place.
    """

    leg: MoveLeg
    before: Mapping[str, Vec3]
    after: Mapping[str, Vec3]
    standing: Mapping[str, Vec3]


def leg_poses(scene: Scene, step: Step, piece: Piece, approach: Approach | None = None) -> tuple[LegPoses, ...]:
    """The poses of every leg of a step; ``approach`` in place of the step's own.

    The piece and what travels with it move along the legs, its far elbows pushed home. The near joint's elbows wait
    drawn out and are pressed on with the piece; the near end of a link is held by hand where the piece meets it, and
    goes with the piece from then on; what is pushed in by hand afterwards is not there yet.
    """
    home = _sum(step.pushed_home)
    waiting = _sum(step.waiting)
    held = () if step.near_by_hand else near_link_parts(scene, piece)
    found = []
    engaged = False
    for number, leg in enumerate(step.legs):
        start = approach.from_mm if number == 0 and approach is not None else leg.from_mm
        before, after = (room_vector(piece, at) for at in (start, leg.to_mm))
        moving = {i: add(before, home.get(i, NOWHERE)) for i in step.travels}
        moved = {i: add(after, home.get(i, NOWHERE)) for i in step.travels}
        standing = dict(waiting)
        if leg.name == "press":
            moving |= waiting
            moved |= dict.fromkeys(waiting, NOWHERE)
            standing = {}
        if engaged:
            moving |= dict.fromkeys(held, before)
            moved |= dict.fromkeys(held, after)
        elif held:
            at_joint = next((x.to_mm for x in step.legs if x.name == "engage"), (0.0, 0.0, 0.0))
            standing |= dict.fromkeys(held, room_vector(piece, at_joint))
        engaged = engaged or leg.name == "engage"
        found.append(LegPoses(leg=leg, before=moving, after=moved, standing=standing))
    return tuple(found)


def near_link_parts(scene: Scene, piece: Piece) -> tuple[str, ...]:
    """Ids of the spigots, bridge and O-rings of a link that stand in a piece's near end."""
    if piece.start.joint != "link":
        return ()
    mine = [p for p in scene.parts if p.joint is not None and p.wall == piece.wall.id and _at_start(p, piece)]
    return tuple(p.id for p in mine if p.role in ("spigot", "bridge", "o-ring"))


def far_link_parts(scene: Scene, piece: Piece) -> tuple[str, ...]:
    """Ids of the spigots, bridge and O-rings of a link that stand in a piece's far end."""
    if piece.end.joint != "link":
        return ()
    mine = [p for p in scene.of_piece(piece.mark) if p.joint is not None and p.wall == piece.wall.id]
    roles = ("spigot", "bridge", "o-ring")
    return tuple(p.id for p in mine if p.role in roles and _along(p, piece, piece.far_mm) < HAND_MM)


def _at_start(part: Part, piece: Piece) -> bool:
    """Whether a joint's part stands at the near end of the piece: within a hand's breadth of its near cut face."""
    return part.piece != piece.mark and _along(part, piece, piece.near_mm) < HAND_MM


def _along(part: Part, piece: Piece, face_mm: float) -> float:
    """How far along the wall a part stands off a cut face."""
    return abs(piece.wall.frame.inverse().point(part.placement.origin_mm)[0] - face_mm)


def _sum(shifts: tuple[Shift, ...]) -> dict[str, Vec3]:
    found: dict[str, Vec3] = {}
    for shift in shifts:
        found[shift.part] = add(found.get(shift.part, NOWHERE), shift.by_mm)
    return found
