"""A room by its walls and turns: from figures to corners, and whether the figures close."""

from __future__ import annotations

import math

from model3d.geometry.placement import Vec2
from model3d.plans.shape import WrittenRoom, WrittenWall
from model3d.rooms.plane import heading
from model3d.rooms.reading import Reading


def points_by_walls(reading: Reading, room: WrittenRoom) -> list[Vec2] | None:
    """The corners of a room whose first wall goes from (0, 0) along x; None, with the faults noted, when it
    does not close.

    A misclosure within the room's closing tolerance goes into the last wall.
    """
    walls = room.walls or ()
    if len(walls) < 3:
        reading.fault(room, f"at least 3 walls are needed, not {len(walls)}", "walls")
        return None
    for wall in walls:
        if wall.sigma is not None:
            reading.fault(wall, "'sigma' is for a room with a 'survey'", "sigma")
    short = [(w, key) for w in walls[:-1] for key in ("length", "turn") if getattr(w, key) is None]
    for wall, key in short:
        reading.fault(wall, f"'{key}' is missing: only the last wall's length and turn may be left out", key)
    if short or not _turns_close(reading, room, walls):
        return None
    points, last_way = _corners_and_last_way(walls)
    off = _misclosure_mm(points[-1], last_way, walls[-1].length)
    if math.hypot(*off) > room.closing_tolerance:
        reading.fault(room, _not_closed(off, room.closing_tolerance, _walls_along(walls, off)), "walls")
        return None
    return points


def _corners_and_last_way(walls: tuple[WrittenWall, ...]) -> tuple[list[Vec2], Vec2]:
    """Every corner, and the direction in which the last wall sets out."""
    points: list[Vec2] = [(0.0, 0.0)]
    angle = 0.0
    for wall in walls[:-1]:
        way, length = heading(angle), wall.length or 0.0
        points.append((points[-1][0] + length * way[0], points[-1][1] + length * way[1]))
        angle += wall.turn or 0.0
    return points, heading(angle)


def _misclosure_mm(from_mm: Vec2, way: Vec2, length: float | None) -> Vec2:
    """By how much the last wall ends off the first corner, (0, 0); a wall of no given length is as long as
    suits.
    """
    reach = length if length is not None else max(0.0, -(from_mm[0] * way[0] + from_mm[1] * way[1]))
    return (from_mm[0] + reach * way[0], from_mm[1] + reach * way[1])


def _not_closed(off: Vec2, tolerance_mm: float, along: list[str]) -> str:
    toward = math.degrees(math.atan2(off[1], off[0])) % 360.0
    again = f"; measure again {' and '.join(along)}, which run that way" if along else ""
    return (
        f"the walls do not close: they end {math.hypot(*off):.1f} mm from where they began, "
        f"toward {toward:.0f} degrees ({off[0]:+.1f} in x, {off[1]:+.1f} in y; x goes along the first wall); "
        f"{tolerance_mm:g} mm is let pass{again}"
    )


def _walls_along(walls: tuple[WrittenWall, ...], off: Vec2) -> list[str]:
    """The walls that run along a misclosure within 10 degrees, if they are few: one of them may be mismeasured."""
    found, angle = [], 0.0
    for number, wall in enumerate(walls, 1):
        way = heading(angle)
        across = abs(off[0] * way[1] - off[1] * way[0]) / math.hypot(*off)
        if across < math.sin(math.radians(10.0)) and wall.length is not None:
            found.append(wall.id or f"w{number}")
        angle += wall.turn or 0.0
    return found if len(found) <= 3 else []


def _turns_close(reading: Reading, room: WrittenRoom, walls: tuple[WrittenWall, ...]) -> bool:
    """Turns round a room with the room on the left add up to 360 degrees."""
    given = sum(w.turn or 0.0 for w in walls)
    last = walls[-1].turn
    if last is None:
        if -180.0 < 360.0 - given < 180.0:
            return True
        clockwise = -180.0 < -360.0 - given < 180.0
    else:
        off_mm = math.radians(abs(360.0 - given)) * (walls[0].length or 0.0)
        if off_mm <= max(room.closing_tolerance, 1e-6):
            return True
        clockwise = abs(-360.0 - given) < 1.0
    if clockwise:
        message = "the turns go clockwise: go round with the room on the left; internal corners turn by plus"
    else:
        message = f"the turns add up to {given:g} degrees, and round a room they add up to 360"
    reading.fault(room, message, "walls")
    return False
