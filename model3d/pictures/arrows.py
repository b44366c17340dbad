"""Arrows of the moves on the page: their outlines, long enough to be seen, and kept apart."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Literal, get_args

import numpy as np

from model3d.geometry.placement import Vec3
from model3d.pictures.lettering import balanced, width_px
from model3d.pictures.page import DISC_PX, SNAG_PX, DrawnArrow
from model3d.pictures.paper import Box, Paper, Px, drawn
from model3d.pictures.stage import Arrow, Points, Swing
from model3d.pictures.swings import arc
from model3d.pictures.theme import Theme

Projection = Callable[[Points], Points]
NoteSide = Literal["behind", "above", "below"]
SIDES: tuple[NoteSide, ...] = get_args(NoteSide)
_PUSHES = ("press", "tap")
_STATIONS = 21
NOTE_PX = 96.0
_SHRINKS = (1.0, 0.8, 0.62)
_FREE_PX = 8.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ArrowSize:
    """Pixels: shaft and head widths, least and most length, and the number's disc."""

    shaft: float
    head: float
    least: float
    most: float
    disc: float = DISC_PX
    note: float = 18.0

    def times(self, share: float) -> ArrowSize:
        """Slimmer and shorter arrows; numbers and words keep their size."""
        long = self.least * share, self.most * share
        return replace(self, shaft=self.shaft * share, head=self.head * share, least=long[0], most=long[1])


def main_size(theme: Theme) -> ArrowSize:
    """Arrows of the main picture."""
    return ArrowSize(
        shaft=theme.arrow_shaft_px,
        head=theme.arrow_head_px,
        least=theme.arrow_least_px,
        most=theme.arrow_most_px,
        note=theme.note_px,
    )


def inset_size(theme: Theme) -> ArrowSize:
    """Arrows of a close-up: slimmer and shorter."""
    return ArrowSize(
        shaft=theme.arrow_shaft_px * 0.75,
        head=theme.arrow_head_px * 0.8,
        note=theme.note_px * 0.94,
        least=theme.arrow_least_px * 0.62,
        most=theme.arrow_most_px * 0.6,
    )


def ribbon(path: Sequence[Px], shaft: float, head: float) -> tuple[Px, ...]:
    """The outline of an arrow along a line of points: a band of width ``shaft`` that ends in a head of width
    ``head``.

    The head is .82 times as long as wide, at most .6 of the whole. Raises ValueError for a line of no length.
    """
    points = np.asarray(path, dtype=float)
    steps = np.linalg.norm(np.diff(points, axis=0), axis=1)
    total = float(steps.sum())
    if total < 1e-6:
        raise ValueError("an arrow needs some length")
    reach = np.concatenate([[0.0], np.cumsum(steps)])
    neck = total - min(0.82 * head, 0.6 * total)
    stations = [*reach[reach < neck - 1e-6], neck]
    body = np.array([[np.interp(s, reach, points[:, k]) for k in (0, 1)] for s in stations])
    tip = points[-1]
    ahead = np.diff(np.vstack([body, tip]), axis=0)
    across = np.column_stack([-ahead[:, 1], ahead[:, 0]])
    across /= np.maximum(np.linalg.norm(across, axis=1, keepdims=True), 1e-9)
    left, right = body + across * shaft / 2, body - across * shaft / 2
    barbs = body[-1] + across[-1] * head / 2, body[-1] - across[-1] * head / 2
    outline = [*left, barbs[0], tip, barbs[1], *right[::-1]]
    return tuple((float(x), float(y)) for x, y in outline)


def drawn_arrow(
    arrow: Arrow, shift: Vec3, projection: Projection, size: ArrowSize, side: NoteSide = "behind"
) -> DrawnArrow:
    """One straight arrow, shifted by ``shift`` mm, in pixels; its note stands on a ``side`` of its number."""
    start, end = np.add(arrow.start_mm, shift), np.add(arrow.end_mm, shift)
    leg = end - start
    near = start + leg / max(float(np.linalg.norm(leg)), 1e-9) * 10.0
    ends = projection(np.array([start, end, near]))[:, :2]
    way = ends[2] - ends[0]
    way = way / max(float(np.linalg.norm(way)), 1e-9)
    long = float(np.clip(np.linalg.norm(ends[1] - ends[0]), size.least, size.most))
    tail = ends[0] - way * long if arrow.kind in _PUSHES else ends[0]
    made = _with_disc([_px(tail), _px(tail + way * long)], arrow.label, size)
    return _with_note(made, arrow, way, size, side)


def drawn_swing(swing: Swing, projection: Projection, size: ArrowSize) -> DrawnArrow:
    """A curved arrow; a turn too small to be seen begins earlier on its circle."""
    lead = 0.0
    for lead in np.arange(0.0, 41.0, 4.0):
        path = projection(np.array(arc(swing, float(lead))))[:, :2]
        if float(np.linalg.norm(np.diff(path, axis=0), axis=1).sum()) >= size.least:
            break
    return _with_disc([_px(point) for point in path], swing.label, size)


def _with_disc(path: list[Px], label: str, size: ArrowSize) -> DrawnArrow:
    tail = np.asarray(path[0]) - np.asarray(path[1])
    disc = np.asarray(path[0]) + tail / max(float(np.linalg.norm(tail)), 1e-9) * (size.disc - 3)
    return DrawnArrow(label=label, outline=ribbon(path, size.shaft, size.head), disc=_px(disc), disc_radius=size.disc)


