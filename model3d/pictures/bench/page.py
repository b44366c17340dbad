"""A bench page laid out: cameras, labels, words, in pixels of the finished page. Nothing is drawn here."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from model3d.pictures.bench.values import Bench, BenchEnd
from model3d.pictures.labelled.tags import DrawnTag, Picture, drawn_tags
from model3d.pictures.paper import Box, Px
from model3d.pictures.solids import placed
from model3d.pictures.theme import Theme
from model3d.pictures.views import Room, framed

WHOLE = Box(left=44, top=118, width=1512, height=172)
PANEL_TOP, PANEL_HIGH = 352.0, 474.0
PANEL_WIDE, END_ON_WIDE = 566.0, 176.0
FIELD_DEG = 20.0
WHOLE_FIELD_DEG = 3.0  # from so far off that square ends look square
MARGINS = Room(left=24, right=24, top=76, bottom=76)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DrawnEnd:
    """One end: its picture, the view end-on, labels, guide lines and what to do."""

    end: BenchEnd
    picture: Picture
    end_on: Picture
    room_right: bool
    tags: tuple[DrawnTag, ...]
    guides: tuple[tuple[Px, Px], ...]
    left: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BenchPage:
    """The whole page; ``ends`` from left to right as the piece lies in the picture."""

    bench: Bench
    whole: Picture
    ends: tuple[DrawnEnd, DrawnEnd]
    near_px: tuple[Px, Px]
    top_px: Px
    front_px: Px


def bench_page(bench: Bench, theme: Theme) -> BenchPage:
    """Lay out the page of a piece on the bench."""
    toward = (bench.to_room[0] * 0.82, bench.to_room[1] * 0.82, 0.57)
    size = round(WHOLE.width), round(WHOLE.height)
    margins = Room(left=250, right=250, top=34, bottom=46)
    camera = framed(np.array(bench.corners_mm), toward, WHOLE_FIELD_DEG, size, margins)
    whole = Picture(solids=placed([bench.piece], bench.meshes), camera=camera, frame=WHOLE)
    near, far = whole.pixel(bench.corners_mm[2]), whole.pixel(bench.corners_mm[6])
    ends = bench.ends if near[0] <= far[0] else (bench.ends[1], bench.ends[0])
    return BenchPage(
        bench=bench,
        whole=whole,
        ends=(_drawn_end(bench, ends[0], 44.0, theme), _drawn_end(bench, ends[1], 816.0, theme)),
        near_px=(min(near, far), max(near, far)),
        top_px=whole.pixel(bench.top_mm),
        front_px=whole.pixel(bench.front_mm),
    )


def _drawn_end(bench: Bench, end: BenchEnd, left: float, theme: Theme) -> DrawnEnd:
    frame = Box(left=left, top=PANEL_TOP, width=PANEL_WIDE, height=PANEL_HIGH)
    size = round(frame.width), round(frame.height)
    solids = placed(end.actors, bench.meshes)
    apart = [s.vertices_mm for s in solids if s.id != bench.piece.id]
    camera = framed(np.concatenate([np.array(end.frame_mm), *apart]), end.toward_viewer, FIELD_DEG, size, MARGINS)
    picture = Picture(solids=solids, camera=camera, frame=frame)
    side = Box(left=left + PANEL_WIDE, top=PANEL_TOP, width=END_ON_WIDE, height=PANEL_HIGH)
    seen = framed(
        np.array(end.end_frame_mm),
        end.outward,
        6.0,
        (round(side.width), round(side.height)),
        Room(left=30, right=30, top=86, bottom=104),
    )
    end_on = Picture(solids=placed(end.flush, bench.meshes), camera=seen, frame=side)
    out = tuple(c + 40.0 * r for c, r in zip(end.centre_mm, end.to_room, strict=True))
    return DrawnEnd(
        end=end,
        picture=picture,
        end_on=end_on,
        room_right=end_on.pixel((out[0], out[1], out[2]))[0] > end_on.pixel(end.centre_mm)[0],
        tags=drawn_tags(end.tags, picture, theme),
        guides=tuple((picture.pixel(a), picture.pixel(b)) for a, b in end.guides_mm),
        left=left,
    )
