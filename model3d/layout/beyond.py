"""What stands beyond the end of a run."""

from __future__ import annotations

from model3d.families.family import Family
from model3d.rooms import Room, RunSpan

TOUCHES_MM = 0.5


def slide_is_barred(family: Family, room: Room, span: RunSpan, sense: int) -> bool:
    """Whether something stands right where the run ends, so that a piece that slides toward it needs room kept free.

    That is an internal corner, a door's casing or an obstacle low enough that begins at the end given. An end given
    elsewhere is kept as given.
    """
    end, wall = span.leaves_mm, span.wall
    if sense > 0 and wall.length_mm - end < TOUCHES_MM:
        return wall.last_corner.turn_deg > 0
    if sense < 0 and end < TOUCHES_MM:
        return wall.first_corner.turn_deg > 0
    edges = [
        d.kept_clear_mm[0 if sense > 0 else 1] for d in room.doors if d.wall_id == wall.id and d.casing is not None
    ]
    top = family.section.floor_gap_mm + family.section.height_mm
    for thing in room.obstacles:
        low, high = thing.low_mm, thing.high_mm
        if thing.wall_id == wall.id and low[2] < top and low[1] < family.section.front_u_mm:
            edges.append(low[0] if sense > 0 else high[0])
    return any(abs(edge - end) < TOUCHES_MM for edge in edges)
