"""Obstacles from what the plan says, and what is wrong with where they are."""

from __future__ import annotations

from model3d.geometry.placement import Placement, Vec3, turned_about_z
from model3d.plans.drawers import WrittenCupboardDoor, WrittenDrawer
from model3d.plans.obstacles import (
    AnyObstacle,
    WrittenBox,
    WrittenPipe,
    WrittenPipeTail,
    WrittenShelf,
    WrittenSocketOutlet,
    WrittenTrunking,
)
from model3d.rooms.obstacles import Obstacle, Pipe, PipeTail, Slab, SocketOutlet
from model3d.rooms.plane import is_inside
from model3d.rooms.reading import Reading
from model3d.rooms.resolve_drawers import resolved_openers
from model3d.rooms.walls_known import WallsKnown


def resolved_obstacles(
    reading: Reading, walls: WallsKnown, written: tuple[AnyObstacle, ...], height_mm: float
) -> tuple[Obstacle, ...]:
    """The obstacles that stand where there is a place for them; faults noted: off the wall, above it, ends
    swapped.
    """
    found: list[Obstacle] = []
    for entry in written:
        if reading.in_part(entry):
            continue
        obstacle = _resolved(reading, walls, entry, height_mm)
        if obstacle is None:
            continue
        if obstacle.high_mm[2] > height_mm + 1e-6:
            message = f"the {entry.kind} reaches {obstacle.high_mm[2]:g} up, and the walls are {height_mm:g} high"
            reading.fault(entry, message)
        found.append(obstacle)
    return tuple(found)


def _resolved(reading: Reading, walls: WallsKnown, entry: AnyObstacle, height_mm: float) -> Obstacle | None:
    if isinstance(entry, WrittenBox) and (entry.wall is None) == (entry.floor is None):
        reading.fault(entry, "a box is either on a wall ('wall' and 'at') or on the floor ('floor')", "wall")
        return None
    if isinstance(entry, WrittenBox) and entry.floor is not None:
        return _box_on_floor(reading, walls, entry)
    wall_id = entry.wall or ""
    if not walls.has(wall_id):
        return None
    wall = walls.wall(wall_id)
    frame = Placement() if wall is None else wall.frame
    most_mm = walls.length_mm(wall_id) if isinstance(entry, WrittenPipe) and entry.at is None else height_mm
    obstacle = _on_wall(reading, entry, frame, most_mm)
    if obstacle is not None:
        key = "at" if getattr(entry, "at", None) is not None else "to"
        walls.fits(wall_id, *_along(obstacle), entry, f"the {entry.kind}", key)
    return obstacle


def _on_wall(reading: Reading, entry: AnyObstacle, frame: Placement, most_mm: float | None) -> Obstacle | None:
    match entry:
        case WrittenPipe():
            return _pipe(reading, entry, frame, most_mm)
        case WrittenPipeTail():
            return _pipe_tail(entry, frame)
        case WrittenSocketOutlet():
            return _socket_outlet(reading, entry, frame)
        case WrittenTrunking():
            return _trunking(reading, entry, frame)
        case WrittenShelf():
            return _shelf(entry, frame)
        case WrittenBox():
            return _box_on_wall(reading, entry, frame)


def _along(obstacle: Obstacle) -> tuple[float, float]:
    """The stretch of wall that must be there for it: of a pipe that stands up, its axis."""
    if isinstance(obstacle, PipeTail):
        return obstacle.along_mm, obstacle.along_mm
    if isinstance(obstacle, Pipe):
        return obstacle.from_mm[0], obstacle.to_mm[0]
    return obstacle.low_mm[0], obstacle.high_mm[0]


def _pipe(reading: Reading, entry: WrittenPipe, frame: Placement, most_mm: float | None) -> Pipe | None:
    """A pipe that stands up to ``most_mm``, or goes along its wall as far as that, when no end is given."""
    if (entry.at is None) == (entry.up is None):
        message = "a pipe stands up at 'at', or goes along the wall at height 'up': give one of the two"
        reading.fault(entry, message, "at")
        return None
    low = entry.from_ if entry.from_ is not None else 0.0
    high = entry.to if entry.to is not None else most_mm
    if high is None:
        return None
    if low >= high:
        reading.fault(entry, f"'from' ({low:g}) must be less than 'to' ({high:g})", "from")
        return None
    if entry.at is not None:
        ends = (entry.at, entry.off, low), (entry.at, entry.off, high)
    else:
        up = entry.up or 0.0
        ends = (low, entry.off, up), (high, entry.off, up)
    return Pipe(
        id=entry.id,
        wall_id=entry.wall,
        frame=frame,
        from_mm=ends[0],
        to_mm=ends[1],
        diameter_mm=entry.diameter,
    )


