"""The rings of a room from what the plan says: corners and walls in numbers, and what is wrong with their
shape.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from model3d.geometry.placement import Placement, Vec2
from model3d.plans.shape import WrittenCorner, WrittenIsland, WrittenRoom
from model3d.rooms.closing import points_by_walls
from model3d.rooms.plane import crossings, signed_area_mm2, turn_between
from model3d.rooms.reading import Reading, numbers_in_list
from model3d.rooms.room import Corner, Ring, Wall
from model3d.rooms.surveyed import surveyed_room
from model3d.survey import SurveyReport


@dataclass(frozen=True, slots=True, kw_only=True)
class RingFigures:
    """What is known of a ring, be it faulty: its walls by name, the lengths that are known, the ring when it
    is one.
    """

    id: str
    wall_ids: tuple[str, ...]
    corner_ids: tuple[str, ...]
    lengths_mm: tuple[float | None, ...]
    ring: Ring | None
    crosses: bool = False
    survey: SurveyReport | None = None


def ring_through(
    points: Sequence[Vec2],
    *,
    ring_id: str,
    corner_ids: Sequence[str],
    wall_ids: Sequence[str],
    is_island: bool,
) -> Ring:
    """The ring through points with the room on its left. Raises ValueError when two that follow are one
    point.
    """
    ways = [_direction(a, b) for a, b in zip(points, [*points[1:], points[0]], strict=True)]
    corners = [
        Corner(id=name, at_mm=p, turn_deg=turn_between(ways[i - 1], ways[i]))
        for i, (name, p) in enumerate(zip(corner_ids, points, strict=True))
    ]
    walls = [
        _wall(name, ring_id, corners[i], corners[(i + 1) % len(corners)], ways[i]) for i, name in enumerate(wall_ids)
    ]
    return Ring(id=ring_id, corners=tuple(corners), walls=tuple(walls), is_island=is_island)


def _direction(a: Vec2, b: Vec2) -> Vec2:
    length = math.dist(a, b)
    if length < 1e-6:
        raise ValueError("two corners that follow each other stand on one point")
    return ((b[0] - a[0]) / length, (b[1] - a[1]) / length)


def _wall(name: str, ring_id: str, first: Corner, last: Corner, t: Vec2) -> Wall:
    normal = (-t[1], t[0])
    frame = Placement(origin_mm=(*first.at_mm, 0.0), x_axis=(*t, 0.0), y_axis=(*normal, 0.0), z_axis=(0.0, 0.0, 1.0))
    return Wall(
        id=name,
        ring=ring_id,
        first_corner=first,
        last_corner=last,
        length_mm=math.dist(first.at_mm, last.at_mm),
        direction=t,
        normal=normal,
        frame=frame,
    )


def outer_figures(reading: Reading, room: WrittenRoom) -> RingFigures | None:
    """The ring of the room's own walls; None when the plan does not say how they go."""
    if (room.corners is None) == (room.walls is None):
        given = reading.as_written("room") or {}
        if room.corners is not None:
            reading.fault(room, "a room is given by 'corners' or by 'walls', not by both", "walls")
        elif not ("corners" in given or "walls" in given):
            reading.fault(room, "a room needs 'corners', or 'walls' with their lengths and turns")
        return None
    if room.walls is not None:
        return _figures_by_walls(reading, room)
    if room.survey is not None:
        reading.fault(room, "a survey goes with 'walls': corners given as such are not measured", "survey")
    return figures_by_corners(reading, room)


