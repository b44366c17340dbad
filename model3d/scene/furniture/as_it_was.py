"""The room as it was before: an ordinary skirting board along the walls and panel radiators with their valves.

Sizes of flutes, valves and brackets are common ones, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from model3d.geometry.placement import at
from model3d.rooms import CheckedPlan, Room, Wall
from model3d.rooms.furniture import Before, Radiator
from model3d.scene.furniture.shapes import Element, Look, Rod, Turned, block, shade

ENAMEL = Look(material="satin", colour=(0.95, 0.945, 0.93))
BRASS = Look(material="metal", colour=(0.78, 0.76, 0.72))
COPPER = Look(material="satin", colour=(0.93, 0.92, 0.90))
OFF_WALL_MM, DEPTH_MM, FLUTE_MM = 32.0, 66.0, 33.3
LEAST_WIDTH_MM, MOST_WIDTH_MM = 500.0, 1400.0


def old_room(plan: CheckedPlan) -> Iterator[tuple[str, Element]]:
    """Every element of the old skirting and radiators, placed in the room, with the wall it is on."""
    before = plan.before
    for wall in plan.room.outer.walls:
        for element in _old_skirting(plan.room, wall, before):
            yield wall.id, element.within(wall.frame)
    for radiator in before.radiators or usual_radiators(plan.room):
        for element in radiator_elements(radiator):
            yield radiator.wall_id, element.within(plan.room.wall(radiator.wall_id).frame)


def _old_skirting(room: Room, wall: Wall, before: Before) -> Iterator[Element]:
    thick, high = before.skirting_thickness_mm, before.skirting_height_mm
    look = Look(material="satin", colour=before.skirting)
    bead = min(14.0, high / 4)
    for start, end in clear_stretches(room, wall):
        a = start - _round_corner(wall.first_corner.turn_deg, thick) * (start == 0.0)
        b = end + _round_corner(wall.last_corner.turn_deg, thick) * (end == wall.length_mm)
        yield block(look, (b - a, thick, high - bead), (a, 0.0, 0.0), round_mm=1.0)
        yield block(look, (b - a, thick * 0.72, bead + 6.0), (a, 0.0, high - bead - 6.0), round_mm=4.5)


def _round_corner(turn_deg: float, thick_mm: float) -> float:
    """How far a board goes past an external corner to meet the next one's face."""
    return thick_mm * math.tan(math.radians(-turn_deg) / 2) if turn_deg < 0 else 0.0


def clear_stretches(room: Room, wall: Wall) -> tuple[tuple[float, float], ...]:
    """From where to where along a wall there is no doorway, casing included."""
    doors = sorted(d.kept_clear_mm for d in room.doors if d.wall_id == wall.id)
    starts, ends = [0.0, *(b for _, b in doors)], [*(a for a, _ in doors), wall.length_mm]
    return tuple((a, b) for a, b in zip(starts, ends, strict=True) if b - a > 1.0)


def usual_radiators(room: Room) -> tuple[Radiator, ...]:
    """Where a plan gives none: one under the widest window, its height to fit; else one on the longest clear wall."""
    under = [w for w in room.windows if w.sill_mm >= 560.0 and w.width_mm >= LEAST_WIDTH_MM]
    if under:
        window = max(under, key=lambda w: w.width_mm)
        width = min(MOST_WIDTH_MM, max(LEAST_WIDTH_MM, 100.0 * math.floor(0.9 * window.width_mm / 100.0)))
        middle = (window.from_mm + window.to_mm) / 2
        height = min(600.0, window.sill_mm - 260.0)
        return (_usual(window.wall_id, middle, width, height),)
    free = [(b - a, w.id, (a + b) / 2) for w in room.outer.walls for a, b in clear_stretches(room, w)]
    length, wall_id, middle = max(free)
    return (_usual(wall_id, middle, min(1000.0, 0.8 * length), 600.0),)


def _usual(wall_id: str, middle_mm: float, width_mm: float, height_mm: float) -> Radiator:
    return Radiator(
        wall_id=wall_id, along_mm=middle_mm - width_mm / 2, width_mm=width_mm, height_mm=height_mm, up_mm=140.0
    )


def radiator_elements(radiator: Radiator) -> Iterator[Element]:
    """A double panel with upright flutes, top grille, side covers, brackets, valves and pipe tails; wall frame."""
    x, z, w, h = radiator.along_mm, radiator.up_mm, radiator.width_mm, radiator.height_mm
    front = OFF_WALL_MM + DEPTH_MM
    yield block(ENAMEL, (w, 10.0, h), (x, OFF_WALL_MM, z), round_mm=3.0)
    yield block(ENAMEL, (w, 10.0, h), (x, front - 10.0, z), round_mm=3.0)
    flutes = max(1, math.floor((w - 40.0) / FLUTE_MM))
    first = x + (w - flutes * FLUTE_MM) / 2
    for k in range(flutes):
        place = (first + k * FLUTE_MM + 4.0, front - 5.0, z + 26.0)
        yield block(ENAMEL, (FLUTE_MM - 8.0, 12.0, h - 52.0), place, round_mm=5.5)
    for side in (x - 1.0, x + w - 1.0):
        yield block(ENAMEL, (2.0, DEPTH_MM, h - 20.0), (side, OFF_WALL_MM, z + 10.0), round_mm=0.5)
    slats = max(2, math.floor(w / 26.0))
    grey = Look(material="satin", colour=shade(ENAMEL.colour, 0.93))
    for k in range(slats):
        yield block(
            grey,
            (8.0, DEPTH_MM - 18.0, 5.0),
            (x + (k + 0.5) * w / slats - 4.0, OFF_WALL_MM + 9.0, z + h - 3.0),
            round_mm=1.0,
        )
    for side in (x + 0.16 * w, x + 0.84 * w):
        yield block(ENAMEL, (30.0, OFF_WALL_MM, h - 120.0), (side - 15.0, 0.0, z + 60.0), round_mm=1.0)
    yield from _valves(x, z, w, OFF_WALL_MM + DEPTH_MM / 2)


def _valves(x: float, z: float, w: float, off: float) -> Iterator[Element]:
    for side, out in ((x, -1.0), (x + w, 1.0)):
        stand = side + out * 42.0
        pipe = ((stand, off, 0.0), (stand, off, z + 25.0))
        yield Element(shape=Rod(points_mm=pipe, radius_mm=7.5), look=COPPER)
        yield Element(shape=Rod(points_mm=((side, off, z + 34.0), (stand, off, z + 34.0)), radius_mm=9.0), look=BRASS)
        body = Turned(outline_mm=((0.0, 0.0), (14.0, 0.0), (14.0, 44.0), (0.0, 44.0)))
        yield Element(shape=body, look=BRASS, placement=at(stand, off, z + 10.0))
        tall = 78.0 if out < 0 else 26.0
        wide = 22.0 if out < 0 else 15.0
        head = ((0.0, 0.0), (wide, 0.0), (wide, tall * 0.8), (wide * 0.8, tall), (0.0, tall))
        yield Element(shape=Turned(outline_mm=head), look=ENAMEL, placement=at(stand, off, z + 54.0))
