"""Doors and windows as they are seen from the room: leaf, panels and handle; frame, casements, panes and sill board.

Wall frame: x along the wall from its first corner, y into the room with 0 at the wall's surface, z up. Sizes of
boards are common ones, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from model3d.geometry.placement import Placement
from model3d.rooms import Door, Window
from model3d.scene.furniture.shapes import Element, Look, Rod, Turned, block

PAINT = Look(material="satin", colour=(0.93, 0.92, 0.90))
STEEL = Look(material="metal", colour=(0.74, 0.73, 0.71))
THRESHOLD = Look(material="wood", colour=(0.52, 0.38, 0.26))
PROUD_MM, GAP_MM, FRAME_MM, SASH_MM, FRAME_DEPTH_MM = 9.0, 3.0, 45.0, 42.0, 62.0
WIDE_CASEMENT_MM = 850.0


def door_elements(door: Door, wall_thickness_mm: float) -> Iterator[Element]:
    """A panelled leaf, shut and flush with the wall, its lining, handle and threshold."""
    left, right, high = door.from_mm, door.to_mm, door.height_mm
    thick = min(door.leaf_thickness_mm, wall_thickness_mm) - PROUD_MM
    yield block(
        PAINT, (right - left - 2 * GAP_MM, thick, high - 10.0), (left + GAP_MM, -thick - PROUD_MM, 6.0), round_mm=1.0
    )
    yield from _stiles_and_rails(left + GAP_MM, right - GAP_MM, 6.0, high - 4.0)
    stop = GAP_MM + 2.0  # behind the gaps round the leaf, a little wider than they are: no light through them
    for x in (left - 1.0, right - stop + 1.0):
        yield block(PAINT, (stop, 2.0, high), (x, -14.0, 0.0), round_mm=0.0)
    yield block(PAINT, (right - left, 2.0, 4.0 + 2.0), (left, -14.0, high - 5.0), round_mm=0.0)
    yield block(THRESHOLD, (right - left, wall_thickness_mm, 18.0), (left, -wall_thickness_mm, -16.0), round_mm=1.0)
    yield from _handle(door)


def _stiles_and_rails(left: float, right: float, low: float, high: float) -> Iterator[Element]:
    """Boards proud of the leaf, which leave two columns of a short and a tall panel."""
    stile, middle = 100.0, 90.0
    rails = ((low, low + 190.0), (0.44 * high, 0.44 * high + 150.0), (high - 105.0, high))
    for x, width in ((left, stile), ((left + right - middle) / 2, middle), (right - stile, stile)):
        yield block(PAINT, (width, PROUD_MM + 2.0, high - low), (x, -PROUD_MM - 2.0, low), round_mm=1.5)
    spans = ((left + stile, (left + right - middle) / 2), ((left + right + middle) / 2, right - stile))
    for a, b in spans:
        for bottom, top in rails:
            yield block(
                PAINT, (b - a + 2.0, PROUD_MM + 1.6, top - bottom), (a - 1.0, -PROUD_MM - 2.0, bottom), round_mm=1.5
            )
        for (_, low_edge), (high_edge, _) in pairwise(rails):
            field = (b - a - 70.0, 7.0, high_edge - low_edge - 70.0)
            if min(field) > 0:
                yield block(PAINT, field, (a + 35.0, -PROUD_MM - 1.0, low_edge + 35.0), round_mm=3.0)


def _handle(door: Door) -> Iterator[Element]:
    toward = 1.0 if door.hinge == "left" else -1.0  # the handle is at the side away from the hinges
    x = door.from_mm + 62.0 if door.hinge == "left" else door.to_mm - 62.0
    out = Placement(origin_mm=(x, 0.0, 1010.0), x_axis=(1.0, 0.0, 0.0), y_axis=(0.0, 0.0, -1.0), z_axis=(0.0, 1.0, 0.0))
    rose = Turned(outline_mm=((0.0, 0.0), (26.0, 0.0), (26.0, 6.0), (23.0, 9.0), (0.0, 9.0)))
    yield Element(shape=rose, look=STEEL, placement=out)
    lever = ((x, 8.0, 1010.0), (x, 44.0, 1010.0), (x + toward * 14.0, 52.0, 1010.0), (x + toward * 125.0, 52.0, 1010.0))
    yield Element(shape=Rod(points_mm=lever, radius_mm=9.0), look=STEEL)


def window_elements(window: Window, wall_thickness_mm: float) -> Iterator[Element]:
    """Frame at the outside of the wall, one casement or two, their handles, and the sill board; panes apart."""
    depth = min(FRAME_DEPTH_MM, wall_thickness_mm)
    back, low, high = -wall_thickness_mm, window.sill_mm, window.sill_mm + window.height_mm
    yield from _ring(window.from_mm, window.to_mm, low, high, FRAME_MM, back, depth - 12.0)
    for left, right in casements(window):
        yield from _ring(left, right, low + FRAME_MM - 8.0, high - FRAME_MM + 8.0, SASH_MM, back + 6.0, depth - 6.0)
        yield from _catch((left, right), window, back + depth)
    if len(casements(window)) == 2:
        middle = (window.from_mm + window.to_mm) / 2
        yield block(
            PAINT,
            (FRAME_MM, depth - 12.0, window.height_mm - 2 * FRAME_MM),
            (middle - FRAME_MM / 2, back, low + FRAME_MM),
            round_mm=2.0,
        )
    proud = window.sill_depth_mm if window.sill_depth_mm > 0 else 22.0
    thick = window.sill_thickness_mm if window.sill_depth_mm > 0 else 18.0
    inner = wall_thickness_mm - depth + 14.0
    yield block(
        PAINT,
        (window.width_mm - 2.0, inner + 2.0, thick),
        (window.from_mm + 1.0, -inner, low - thick + 2.0),
        round_mm=1.0,
    )
    yield block(
        PAINT, (window.width_mm + 50.0, proud, thick), (window.from_mm - 25.0, 0.0, low - thick + 2.0), round_mm=5.0
    )


def casements(window: Window) -> tuple[tuple[float, float], ...]:
    """From where to where along the wall each casement goes: two where one would be wide."""
    left, right, lap = window.from_mm + FRAME_MM - 8.0, window.to_mm - FRAME_MM + 8.0, FRAME_MM / 2 - 8.0
    if window.width_mm < WIDE_CASEMENT_MM:
        return ((left, right),)
    middle = (left + right) / 2
    return ((left, middle - lap), (middle + lap, right))


def panes(window: Window, wall_thickness_mm: float) -> Iterator[Element]:
    """The panes of glass, one a casement."""
    depth = min(FRAME_DEPTH_MM, wall_thickness_mm)
    low, high = (
        window.sill_mm + FRAME_MM + SASH_MM - 14.0,
        window.sill_mm + window.height_mm - FRAME_MM - SASH_MM + 14.0,
    )
    for left, right in casements(window):
        size = (right - left - 2 * SASH_MM + 12.0, 6.0, high - low)
        if min(size) > 0:
            place = (left + SASH_MM - 6.0, -wall_thickness_mm + depth / 2, low)
            yield block(Look(material="satin", colour=(0.62, 0.72, 0.78)), size, place, round_mm=0.0)


def _ring(
    left: float, right: float, low: float, high: float, board: float, back: float, depth: float
) -> Iterator[Element]:
    for x in (left, right - board):
        yield block(PAINT, (board, depth, high - low), (x, back, low), round_mm=3.0)
    for z in (low, high - board):
        yield block(PAINT, (right - left - 2 * board + 6.0, depth, board), (left + board - 3.0, back, z), round_mm=3.0)


def _catch(span: tuple[float, float], window: Window, front: float) -> Iterator[Element]:
    left, right = span
    middle = (window.from_mm + window.to_mm) / 2
    x = right - SASH_MM / 2 if (left + right) / 2 <= middle + 1.0 else left + SASH_MM / 2
    z = window.sill_mm + 0.42 * window.height_mm
    yield block(STEEL, (22.0, 8.0, 60.0), (x - 11.0, front - 1.0, z - 30.0), round_mm=3.0)
    yield Element(
        shape=Rod(points_mm=((x, front, z), (x, front + 30.0, z), (x, front + 34.0, z - 95.0)), radius_mm=7.0),
        look=STEEL,
    )