def figures_by_corners(reading: Reading, owner: WrittenRoom | WrittenIsland) -> RingFigures:
    """The ring of a room or an island that is given by its corners."""
    ring_id, prefix = (owner.id, f"{owner.id}.") if isinstance(owner, WrittenIsland) else ("room", "")
    corners = owner.corners or ()
    numbers, total = numbers_in_list(owner, "corners", len(corners))
    points: list[Vec2 | None] = [None] * total
    names = [f"c{i + 1}" for i in range(total)]
    for number, corner in zip(numbers, corners, strict=True):
        if isinstance(corner, WrittenCorner):
            points[number], names[number] = corner.at, corner.id
        else:
            points[number] = corner
    pairs = zip(points, [*points[1:], *points[:1]], strict=True)
    lengths = tuple(None if a is None or b is None else math.dist(a, b) for a, b in pairs)
    known = [p for p in points if p is not None]
    wall_ids = tuple(f"{prefix}w{i + 1}" for i in range(total))
    corner_ids = tuple(prefix + n for n in names)
    made = None
    if len(known) == total:
        made = _checked_ring(reading, owner, "corners", known, ring_id, corner_ids, wall_ids)
    return RingFigures(
        id=ring_id,
        wall_ids=wall_ids,
        corner_ids=corner_ids,
        lengths_mm=lengths,
        ring=made[0] if made else None,
        crosses=bool(made and made[1]),
    )


def _figures_by_walls(reading: Reading, room: WrittenRoom) -> RingFigures:
    walls = room.walls or ()
    numbers, total = numbers_in_list(room, "walls", len(walls))
    names = [name or f"w{i + 1}" for i, name in enumerate(reading.ids_as_written("room", "walls"))]
    names = names if len(names) == total else [w.id or f"w{i + 1}" for i, w in enumerate(walls)]
    lengths: list[float | None] = [None] * total
    for number, wall in zip(numbers, walls, strict=True):
        lengths[number] = wall.length
    corner_ids = tuple(f"c{i + 1}" for i in range(total))
    points: Sequence[Vec2] | None = None
    report = None
    if not reading.found.lost("room.walls"):
        if room.survey is not None:
            report = surveyed_room(reading, room, names)
            points = report.points if report is not None else None
        elif not reading.found.lost("room.survey"):
            points = points_by_walls(reading, room)
    made = None
    if points is not None:
        made = _checked_ring(reading, room, "walls", points, "room", corner_ids, names)
    if made is not None and made[0] is not None:
        lengths = [wall.length_mm for wall in made[0].walls]
    return RingFigures(
        id="room",
        wall_ids=tuple(names),
        corner_ids=corner_ids,
        lengths_mm=tuple(lengths),
        ring=made[0] if made else None,
        crosses=bool(made and made[1]),
        survey=report,
    )


def _checked_ring(
    reading: Reading,
    owner: WrittenRoom | WrittenIsland,
    key: str,
    points: Sequence[Vec2],
    ring_id: str,
    corner_ids: Sequence[str],
    wall_ids: Sequence[str],
) -> tuple[Ring | None, bool] | None:
    """The ring through the points and whether it crosses itself, with the faults of its shape noted."""
    is_island = isinstance(owner, WrittenIsland)
    if len(points) < 3:
        reading.fault(owner, f"at least 3 {key} are needed, not {len(points)}", key)
        return None
    same = [i for i, p in enumerate(points) if math.dist(p, points[i - 1]) < 1e-6]
    for i in same:
        message = f"corner {corner_ids[i]} stands on corner {corner_ids[i - 1]}: the wall between has no length"
        reading.fault_in_list(owner, key, i, message)
    if same:
        return None
    crossed = crossings(points)
    if crossed:
        i, j, (x, y) = crossed[0]
        more = f", and {len(crossed) - 1} more such" if len(crossed) > 1 else ""
        kind = "the island" if is_island else "the room"
        message = f"{kind} crosses itself: walls {wall_ids[i]} and {wall_ids[j]} meet at ({x:.1f}, {y:.1f}){more}"
        reading.fault_in_list(owner, key, j, message)
    elif (signed_area_mm2(points) < 0) != is_island:
        reading.fault(owner, _wrong_way_round(is_island), key)
    ring = ring_through(points, ring_id=ring_id, corner_ids=corner_ids, wall_ids=wall_ids, is_island=is_island)
    return ring, bool(crossed)


def _wrong_way_round(is_island: bool) -> str:
    if is_island:
        return "an island's corners go clockwise, the room on the left: list them the other way round"
    return "the corners go clockwise: a room's go anticlockwise, the room on the left, so list them in reverse"
