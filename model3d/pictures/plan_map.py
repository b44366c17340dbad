"""A small map of the room from above: where the pieces of a step go, and from where the picture looks at them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from model3d.geometry.placement import Vec2
from model3d.pictures.markup import element
from model3d.pictures.paper import Box, Paper, Px
from model3d.pictures.placing import Worth
from model3d.pictures.stage import Camera, PlanMap
from model3d.pictures.theme import Theme

_MOST_PX = (172.0, 124.0)
_PAD_PX = 13.0
_EYE_PX = 46.0
_LEAST_VIEW_PX = 18.0
_HALF_VIEW_DEG = 24.0
_STEP_PX = 12.0
_MOST_WORTH = 500.0
_CORNER_WORTH = 0.25


def map_box(plan: PlanMap, panel: Box, worth: Worth, paper: Paper) -> Box | None:
    """A free place for the map along the panel's upper or lower edge, near a corner, over as little as can be; None
    where it would lie over something that matters.
    """
    scale = _scale(plan)
    size = tuple(side * scale + 2 * _PAD_PX for side in _extent(plan)[1])
    best: tuple[float, Box] | None = None
    for left in np.arange(panel.left + 14.0, panel.right - size[0] - 13.0, _STEP_PX):
        for top in (panel.top + 14.0, panel.bottom - size[1] - 14.0):
            box = Box(left=float(left), top=top, width=size[0], height=size[1])
            if not paper.free(box.grown(6.0)):
                continue
            aside = min(box.left - panel.left, panel.right - box.right)
            cost = worth.under(box) + _CORNER_WORTH * aside
            if cost < _MOST_WORTH and (best is None or cost < best[0]):
                best = cost, box
    return None if best is None else best[1]


def map_icon(plan: PlanMap, box: Box, camera: Camera, theme: Theme) -> Iterator[str]:
    """SVG of the map: the room, what is up as a dark line, what goes up now in its colour, what is still to come as a
    thin one; the eye and what it looks at.
    """
    (low_x, low_y), _ = _extent(plan)
    scale = _scale(plan)

    def px(point: Vec2) -> Px:
        return box.left + _PAD_PX + (point[0] - low_x) * scale, box.bottom - _PAD_PX - (point[1] - low_y) * scale

    yield element(
        "rect", x=box.left, y=box.top, width=box.width, height=box.height, rx=8.0, fill=theme.paper,
        stroke=theme.rule, stroke_width=1.5,
    )  # fmt: skip
    floor, wall = theme.surfaces["room-floor"].fill, theme.soft_ink
    for k, ring in enumerate(plan.rings):
        points = " ".join(f"{x:.1f},{y:.1f}" for x, y in map(px, ring))
        yield element("polygon", points=points, fill=theme.paper if k else floor, stroke=wall, stroke_width=1.2)
    yield from _eye([px(point) for line in plan.now for point in line], camera, box, theme)
    for lines, colour, wide in (
        (plan.before, theme.soft_ink, 3.4),
        (plan.now, theme.halo, 9.0),
        (plan.now, theme.surfaces["new"].fill, 6.0),
    ):
        for start, end in (map(px, line) for line in lines):
            yield element(
                "line", x1=start[0], y1=start[1], x2=end[0], y2=end[1], stroke=colour, stroke_width=wide,
                stroke_linecap="round" if wide > 4.0 else "butt",
            )  # fmt: skip


def _eye(seen: Sequence[Px], camera: Camera, box: Box, theme: Theme) -> Iterator[str]:
    """The eye, a little way off what is looked at and inside the box, and its field of view."""
    if not seen:
        return
    x, y = (float(c) for c in np.mean(seen, axis=0))
    over, down = camera.eye_mm[0] - camera.target_mm[0], camera.target_mm[1] - camera.eye_mm[1]
    long = max(math.hypot(over, down), 1e-9)
    over, down = over / long, down / long
    inner = box.grown(-9.0)
    far = min(_EYE_PX, _room(x, over, inner.left, inner.right), _room(y, down, inner.top, inner.bottom))
    eye = x + over * far, y + down * far
    corners = [eye]
    for turn in (-_HALF_VIEW_DEG, _HALF_VIEW_DEG):
        c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        reach = max(far, _LEAST_VIEW_PX)
        corners.append((eye[0] - reach * (over * c - down * s), eye[1] - reach * (over * s + down * c)))
    points = " ".join(f"{x:.1f},{y:.1f}" for x, y in corners)
    yield element("polygon", points=points, fill=theme.move, fill_opacity="0.22")
    yield element("circle", cx=eye[0], cy=eye[1], r=5.0, fill=theme.move, stroke=theme.halo, stroke_width=1.5)


def _room(at: float, way: float, low: float, high: float) -> float:
    """How far one may go from ``at`` along ``way`` before one leaves low to high."""
    return math.inf if abs(way) < 1e-9 else ((high if way > 0 else low) - at) / way


def _extent(plan: PlanMap) -> tuple[Vec2, Vec2]:
    """The room's lowest x and y, and its size."""
    points = np.array([point for ring in plan.rings for point in ring])
    low, high = points.min(axis=0), points.max(axis=0)
    return (float(low[0]), float(low[1])), (float(high[0] - low[0]), float(high[1] - low[1]))


def _scale(plan: PlanMap) -> float:
    """Pixels a millimetre, so that the room fits."""
    _, size = _extent(plan)
    return min((most - 2 * _PAD_PX) / max(side, 1.0) for most, side in zip(_MOST_PX, size, strict=True))