def _pipe_tail(entry: WrittenPipeTail, frame: Placement) -> PipeTail:
    return PipeTail(
        id=entry.id,
        wall_id=entry.wall,
        frame=frame,
        along_mm=entry.at,
        off_mm=entry.off,
        diameter_mm=entry.diameter,
        height_mm=entry.height,
    )


def _socket_outlet(reading: Reading, entry: WrittenSocketOutlet, frame: Placement) -> SocketOutlet:
    if entry.up < entry.height / 2.0:
        reading.fault(entry, f"the plate, {entry.height:g} high, reaches below the floor", "up")
    return SocketOutlet(
        id=entry.id,
        wall_id=entry.wall,
        frame=frame,
        along_mm=entry.at,
        up_mm=entry.up,
        plate_width_mm=entry.width,
        plate_height_mm=entry.height,
        plate_proud_mm=entry.proud,
        box_width_mm=entry.box.width,
        box_height_mm=entry.box.height,
        box_depth_mm=entry.box.depth,
    )


def _trunking(reading: Reading, entry: WrittenTrunking, frame: Placement) -> Slab | None:
    if entry.from_ >= entry.to:
        reading.fault(entry, f"'from' ({entry.from_:g}) must be less than 'to' ({entry.to:g})", "from")
        return None
    return Slab(
        id=entry.id,
        kind="trunking",
        wall_id=entry.wall,
        frame=frame,
        low_mm=(entry.from_, 0.0, entry.up),
        high_mm=(entry.to, entry.depth, entry.up + entry.height),
    )


def _shelf(entry: WrittenShelf, frame: Placement) -> Slab:
    return Slab(
        id=entry.id,
        kind=entry.kind,
        wall_id=entry.wall,
        frame=frame,
        low_mm=(entry.at, 0.0, entry.up),
        high_mm=(entry.at + entry.width, entry.depth, entry.up + entry.thickness),
    )


def _box_on_wall(reading: Reading, entry: WrittenBox, frame: Placement) -> Slab | None:
    if entry.at is None:
        reading.fault(entry, "'at' is missing: where along its wall the box begins", "at")
        return None
    if entry.turn:
        reading.fault(entry, "'turn' is for a box on the floor; one on a wall stands square to it", "turn")
    low = (entry.at, entry.off, entry.up)
    high = (entry.at + entry.width, entry.off + entry.depth, entry.up + entry.height)
    return _box(reading, entry, frame, low, high)


def _box(reading: Reading, entry: WrittenBox, frame: Placement, low: Vec3, high: Vec3) -> Slab:
    written: tuple[WrittenDrawer | WrittenCupboardDoor, ...] = (*entry.drawers, *entry.doors)
    openers = resolved_openers(reading, written, low, high, front=entry.front, what=entry.id)
    if entry.front != "room" and not written:
        reading.fault(entry, "'front' says where drawers and doors are: give one", "front")
    return Slab(
        id=entry.id, kind="box", wall_id=entry.wall, frame=frame, low_mm=low, high_mm=high, openers=openers
    )


def _box_on_floor(reading: Reading, walls: WallsKnown, entry: WrittenBox) -> Slab:
    for key in ("at", "off"):
        if getattr(entry, key):
            reading.fault(entry, f"'{key}' is for a box on a wall", key)
    x, y = entry.floor or (0.0, 0.0)
    frame = turned_about_z(entry.turn, (x, y, 0.0))
    size = (entry.width, entry.depth, entry.up + entry.height)
    slab = _box(reading, entry, frame, (0.0, 0.0, entry.up), size)
    outer = walls.figures[0] if walls.outer_known else None
    if outer is not None and outer.ring is not None and not outer.crosses:
        ring = [c.at_mm for c in outer.ring.corners]
        spots = [frame.point((u * size[0], v * size[1], 0.0)) for u in (0.0, 0.5, 1.0) for v in (0.0, 0.5, 1.0)]
        if not any(is_inside((p[0], p[1]), ring) for p in spots):
            reading.fault(entry, "the box stands outside the room", "floor")
    return slab
