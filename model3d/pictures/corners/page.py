"""A corner sheet laid out: cameras and labels, in pixels of the finished page. Nothing is drawn here."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from model3d.geometry.placement import Vec3
from model3d.pictures.corners.values import CornerSheet
from model3d.pictures.labelled.tags import DrawnTag, Picture, drawn_tags
from model3d.pictures.paper import Box
from model3d.pictures.solids import PlacedMesh, cut_away, placed
from model3d.pictures.stage import Camera
from model3d.pictures.theme import Theme
from model3d.pictures.views import Room, framed

ROOM_VIEW = Box(left=44, top=146, width=790, height=400)
ABOVE = Box(left=862, top=146, width=694, height=400)
SECTION = Box(left=44, top=600, width=980, height=364)
TABLE = Box(left=1052, top=600, width=504, height=364)
_FIELD_DEG = 12.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CornerPage:
    """The whole sheet, ready to draw."""

    sheet: CornerSheet
    from_room: Picture
    above: Picture
    section: Picture
    tags: tuple[DrawnTag, ...]


def corner_page(sheet: CornerSheet, theme: Theme) -> CornerPage:
    """Lay out the sheet of a corner."""
    size = round(ROOM_VIEW.width), round(ROOM_VIEW.height)
    parts = placed(sheet.parts, sheet.meshes)
    room = placed(sheet.room, sheet.meshes)
    fittings = [s.vertices_mm for s in parts if s.look != "fitted"]
    points = np.concatenate([np.array(sheet.near_mm), *fittings])
    camera = framed(points, sheet.toward_viewer, 24.0, size, Room(left=40, right=40, top=70, bottom=70))
    from_room = Picture(solids=(*room, *parts), camera=camera, frame=ROOM_VIEW)
    flat = np.concatenate([points, [sheet.corner_mm]])
    margins = Room(left=110, right=110, top=70, bottom=50)
    above = Picture(solids=parts, camera=straight_down(flat, sheet.sides[0].to_room, ABOVE, margins), frame=ABOVE)
    cut = [cut_away(s, sheet.cut_at_mm, (0.0, 0.0, 1.0)) for s in parts]
    kept: tuple[PlacedMesh, ...] = tuple(s for s in cut if s is not None)
    joint = np.concatenate([np.array(sheet.joint_mm), *fittings, [sheet.corner_mm]])
    down = straight_down(joint, sheet.sides[0].to_room, SECTION, Room(left=40, right=40, top=30, bottom=96))
    return CornerPage(
        sheet=sheet,
        from_room=from_room,
        above=above,
        section=Picture(solids=kept, camera=down, frame=SECTION),
        tags=drawn_tags(sheet.tags, from_room, theme),
    )


def straight_down(points_mm: Sequence[Vec3] | np.ndarray, to_room: Vec3, frame: Box, margins: Room) -> Camera:
    """A camera over the points that looks straight down, the wall at the top of the picture, the room below; so far
    up that every point lies inside the margins.
    """
    points = np.asarray(points_mm, dtype=float)
    up = np.array([-to_room[0], -to_room[1], 0.0])
    right = np.array([up[1], -up[0], 0.0])
    across, along = points @ right, points @ up
    half = math.tan(math.radians(_FIELD_DEG / 2))
    wide, high = frame.width - margins.left - margins.right, frame.height - margins.top - margins.bottom
    scale = min(wide / max(float(np.ptp(across)), 1e-6), high / max(float(np.ptp(along)), 1e-6))
    top = float(points[:, 2].max())
    x = float(across.max() + across.min()) / 2 - (margins.left - margins.right) / 2 / scale
    y = float(along.max() + along.min()) / 2 + (margins.top - margins.bottom) / 2 / scale
    middle = x * right + y * up
    eye = (float(middle[0]), float(middle[1]), top + frame.height / 2 / half / scale)
    return Camera(
        eye_mm=eye, target_mm=(eye[0], eye[1], 0.0), up=(float(up[0]), float(up[1]), 0.0), field_deg=_FIELD_DEG
    )
