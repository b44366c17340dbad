"""Where parts stand on a picture: moved placements, actors, and points on a piece in its run frame."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from model3d.geometry.placement import Placement, Vec3, add, subtract, turned_about_z
from model3d.layout import Piece
from model3d.pictures.stage import Actor, Look
from model3d.pictures.staging.looks import ROOM_LOOKS
from model3d.pictures.staging.meshes import MeshLibrary
from model3d.scene import Part
from model3d.steps import Shift
from model3d.steps.moves import room_vector

NOWHERE: Vec3 = (0.0, 0.0, 0.0)
LOW_MM = 300.0  # what stands higher does not help to see a step, and would float where its wall is cut down
Moves = Mapping[str, Placement]


def shifted(by_mm: Vec3) -> Placement:
    """A move of the room frame that only shifts."""
    return Placement(origin_mm=by_mm)


def turned_in_place(about_mm: Vec3, turn_deg: float) -> Placement:
    """A move of the room frame that turns about the upright through a point, counter-clockwise from above."""
    turn = turned_about_z(turn_deg)
    return Placement(
        origin_mm=subtract(about_mm, turn.vector(about_mm)), x_axis=turn.x_axis, y_axis=turn.y_axis, z_axis=turn.z_axis
    )


def shifts(*groups: Iterable[Shift]) -> dict[str, Placement]:
    """Shifts by part id, added up, as moves."""
    found: dict[str, Vec3] = {}
    for group in groups:
        for shift in group:
            found[shift.part] = add(found.get(shift.part, NOWHERE), shift.by_mm)
    return {part: shifted(by) for part, by in found.items()}


def actors(library: MeshLibrary, parts: Iterable[tuple[Part, Look]], moved: Moves) -> list[Actor]:
    """Parts on the stage with their looks, each moved from its final place as ``moved`` says."""
    found = []
    for part, look in parts:
        place = moved[part.id] @ part.placement if part.id in moved else part.placement
        found.append(Actor(id=part.id, mesh_key=library.key(part), placement=place, look=look))
    return found


def room_actors(library: MeshLibrary, parts: Iterable[Part]) -> list[Actor]:
    """The room: each wall with the direction it faces."""
    found = []
    for part in parts:
        look = ROOM_LOOKS.get(part.role)
        if look is not None and not (part.role == "obstacle" and part.placement.origin_mm[2] > LOW_MM):
            facing = part.placement.y_axis if part.role == "wall" and part.wall is not None else None
            key = library.key(part)
            found.append(Actor(id=part.id, mesh_key=key, placement=part.placement, look=look, facing=facing))
    return found


def on_piece(piece: Piece, share: float, out_mm: float, up_mm: float) -> Vec3:
    """A point at a share of a piece's length from its near end, out from the wall, up from the floor, room frame."""
    along = piece.near_mm + share * (piece.far_mm - piece.near_mm)
    x, y = piece.wall.point_mm(along, out_mm)
    return (x, y, up_mm)


def run_direction(piece: Piece, t: float, u: float, v: float) -> Vec3:
    """A direction in the run frame at a piece, in the room frame."""
    return room_vector(piece, (t, u, v))
