"""What opens, on paper: leaves and sashes with the arcs they sweep, drawers pulled out; thin and dashed."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import Literal

from model3d.drawings.boxes import line_box
from model3d.drawings.labels import Page
from model3d.drawings.sheet import Sheet, path
from model3d.geometry.placement import Placement, Vec2
from model3d.rooms import CupboardDoor, Door, Drawer, Opener, Slab, Wall, Window

LEAF_POINTS = 32
Front = Callable[[float, float], Vec2]
"""From a place along a front and the distance out of it to a point of the room."""


def door_leaf(sheet: Sheet, wall: Wall, door: Door, page: Page) -> Iterator[str]:
    """The leaf of a door open, and the arc it sweeps, on whichever side of the wall."""
    side = 1.0 if door.swing == "in" else -1.0
    yield from _leaf(sheet, wall.point_mm, page, door.hinge, door.hinge_mm, door.width_mm, door.opens_deg, side)


def sashes(sheet: Sheet, wall: Wall, window: Window, page: Page) -> Iterator[str]:
    """The sashes of a window that open into the room."""
    if window.casement is not None:
        opens = window.casement.opens_deg
        for sash in window.sashes:
            yield from _leaf(sheet, wall.point_mm, page, sash.hinge, sash.hinge_mm, sash.width_mm, opens)


def openers(sheet: Sheet, thing: Slab, page: Page) -> Iterator[str]:
    """The doors of a box, and its drawers pulled out; those above one another once."""
    yield from dict.fromkeys(svg for opener in thing.openers for svg in _opener(sheet, thing.frame, opener, page))


def _opener(sheet: Sheet, frame: Placement, opener: Opener, page: Page) -> Iterator[str]:
    placed = frame @ opener.front

    def point(along: float, out: float) -> Vec2:
        x, y, _ = placed.point((along, out, 0.0))
        return (x, y)

    if isinstance(opener, CupboardDoor):
        wide = opener.to_mm - opener.from_mm
        yield from _leaf(sheet, point, page, opener.hinge, opener.hinge_mm, wide, opener.opens_deg)
    else:
        yield from _drawer(sheet, point, page, opener)


def _leaf(
    sheet: Sheet,
    point: Front,
    page: Page,
    hinge: Literal["left", "right"],
    hinge_mm: float,
    width_mm: float,
    opens_deg: float,
    side: float = 1.0,
) -> Iterator[str]:
    sign = 1.0 if hinge == "right" else -1.0
    points = []
    for i in range(LEAF_POINTS + 1):
        angle = math.radians(opens_deg * i / LEAF_POINTS)
        along, off = hinge_mm + sign * width_mm * math.cos(angle), side * width_mm * math.sin(angle)
        points.append(sheet.at(point(along, off)))
    end = sheet.at(point(hinge_mm, 0.0))
    page.lines += [line_box(a, b) for a, b in zip(points[::4], [*points[4::4], end], strict=True)]
    yield f'<path class="leaf" d="{path([*points, end])}"/>'


def _drawer(sheet: Sheet, point: Front, page: Page, drawer: Drawer) -> Iterator[str]:
    """The three sides of a drawer that stand before its front."""
    ends = ((drawer.from_mm, 0.0), (drawer.from_mm, drawer.out_mm), (drawer.to_mm, drawer.out_mm), (drawer.to_mm, 0.0))
    points = [sheet.at(point(along, out)) for along, out in ends]
    page.lines += [line_box(a, b) for a, b in pairwise(points)]
    yield f'<path class="leaf" d="{path(points)}"/>'