def _with_note(made: DrawnArrow, arrow: Arrow, way: Points, size: ArrowSize, side: NoteSide) -> DrawnArrow:
    """The same with its words by the disc and the sign of a snag above (below, where the words stand above)."""
    if not arrow.note and not arrow.snag:
        return made
    x, y = made.disc
    edge = size.disc if arrow.label else 0.0
    beyond = size.disc + SNAG_PX
    snag = (x, y + beyond if side == "above" else y - beyond) if arrow.snag else None
    if not arrow.note:
        return replace(made, snag=snag)
    most = max(NOTE_PX, *(width_px(word, size.note, True) for word in arrow.note.split()))
    block = balanced(arrow.note, size.note, most, True)
    wide, high = block.width_px + 12, block.height_px + 4
    left = x - edge - wide + 3 if way[0] > -0.1 else x + edge - 3
    box = Box(left=left, top=y - high / 2, width=wide, height=high)
    if side != "behind":
        beside = edge if arrow.label else size.head / 2 + 5  # without a number the arrow itself stands there
        top = y - beside - high + 3 if side == "above" else y + beside - 3
        box = Box(left=x - wide / 2, top=top, width=wide, height=high)
    return replace(made, note=block, note_box=box, snag=snag)


def spread(
    arrows: Sequence[Arrow], projection: Projection, panel: Box, size: ArrowSize, paper: Paper
) -> tuple[DrawnArrow, ...]:
    """Every arrow on the page, each shifted along its own line as little as keeps it off ``paper`` and in the
    panel; all of them smaller where they would lie over one another.
    """
    paper = paper.only_inside(panel.grown(-6))
    best: tuple[float, tuple[DrawnArrow, ...]] = math.inf, ()
    for share in _SHRINKS:
        made = _spread(arrows, projection, size.times(share), paper)
        over = _over_one_another_px(made, paper.size)
        best = (over, made) if over < best[0] else best
        if over <= _FREE_PX:
            break
    return best[1]


def _spread(
    arrows: Sequence[Arrow], projection: Projection, size: ArrowSize, paper: Paper
) -> tuple[DrawnArrow, ...]:
    done: list[DrawnArrow] = []
    free = paper
    for arrow in arrows:
        done.append(_clear(arrow, projection, size, free))
        free = free.with_shapes(done[-1].shapes(), 8.0)
    for k, arrow in enumerate(arrows):  # once more, now that all of them stand
        others = paper.with_shapes((s for j, other in enumerate(done) if j != k for s in other.shapes()), 8.0)
        if others.area_px(drawn(paper.size, done[k].shapes())) > 0:
            done[k] = _clear(arrow, projection, size, others)
    return tuple(done)


def _over_one_another_px(arrows: Sequence[DrawnArrow], page_px: tuple[int, int]) -> float:
    """Pixels that more than one arrow takes, for every arrow past the first."""
    paper, over = Paper(size=page_px), 0.0
    for arrow in arrows:
        over += paper.area_px(drawn(page_px, arrow.shapes()))
        paper = paper.with_shapes(arrow.shapes())
    return over


def _clear(arrow: Arrow, projection: Projection, size: ArrowSize, paper: Paper) -> DrawnArrow:
    """The arrow at the nearest station that costs least: ten for each pixel laid over something, one
    for each that its words hide of its own line, .1 for each mm.
    """
    best: tuple[float, DrawnArrow] | None = None
    for shift in sorted(_shifts(arrow), key=lambda by: math.hypot(*by)):
        far = 0.1 * math.hypot(*shift)
        if best is not None and best[0] <= far:
            break
        for more, side in enumerate(SIDES if arrow.note else SIDES[:1]):
            made = drawn_arrow(arrow, shift, projection, size, side)
            cost = far + 2.0 * more + _own_cover_px(made)
            cost += 10 * paper.area_px(drawn(paper.size, made.shapes()))
            best = (cost, made) if best is None or cost < best[0] else best
    assert best is not None
    return best[1]


def _own_cover_px(made: DrawnArrow) -> float:
    """How many pixels of an arrow's own line lie under its words."""
    if made.note_box is None:
        return 0.0
    middle = len(made.outline) // 2
    start, tip = np.add(made.outline[0], made.outline[-1]) / 2, np.asarray(made.outline[middle])
    x, y = (start + np.linspace(0.0, 1.0, _STATIONS)[:, None] * (tip - start)).T
    box = made.note_box
    under = (box.left < x) & (x < box.right) & (box.top < y) & (y < box.bottom)
    return float(under.mean() * np.linalg.norm(tip - start))


def _shifts(arrow: Arrow) -> list[Vec3]:
    if arrow.along_mm is None:
        return [(0.0, 0.0, 0.0)]
    first, last = np.asarray(arrow.along_mm[0]), np.asarray(arrow.along_mm[1])
    line = last - first
    here = float(np.dot(np.subtract(arrow.start_mm, first), line) / max(float(line @ line), 1e-9))
    moves = [(0.0, 0.0, 0.0), *((s - here) * line for s in np.linspace(0, 1, _STATIONS))]
    return [(float(m[0]), float(m[1]), float(m[2])) for m in moves]


def _px(point: Points) -> Px:
    return float(point[0]), float(point[1])
