"""A bench page laid out: cameras, labels, arrows, words, in pixels of the finished page. Nothing is drawn here."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from model3d.pictures.bench.text import Flag, Way, cut_words, end_on_words, flag, head_words, title_words, todo, way
from model3d.pictures.bench.values import Bench, BenchEnd
from model3d.pictures.labelled.tags import DrawnTag, Picture, drawn_tags, tallest_px
from model3d.pictures.labelled.words import Words
from model3d.pictures.paper import Box, Px
from model3d.pictures.solids import placed
from model3d.pictures.theme import Theme
from model3d.pictures.views import Room, framed
from model3d.wording import Catalogue, catalogue

WHOLE = Box(left=44, top=118, width=1512, height=172)
PANEL_TOP, PANEL_HIGH, TITLE_HIGH = 352.0, 474.0, 52.0
PANEL_WIDE, END_ON_WIDE = 566.0, 176.0
FIELD_DEG = 20.0
WHOLE_FIELD_DEG = 3.0  # from so far off that square ends look square


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DrawnEnd:
    """One end: its picture, the view end-on, labels, guide lines; its words: title, end-on, and what to do, each with
    the place of its number.
    """

    end: BenchEnd
    picture: Picture
    end_on: Picture
    tags: tuple[DrawnTag, ...]
    guides: tuple[tuple[Px, Px], ...]
    words: tuple[Words, ...]
    todo: tuple[Words, ...]
    numbers: tuple[tuple[str, Px], ...]
    badge: Px | None
    frame: Box


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BenchPage:
    """The whole page; ``ends`` from left to right as the piece lies in the picture; ``drop`` is the place of the sign
    for grease.
    """

    bench: Bench
    whole: Picture
    ends: tuple[DrawnEnd, DrawnEnd]
    near_px: tuple[Px, Px]
    head: tuple[Words, ...]
    drop: Px | None
    cut: Words
    cut_inside: bool
    flags: tuple[Flag, Flag]
    ways: tuple[Way, Way]

    def words(self) -> tuple[Words, ...]:
        """All words but those of labels."""
        ends = [words for end in self.ends for words in (*end.words, *end.todo)]
        return (*self.head, self.cut, *(w.words for w in self.ways), *(f.words for f in self.flags), *ends)


def bench_page(bench: Bench, theme: Theme) -> BenchPage:
    """Lay out the page of a piece on the bench."""
    words = catalogue(bench.language)
    toward = (bench.to_room[0] * 0.82, bench.to_room[1] * 0.82, 0.57)
    size = round(WHOLE.width), round(WHOLE.height)
    margins = Room(left=250, right=250, top=34, bottom=46)
    camera = framed(np.array(bench.corners_mm), toward, WHOLE_FIELD_DEG, size, margins)
    whole = Picture(solids=placed([bench.piece], bench.meshes), camera=camera, frame=WHOLE)
    near, far = whole.pixel(bench.corners_mm[2]), whole.pixel(bench.corners_mm[6])
    ends = bench.ends if near[0] <= far[0] else (bench.ends[1], bench.ends[0])
    low, high = sorted((near[0], far[0]))
    cut, inside = cut_words(words, bench.cut_length_mm, low, high, WHOLE, theme)
    head, drop = head_words(words, bench, theme)
    top, front = whole.pixel(bench.top_mm), whole.pixel(bench.front_mm)
    aside = min(120.0, (high - low) * 0.2)
    return BenchPage(
        bench=bench,
        whole=whole,
        ends=(_drawn_end(bench, ends[0], 44.0, words, theme), _drawn_end(bench, ends[1], 816.0, words, theme)),
        near_px=(min(near, far), max(near, far)),
        head=head,
        drop=drop,
        cut=cut,
        cut_inside=inside,
        flags=(
            flag(words.say("bench.top-edge"), top[0] - 130.0, (top[0] - aside, top[1]), WHOLE, theme),
            flag(words.say("face.front"), front[0] + 130.0, (front[0] + aside, front[1]), WHOLE, theme),
        ),
        ways=(way(ends[0].toward, WHOLE, theme, right=False), way(ends[1].toward, WHOLE, theme, right=True)),
    )


def _drawn_end(bench: Bench, end: BenchEnd, left: float, words: Catalogue, theme: Theme) -> DrawnEnd:
    frame = Box(left=left, top=PANEL_TOP, width=PANEL_WIDE, height=PANEL_HIGH)
    size = round(frame.width), round(frame.height)
    solids = placed(end.actors, bench.meshes)
    apart = [s.vertices_mm for s in solids if s.id != bench.piece.id]
    row = max(62.0, tallest_px(end.tags, theme) + 8.0) + 14.0
    margins = Room(left=24, right=24, top=row, bottom=row)
    camera = framed(np.concatenate([np.array(end.frame_mm), *apart]), end.toward_viewer, FIELD_DEG, size, margins)
    picture = Picture(solids=solids, camera=camera, frame=frame)
    end_on = _end_on(bench, end, left)
    panel = Box(
        left=left, top=PANEL_TOP - TITLE_HIGH, width=PANEL_WIDE + END_ON_WIDE, height=PANEL_HIGH + TITLE_HIGH
    )
    lines, numbers = todo(end.todo, panel, theme)
    sides, badge = end_on_words(words, end.face, end_on.frame, room_right=_room_right(end, end_on), theme=theme)
    return DrawnEnd(
        end=end,
        picture=picture,
        end_on=end_on,
        tags=drawn_tags(end.tags, picture, theme),
        guides=tuple((picture.pixel(a), picture.pixel(b)) for a, b in end.guides_mm),
        words=(title_words(end.title, panel, TITLE_HIGH, theme), *sides),
        todo=lines,
        numbers=numbers,
        badge=badge,
        frame=panel,
    )


def _end_on(bench: Bench, end: BenchEnd, left: float) -> Picture:
    side = Box(left=left + PANEL_WIDE, top=PANEL_TOP, width=END_ON_WIDE, height=PANEL_HIGH)
    size = round(side.width), round(side.height)
    seen = framed(np.array(end.end_frame_mm), end.outward, 6.0, size, Room(left=30, right=30, top=86, bottom=104))
    return Picture(solids=placed(end.flush, bench.meshes), camera=seen, frame=side)


def _room_right(end: BenchEnd, end_on: Picture) -> bool:
    """Whether the room is on the right of the view end-on."""
    x, y, z = (c + 40.0 * r for c, r in zip(end.centre_mm, end.to_room, strict=True))
    return end_on.pixel((x, y, z))[0] > end_on.pixel(end.centre_mm)[0]
