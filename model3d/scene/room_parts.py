"""The room as bodies: floor, walls with their openings, casings, sills, leaves, the obstacles, and what they sweep."""

from __future__ import annotations

import math
from collections.abc import Iterator

from model3d.geometry.placement import Placement, Vec3, at
from model3d.parts.room import BoxSpec, CasingSpec, CylinderSpec, SlabSpec, WallHole, WallSpec
from model3d.rooms import Door, Obstacle, Pipe, PipeTail, Room, SocketOutlet, Wall, Window
from model3d.scene.faces import Faces, off_mm
from model3d.scene.frames import in_wall
from model3d.scene.swept_parts import LEAF_GAP_MM, door_swing, openers, sash_swings
from model3d.scene.values import Part

FLOOR_MM = 20.0
FRAME_BOARD_MM, FRAME_DEPTH_MM, GLASS_MM = 50.0, 60.0, 6.0


def room_parts(room: Room, faces: Faces | None = None) -> Iterator[Part]:
    """Floor, walls, columns, openings, obstacles. What stands on a wall with a face of its own stands as far off the
    wall's line as the face does there.
    """
    shown = faces or {}
    yield Part(
        id="room/floor", name="Floor", role="floor", placement=at(0.0, 0.0, -FLOOR_MM),
        spec=SlabSpec(
            ring=tuple(c.at_mm for c in room.outer.corners), thickness_mm=FLOOR_MM,
            holes=tuple(tuple(c.at_mm for c in ring.corners) for ring in room.islands),
        ),
    )
    thickness = wall_thickness_mm(room)
    for wall in room.outer.walls:
        yield _wall(room, wall, thickness, shown)
    for ring in room.islands:
        yield Part(
            id=f"room/{ring.id}", name=f"Column {ring.id}", role="wall", placement=at(0.0, 0.0, 0.0),
            spec=SlabSpec(ring=tuple(c.at_mm for c in reversed(ring.corners)), holes=(), thickness_mm=room.height_mm),
        )
    for opening in room.openings:
        parts = _door(room, opening) if isinstance(opening, Door) else _window(room, opening, thickness)
        out = off_mm(shown, opening.wall_id, (opening.from_mm + opening.to_mm) / 2.0)
        yield from _moved_out(parts, room.wall(opening.wall_id), out)
    for obstacle in room.obstacles:
        parts = _obstacle(obstacle)
        if obstacle.wall_id is not None and obstacle.wall_id in shown:
            out = off_mm(shown, obstacle.wall_id, (obstacle.low_mm[0] + obstacle.high_mm[0]) / 2.0)
            parts = _moved_out(parts, room.wall(obstacle.wall_id), out)
        yield from parts


def _moved_out(parts: Iterator[Part], wall: Wall, out_mm: float) -> Iterator[Part]:
    by = (out_mm * wall.normal[0], out_mm * wall.normal[1], 0.0)
    return (p.moved(by) if out_mm else p for p in parts)


def wall_thickness_mm(room: Room) -> float:
    """The plan's wall thickness, less where a short wall between external corners would leave its back nothing."""
    thickness = room.wall_thickness_mm
    for wall in room.outer.walls:
        shrink = -sum(math.tan(math.radians(c.turn_deg) / 2.0) for c in (wall.first_corner, wall.last_corner))
        if shrink > 0:
            thickness = min(thickness, 0.9 * wall.length_mm / shrink)
    return thickness


def _wall(room: Room, wall: Wall, thickness_mm: float, faces: Faces) -> Part:
    holes = tuple(
        WallHole(start_mm=o.from_mm, end_mm=o.to_mm, bottom_mm=o.sill_mm if isinstance(o, Window) else 0.0,
                 top_mm=o.sill_mm + o.height_mm if isinstance(o, Window) else o.height_mm)
        for o in room.openings if o.wall_id == wall.id
    )
    recesses = tuple(
        (
            s.along_mm - s.box_width_mm / 2,
            s.along_mm + s.box_width_mm / 2,
            s.up_mm - s.box_height_mm / 2,
            s.up_mm + s.box_height_mm / 2,
            s.box_depth_mm - off_mm(faces, wall.id, s.along_mm),
        )
        for s in room.obstacles
        if isinstance(s, SocketOutlet) and s.wall_id == wall.id and s.box_depth_mm < thickness_mm
    )
    spec = WallSpec(
        length_mm=wall.length_mm, height_mm=room.height_mm, thickness_mm=thickness_mm, holes=holes, recesses=recesses,
        face=tuple((along, max(off, -thickness_mm / 2.0)) for along, off in faces.get(wall.id, ())),
        back_start_mm=-thickness_mm * math.tan(math.radians(wall.first_corner.turn_deg) / 2.0),
        back_end_mm=wall.length_mm + thickness_mm * math.tan(math.radians(wall.last_corner.turn_deg) / 2.0),
    )
    return Part(
        id=f"room/{wall.id}", name=f"Wall {wall.id}", role="wall", spec=spec, placement=wall.frame, wall=wall.id,
    )


