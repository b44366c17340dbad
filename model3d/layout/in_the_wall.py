"""What is in a wall where brackets would be drilled, as stretches along it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from model3d.families.family import Family
from model3d.rooms import Obstacle, Pipe, Room, SocketOutlet, Wall, WallFixing

BOX_MARGIN_MM = 10.0
"""Kept between a bracket's plate and a back box or a chased pipe. Common practice, no source."""
CORNER_ZONE_MM = 150.0
"""Cables may run upright within this of a corner (BS 7671, 522.6)."""
STUD_EDGE_MM = 12.0
"""A screw stays this far from a stud's edge. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A stretch along a wall, and what it is there for. Where it bars brackets, ``across_mm`` is how near they
    come to it up or into the wall, negative where they overlap.
    """

    low_mm: float
    high_mm: float
    what: str
    part: str = ""
    across_mm: float = -math.inf

    def holds(self, along_mm: float) -> bool:
        """Whether a place lies inside, its ends not counted."""
        return self.low_mm + 1e-6 < along_mm < self.high_mm - 1e-6


def barred(family: Family, room: Room, wall: Wall) -> tuple[Span, ...]:
    """Where no bracket's middle may stand: its plate would lie over a back box, its screws be drilled into or beside a
    chased pipe, or where a low window leaves no wall.
    """
    half = family.bracket.width_mm / 2.0 + BOX_MARGIN_MM
    found = []
    for thing in room.obstacles:
        across = _across_mm(family, thing) if thing.wall_id == wall.id else None
        if across is not None and across < BOX_MARGIN_MM:
            low, high = thing.low_mm[0], thing.high_mm[0]
            if isinstance(thing, SocketOutlet):
                low, high = (thing.along_mm + s * thing.box_width_mm / 2.0 for s in (-1.0, 1.0))
            what = f"{'back box of' if isinstance(thing, SocketOutlet) else 'chased pipe'} {thing.id}"
            found.append(Span(low_mm=low - half, high_mm=high + half, what=what, part=thing.id, across_mm=across))
    for window in room.windows:
        across = _from_screws_mm(family, window.sill_mm, window.sill_mm + window.height_mm)
        if window.wall_id == wall.id and across < BOX_MARGIN_MM:
            low, high, what = window.from_mm - half, window.to_mm + half, f"opening of window {window.id}"
            found.append(Span(low_mm=low, high_mm=high, what=what, part=window.id, across_mm=across))
    return tuple(found)


def _across_mm(family: Family, thing: Obstacle) -> float | None:
    """How near brackets come to what is in the wall, where they stand before it: the plate to a back box, the screws to
    a pipe beside or behind them. None for what is not in the wall.
    """
    if isinstance(thing, SocketOutlet):
        top = family.bracket.outline.outline().extent_mm[3]
        return thing.up_mm - thing.box_height_mm / 2.0 - top
    if not isinstance(thing, Pipe) or thing.low_mm[1] >= 0.0:
        return None
    behind = -thing.high_mm[1] - family.bracket.holes.drilled_mm
    return max(_from_screws_mm(family, thing.low_mm[2], thing.high_mm[2]), behind)


def _from_screws_mm(family: Family, low_mm: float, high_mm: float) -> float:
    """How near a bracket's screws come, up or down, to what reaches from one height to another; negative within it."""
    radius = family.bracket.holes.diameter_mm / 2.0
    return min(max(low_mm - h, h - high_mm) for h in family.bracket.holes.heights_mm) - radius


def cable_strips(family: Family, room: Room, wall: Wall) -> tuple[Span, ...]:
    """Where cables may run below and above the accessories of a wall: strips as wide as each (BS 7671,
    522.6).
    """
    lowest = min(family.bracket.holes.heights_mm)
    return tuple(
        _about(
            o.along_mm,
            max(o.plate_width_mm, o.box_width_mm) / 2.0,
            f"straight {'below' if o.up_mm > lowest else 'above'} {o.id}",
            o.id,
        )
        for o in room.obstacles
        if isinstance(o, SocketOutlet) and o.wall_id == wall.id
    )


def level_strips(family: Family, room: Room, wall: Wall) -> tuple[tuple[float, str], ...]:
    """Drilling heights at which cables may run along the wall, each with the accessory that stands at that
    height.
    """
    found = []
    for thing in room.obstacles:
        if isinstance(thing, SocketOutlet) and thing.wall_id == wall.id:
            half = max(thing.plate_height_mm, thing.box_height_mm) / 2.0
            heights = family.bracket.holes.heights_mm
            found += [(h, thing.id) for h in heights if abs(h - thing.up_mm) < half]
    return tuple(found)


def corner_strips(wall: Wall) -> tuple[Span, ...]:
    """Where cables may run upright beside the angles with the walls next to it (BS 7671, 522.6)."""
    first, last, zone = wall.first_corner.id, wall.last_corner.id, CORNER_ZONE_MM
    far = wall.length_mm - zone
    return (
        Span(low_mm=0.0, high_mm=zone, what=f"within {zone:g} of corner {first}", part=first),
        Span(low_mm=far, high_mm=wall.length_mm, what=f"within {zone:g} of corner {last}", part=last),
    )


def stud_faces(fixing: WallFixing | None, wall: Wall) -> tuple[Span, ...]:
    """Where a screw finds a stud; none on a wall without."""
    if fixing is None or fixing.studs is None:
        return ()
    studs = fixing.studs
    reach = max(studs.width_mm / 2.0 - STUD_EDGE_MM, 0.0)
    first = studs.first_mm - studs.spacing_mm * int(studs.first_mm / studs.spacing_mm)
    count = int((wall.length_mm - first) / studs.spacing_mm) + 1
    return tuple(_about(first + i * studs.spacing_mm, reach, "stud", "") for i in range(max(count, 0)))


def fixing_of(fixings: tuple[WallFixing, ...], wall: Wall) -> WallFixing | None:
    """What a wall is made of, None when the plan does not say."""
    return next((f for f in fixings if f.wall_id == wall.id), None)


def _about(middle: float, reach: float, what: str, part: str) -> Span:
    return Span(low_mm=middle - reach, high_mm=middle + reach, what=what, part=part)
