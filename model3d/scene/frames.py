"""Frames at the ends of pieces: where fittings stand, without a mirror."""

from __future__ import annotations

from typing import Literal

from model3d.families.family import Family
from model3d.geometry.placement import Placement
from model3d.layout import Piece
from model3d.rooms import Wall

EndName = Literal["start", "end"]


def in_wall(
    wall: Wall, along_mm: float, off_mm: float, up_mm: float, signs: tuple[int, int, int] = (1, 1, 1)
) -> Placement:
    """A frame in a wall's frame with its axes along, out and up, each with a sign. The product of the signs must be
    1.
    """
    x, y, z = ((float(signs[0]), 0.0, 0.0), (0.0, float(signs[1]), 0.0), (0.0, 0.0, float(signs[2])))
    return wall.frame @ Placement(origin_mm=(along_mm, off_mm, up_mm), x_axis=x, y_axis=y, z_axis=z)


def face_mm(piece: Piece, end: EndName) -> float:
    """Where the cut face of an end stands along the wall."""
    return piece.near_mm if end == "start" else piece.far_mm


def into(piece: Piece, end: EndName) -> Literal[1, -1]:
    """+1 when the piece lies toward the wall's last corner from that end, -1 when toward its first."""
    toward = piece.sense if end == "start" else -piece.sense
    return 1 if toward > 0 else -1


def turned_over(family: Family, piece: Piece, end: EndName, side: int) -> Placement:
    """The frame of a clip or bridge at an end: x into the piece, y toward front (side 1) or back (side -1), turned,
    not mirrored.
    """
    toward = into(piece, end)
    at = (face_mm(piece, end), family.section.bore_u_mm, family.section.middle_v_mm)
    return in_wall(piece.wall, *at, signs=(toward, side, toward * side))


def bore_heights_mm(family: Family) -> tuple[float, float]:
    """Heights of the waterways' centres above the floor, lower first."""
    lower, upper = (family.section.floor_gap_mm + w.centre[1] for w in family.section.waterways)
    return lower, upper


def upright(family: Family, piece: Piece, end: EndName, height_mm: float, into_mm: float = 0.0) -> Placement:
    """A frame on a bore's centre line ``into_mm`` inside an end: x into the piece, z up."""
    toward = into(piece, end)
    along = face_mm(piece, end) + toward * into_mm
    return in_wall(piece.wall, along, family.section.bore_u_mm, height_mm, signs=(toward, toward, 1))


def facing_room(family: Family, piece: Piece, end: EndName, height_mm: float) -> Placement:
    """A frame on a bore's centre line at an end, turned a quarter about it: x into the piece, z out from the wall.

    At the two ends of a link that is a quarter turn one way and the other.
    """
    toward = float(into(piece, end))
    turned = Placement(
        origin_mm=(face_mm(piece, end), family.section.bore_u_mm, height_mm),
        x_axis=(toward, 0.0, 0.0), y_axis=(0.0, 0.0, -toward), z_axis=(0.0, 1.0, 0.0),
    )
    return piece.wall.frame @ turned


def along_run(family: Family, piece: Piece, end: EndName, height_mm: float, out_mm: float, *, up: bool) -> Placement:
    """A frame on a bore's centre line ``out_mm`` outside a far end: x along the run; z up, or y toward the room
    (``up`` False).
    """
    sense = piece.sense
    along = face_mm(piece, end) + sense * out_mm
    signs = (sense, sense, 1) if up else (sense, 1, sense)
    return in_wall(piece.wall, along, family.section.bore_u_mm, height_mm, signs=signs)
