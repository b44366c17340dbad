"""A corner sheet laid out: cameras, labels, dimensions and words, in pixels of the page. Nothing is drawn here."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from model3d.geometry.placement import Vec3
from model3d.pictures.corners.dimensions import Boxed, Dimension, allowance, angle, dimensioned_mm, piece_mark
from model3d.pictures.corners.ruler import Ruler, ruler
from model3d.pictures.corners.table import Row, hose_rows, window_rows
from model3d.pictures.corners.values import CornerSheet
from model3d.pictures.labelled.tags import DrawnTag, Picture, drawn_tags, tallest_px
from model3d.pictures.labelled.words import Words, words_in
from model3d.pictures.paper import Box
from model3d.pictures.solids import PlacedMesh, cut_away, placed
from model3d.pictures.stage import Camera
from model3d.pictures.theme import Theme
from model3d.pictures.views import Room, framed
from model3d.wording import Catalogue, catalogue

ROOM_VIEW = Box(left=44, top=146, width=790, height=400)
ABOVE = Box(left=862, top=146, width=694, height=400)
SECTION = Box(left=44, top=600, width=980, height=364)
TABLE = Box(left=1052, top=600, width=504, height=364)
_FIELD_DEG = 12.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CornerPage:
    """The whole sheet, ready to draw. ``heads`` are the titles of the sheet and of its pictures, ``marks`` those of the
    two pieces on the section.
    """

    sheet: CornerSheet
    from_room: Picture
    above: Picture
    section: Picture
    tags: tuple[DrawnTag, ...]
    heads: tuple[Words, ...]
    dimensions: tuple[Dimension, ...]
    angle: Boxed
    marks: tuple[Boxed, ...]
    ruler: Ruler | None
    rows: tuple[Row, ...]

    def words(self) -> tuple[Words, ...]:
        """All words but those of labels."""
        figures = [d.words for d in self.dimensions] + [self.angle.words] + [m.words for m in self.marks]
        ticks = [tick.words for tick in self.ruler.ticks] if self.ruler is not None else []
        return (*self.heads, *figures, *ticks, *(words for row in self.rows for words in row.words))


def corner_page(sheet: CornerSheet, theme: Theme) -> CornerPage:
    """Lay out the sheet of a corner."""
    words = catalogue(sheet.language)
    size = round(ROOM_VIEW.width), round(ROOM_VIEW.height)
    parts = placed(sheet.parts, sheet.meshes)
    room = placed(sheet.room, sheet.meshes)
    fittings = [s.vertices_mm for s in parts if s.look != "fitted"]
    points = np.concatenate([np.array(sheet.near_mm), *fittings])
    row = max(52.0, tallest_px(sheet.tags, theme)) + 18.0
    camera = framed(points, sheet.toward_viewer, 24.0, size, Room(left=40, right=40, top=row, bottom=row))
    from_room = Picture(solids=(*room, *parts), camera=camera, frame=ROOM_VIEW)
    lines = [end for side in sheet.sides for end in dimensioned_mm(side, sheet)]
    flat = np.concatenate([points, [sheet.corner_mm], lines])
    margins = Room(left=126, right=126, top=48, bottom=48)
    above = Picture(solids=parts, camera=straight_down(flat, sheet.sides[0].to_room, ABOVE, margins), frame=ABOVE)
    cut = [cut_away(s, sheet.cut_at_mm, (0.0, 0.0, 1.0)) for s in parts]
    kept: tuple[PlacedMesh, ...] = tuple(s for s in cut if s is not None)
    joint = np.concatenate([np.array(sheet.joint_mm), *fittings, [sheet.corner_mm]])
    down = straight_down(joint, sheet.sides[0].to_room, SECTION, Room(left=40, right=40, top=30, bottom=96))
    section = Picture(solids=kept, camera=down, frame=SECTION)
    window = sheet.window
    return CornerPage(
        sheet=sheet,
        from_room=from_room,
        above=above,
        section=section,
        tags=drawn_tags(sheet.tags, from_room, theme),
        heads=_heads(sheet, words, theme),
        dimensions=tuple(allowance(side, sheet, above, words, theme) for side in sheet.sides),
        angle=angle(sheet, above, words, theme),
        marks=tuple(piece_mark(side, sheet, section, theme) for side in sheet.sides),
        ruler=ruler(sheet, window, section, words, theme) if window is not None else None,
        rows=_table(sheet, words, theme),
    )


def _heads(sheet: CornerSheet, words: Catalogue, theme: Theme) -> tuple[Words, ...]:
    """Title, what kind of corner it is, and what each picture is."""
    wide = theme.page_px[0] - 2 * theme.margin_px
    title = Box(left=theme.margin_px, top=16, width=wide, height=50)
    under = Box(left=theme.margin_px, top=68, width=wide, height=36)
    found = [
        words_in(title, sheet.title, theme.title_px, theme.ink, bold=True),
        words_in(under, sheet.subtitle, theme.body_px, theme.soft_ink),
    ]
    keys = ("corner.from-room", "corner.from-above", "corner.cut", "corner.warmth")
    for frame, key in zip((ROOM_VIEW, ABOVE, SECTION, TABLE), keys, strict=True):
        over = Box(left=frame.left, top=frame.top - 36, width=frame.width, height=32)
        found.append(words_in(over, words.say(key), 22.0, theme.ink, bold=True))
    return tuple(found)


def _table(sheet: CornerSheet, words: Catalogue, theme: Theme) -> tuple[Row, ...]:
    if sheet.window is not None:
        return window_rows(sheet.window, TABLE, words, theme)
    return hose_rows(sheet.hoses, TABLE, words, theme) if sheet.hoses is not None else ()


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
