"""A bench page laid out: cameras, labels, words, in pixels of the finished page. Nothing is drawn here."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from model3d.pictures.bench.placing import Seat, SeenMap, seated
from model3d.pictures.bench.values import Bench, BenchEnd, Tag
from model3d.pictures.lettering import TextBlock, set_text
from model3d.pictures.paper import Box, Px
from model3d.pictures.solids import PlacedMesh, placed
from model3d.pictures.stage import Camera
from model3d.pictures.theme import Theme
from model3d.pictures.views import Room, framed, project

WHOLE = Box(left=44, top=118, width=1512, height=172)
PANEL_TOP, PANEL_HIGH = 352.0, 474.0
PANEL_WIDE, END_ON_WIDE = 566.0, 176.0
LABEL_PAD, SIGN_PX = 9.0, 30.0
FIELD_DEG = 20.0
MARGINS = Room(left=24, right=24, top=76, bottom=76)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Picture:
    """A shaded picture and its place on the page."""

    solids: tuple[PlacedMesh, ...]
    camera: Camera
    frame: Box

    def pixel(self, at_mm: tuple[float, float, float]) -> Px:
        """Where a point falls on the page."""
        x, y, _ = project(self.camera, np.array([at_mm]), round(self.frame.width), round(self.frame.height))[0]
        return float(x) + self.frame.left, float(y) + self.frame.top


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DrawnTag:
    """A label: its words, box, and the leader from its foot to the tip on the part."""

    tag: Tag
    block: TextBlock
    seat: Seat
    tip: Px


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
    camera = framed(np.array(bench.corners_mm), toward, 8.0, size, margins)
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
        tags=_drawn_tags(end, picture, theme),
        guides=tuple((picture.pixel(a), picture.pixel(b)) for a, b in end.guides_mm),
        left=left,
    )


def _drawn_tags(end: BenchEnd, picture: Picture, theme: Theme) -> tuple[DrawnTag, ...]:
    seen = SeenMap(picture.solids, picture.camera, (round(picture.frame.width), round(picture.frame.height)))
    kept: list[tuple[Tag, Px, TextBlock]] = []
    for tag in end.tags:
        found = seen.point(tag.on, tag.at_mm)
        if found is not None:
            tip = found[0] + picture.frame.left, found[1] + picture.frame.top
            kept.append((tag, tip, set_text(tag.text, theme.callout_px, 262.0)))
    sizes = [_label_size(tag, block) for tag, _, block in kept]
    seats = seated(sizes, [tip for _, tip, _ in kept], picture.frame.grown(-8.0))
    return tuple(
        DrawnTag(tag=tag, block=block, seat=seat, tip=tip) for (tag, tip, block), seat in zip(kept, seats, strict=True)
    )


def _label_size(tag: Tag, block: TextBlock) -> tuple[float, float]:
    sign = SIGN_PX if tag.kind != "plain" or tag.face != "none" else 0.0
    return block.width_px + 2 * LABEL_PAD + sign, max(block.height_px, SIGN_PX) + LABEL_PAD