def _door(room: Room, door: Door) -> Iterator[Part]:
    wall = room.wall(door.wall_id)
    if door.casing is not None:
        yield Part(
            id=f"room/{door.id}/casing", name=f"Door casing {door.id}", role="casing", wall=wall.id, obstacle=door.id,
            spec=CasingSpec(width_mm=door.width_mm, height_mm=door.height_mm, board_mm=door.casing.width_mm,
                            depth_mm=door.casing.depth_mm, sill=False),
            placement=in_wall(wall, door.from_mm, 0.0, 0.0),
        )
    yield Part(
        id=f"room/{door.id}/leaf", name=f"Door leaf {door.id}", role="door-leaf", wall=wall.id, obstacle=door.id,
        spec=BoxSpec(size_mm=(door.width_mm, door.leaf_thickness_mm, door.height_mm - LEAF_GAP_MM)),
        placement=in_wall(wall, door.from_mm, -door.leaf_thickness_mm, LEAF_GAP_MM),
    )
    yield from door_swing(wall, door)


def _window(room: Room, window: Window, thickness_mm: float) -> Iterator[Part]:
    wall = room.wall(window.wall_id)
    board, depth = FRAME_BOARD_MM, min(FRAME_DEPTH_MM, thickness_mm)
    back = -(thickness_mm + depth) / 2.0
    inner = (window.width_mm - 2 * board, window.height_mm - 2 * board)
    if min(inner) > 0:
        yield Part(
            id=f"room/{window.id}/frame",
            name=f"Window frame {window.id}",
            role="window-frame",
            wall=wall.id,
            obstacle=window.id,
            spec=CasingSpec(width_mm=inner[0], height_mm=inner[1], board_mm=board, depth_mm=depth, sill=True),
            placement=in_wall(wall, window.from_mm + board, back, window.sill_mm + board),
        )
        yield Part(
            id=f"room/{window.id}/glass", name=f"Glass {window.id}", role="glass", wall=wall.id, obstacle=window.id,
            spec=BoxSpec(size_mm=(inner[0], GLASS_MM, inner[1])),
            placement=in_wall(wall, window.from_mm + board, back + (depth - GLASS_MM) / 2.0, window.sill_mm + board),
        )
    if window.sill_depth_mm > 0:
        yield Part(
            id=f"room/{window.id}/sill", name=f"Sill {window.id}", role="sill", wall=wall.id, obstacle=window.id,
            spec=BoxSpec(size_mm=(window.width_mm, window.sill_depth_mm, window.sill_thickness_mm)),
            placement=in_wall(wall, window.from_mm, 0.0, window.sill_mm - window.sill_thickness_mm),
        )
    yield from sash_swings(wall, window)


def _obstacle(thing: Obstacle) -> Iterator[Part]:
    if isinstance(thing, Pipe):
        start, end = thing.from_mm, thing.to_mm
        length = math.dist(start, end)
        yield _body(thing, "", CylinderSpec(radius_mm=thing.diameter_mm / 2, length_mm=length), _axis_frame(start, end))
    elif isinstance(thing, PipeTail):
        spec = CylinderSpec(radius_mm=thing.diameter_mm / 2, length_mm=thing.height_mm)
        yield _body(thing, "", spec, at(thing.along_mm, thing.off_mm, 0.0))
    elif isinstance(thing, SocketOutlet):
        yield _box(
            thing,
            "/plate",
            thing.along_mm,
            thing.up_mm,
            thing.plate_width_mm,
            thing.plate_height_mm,
            0.0,
            thing.plate_proud_mm,
        )
        yield _box(thing, "/back-box", thing.along_mm, thing.up_mm, thing.box_width_mm, thing.box_height_mm,
                   -thing.box_depth_mm, thing.box_depth_mm)
    else:
        size = (
            thing.high_mm[0] - thing.low_mm[0],
            thing.high_mm[1] - thing.low_mm[1],
            thing.high_mm[2] - thing.low_mm[2],
        )
        yield _body(thing, "", BoxSpec(size_mm=size), at(*thing.low_mm))
        yield from openers(thing)


def _box(
    thing: SocketOutlet, suffix: str, along: float, up: float, width: float, height: float, off: float, depth: float
) -> Part:
    return _body(thing, suffix, BoxSpec(size_mm=(width, depth, height)), at(along - width / 2, off, up - height / 2))


def _body(thing: Obstacle, suffix: str, spec: BoxSpec | CylinderSpec, local: Placement) -> Part:
    return Part(
        id=f"room/{thing.id}{suffix}", name=thing.id, role="obstacle", spec=spec, placement=thing.frame @ local,
        wall=thing.wall_id, obstacle=thing.id,
    )


def _axis_frame(start: Vec3, end: Vec3) -> Placement:
    """A frame at ``start`` with z toward ``end``, along an axis of the wall's frame."""
    along = tuple((b - a) / math.dist(start, end) for a, b in zip(start, end, strict=True))
    if abs(along[2]) > 0.5:
        if along[2] > 0:
            return Placement(origin_mm=start)
        return Placement(origin_mm=start, x_axis=(1.0, 0.0, 0.0), y_axis=(0.0, -1.0, 0.0), z_axis=(0.0, 0.0, -1.0))
    sign = 1.0 if along[0] > 0 else -1.0
    return Placement(origin_mm=start, x_axis=(0.0, sign, 0.0), y_axis=(0.0, 0.0, 1.0), z_axis=(sign, 0.0, 0.0))
