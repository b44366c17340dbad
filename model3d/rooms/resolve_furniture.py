"""Furniture, viewpoints and the room as it was, from what the plan says, and what is wrong with them."""

from __future__ import annotations

from model3d.geometry.placement import Placement, Vec3, at, turned_about_z
from model3d.plans.colours import rgb
from model3d.plans.furniture import FurnitureKind, WrittenBefore, WrittenFurniture, WrittenViewpoint
from model3d.rooms.drawers import Opener
from model3d.rooms.furniture import Before, Furniture, NamedView, Radiator
from model3d.rooms.plane import is_inside
from model3d.rooms.reading import Reading
from model3d.rooms.resolve_drawers import resolved_openers
from model3d.rooms.walls_known import WallsKnown
from model3d.sources import near_miss

USUAL_SIZE_MM: dict[FurnitureKind, tuple[float, float, float]] = {
    "sofa": (2050.0, 900.0, 800.0),
    "armchair": (820.0, 830.0, 820.0),
    "chair": (450.0, 500.0, 840.0),
    "low-table": (1100.0, 600.0, 380.0),
    "table": (1600.0, 900.0, 745.0),
    "desk": (1300.0, 650.0, 740.0),
    "cabinet": (1500.0, 420.0, 720.0),
    "bookcase": (900.0, 320.0, 1800.0),
    "bed": (1600.0, 2080.0, 950.0),
    "rug": (2000.0, 1400.0, 9.0),
    "plant": (620.0, 620.0, 1150.0),
    "lamp": (420.0, 420.0, 1550.0),
    "picture": (700.0, 25.0, 500.0),
}
"""Width, depth and height of each kind (common practice, no source)."""

OFF_WALL_MM = 100.0
"""From the wall to the back of what stands against it: clear of the skirting, so that the air rises past it."""

HUNG_AT_MM = 1300.0
_WITHOUT_OPENERS: frozenset[FurnitureKind] = frozenset({"armchair", "chair", "lamp", "picture", "plant", "rug"})


def resolved_furniture(
    reading: Reading, walls: WallsKnown, written: tuple[WrittenFurniture, ...], height_mm: float
) -> tuple[Furniture, ...]:
    """The furniture that has a place; faults noted: neither wall nor floor, off the wall, outside, above the walls."""
    found = [_one(reading, walls, entry, height_mm) for entry in written if not reading.in_part(entry)]
    return tuple(f for f in found if f is not None)


def _one(reading: Reading, walls: WallsKnown, entry: WrittenFurniture, height_mm: float) -> Furniture | None:
    if (entry.wall is None) == (entry.middle is None):
        message = f"the {entry.kind} is either against a wall ('wall' and 'at') or on the floor ('middle')"
        reading.fault(entry, message, "wall")
        return None
    usual = USUAL_SIZE_MM[entry.kind]
    given = (entry.width, entry.depth, entry.height)
    width, depth, height = (u if g is None else g for g, u in zip(given, usual, strict=True))
    if entry.up is not None and entry.kind != "picture":
        reading.fault(entry, f"'up' is for a picture; a {entry.kind} stands on the floor", "up")
    up = HUNG_AT_MM if entry.up is None else entry.up
    up = up if entry.kind == "picture" else 0.0
    if up + height > height_mm + 1e-6:
        message = f"the {entry.kind} reaches {up + height:g} up, and the walls are {height_mm:g} high"
        reading.fault(entry, message, "height" if entry.height is not None else None)
    frame = _frame(reading, walls, entry, width, depth, up)
    if frame is None:
        return None
    return Furniture(
        id=entry.id,
        kind=entry.kind,
        wall_id=entry.wall,
        frame=frame,
        width_mm=width,
        depth_mm=depth,
        height_mm=height,
        colour=None if entry.colour is None else rgb(entry.colour),
        fixed=entry.fixed,
        openers=_openers(reading, entry, (width, depth, height)),
    )


def _openers(reading: Reading, entry: WrittenFurniture, size: Vec3) -> tuple[Opener, ...]:
    """The drawers and doors in the front of what is built in; a fault of what is not, or has none."""
    for key in ("drawers", "doors"):
        if getattr(entry, key) and entry.kind in _WITHOUT_OPENERS:
            reading.fault(entry, f"a {entry.kind} has no {key}", key)
        elif getattr(entry, key) and not entry.fixed:
            message = f"'{key}' are looked at where they are built in: say 'fixed: true', or leave them out"
            reading.fault(entry, message, key)
    if not entry.fixed or entry.kind in _WITHOUT_OPENERS:
        return ()
    return resolved_openers(reading, (*entry.drawers, *entry.doors), (0.0, 0.0, 0.0), size, what=entry.id)


def _frame(
    reading: Reading, walls: WallsKnown, entry: WrittenFurniture, width: float, depth: float, up: float
) -> Placement | None:
    if entry.middle is not None:
        return _on_floor(reading, walls, entry, width, depth)
    if entry.at is None:
        reading.fault(entry, f"'at' is missing: where along its wall the {entry.kind} begins", "at")
        return None
    if entry.turn:
        reading.fault(entry, "'turn' is for a piece on the floor; one at a wall stands square to it", "turn")
    wall_id = entry.wall or ""
    if not walls.has(wall_id):
        return None
    walls.fits(wall_id, entry.at, entry.at + width, entry, f"the {entry.kind}", "at")
    wall = walls.wall(wall_id)
    usual = 0.0 if entry.kind == "picture" or entry.fixed else OFF_WALL_MM
    off = usual if entry.off is None else entry.off
    return (Placement() if wall is None else wall.frame) @ at(entry.at, off, up)


def _on_floor(
    reading: Reading, walls: WallsKnown, entry: WrittenFurniture, width: float, depth: float
) -> Placement | None:
    for key in ("at", "off"):
        if getattr(entry, key) is not None:
            reading.fault(entry, f"'{key}' is for a piece against a wall", key)
    if entry.kind == "picture":
        reading.fault(entry, "a picture hangs on a wall: give 'wall' and 'at'", "middle")
        return None
    x, y = entry.middle or (0.0, 0.0)
    outer = walls.figures[0] if walls.outer_known else None
    ring = outer.ring if outer is not None and not outer.crosses else None
    if ring is not None and not is_inside((x, y), [c.at_mm for c in ring.corners]):
        reading.fault(entry, f"the {entry.kind} stands outside the room", "middle")
    return turned_about_z(entry.turn, (x, y, 0.0)) @ at(-width / 2, -depth / 2, 0.0)


def named_views(reading: Reading, walls: WallsKnown, written: tuple[WrittenViewpoint, ...]) -> tuple[NamedView, ...]:
    """The viewpoints as given; faults noted: none or several kinds of place, a corner that is not there."""
    found = []
    for entry in written:
        if reading.in_part(entry):
            continue
        _check_view(reading, walls, entry)
        found.append(
            NamedView(
                id=entry.id,
                eye_mm=entry.eye,
                target_mm=entry.target,
                wall_id=entry.wall,
                corner_id=entry.corner,
                above_deg=entry.above,
                distance_mm=entry.distance,
                turn_deg=entry.turn,
                field_deg=entry.field,
            )
        )
    return tuple(found)


def _check_view(reading: Reading, walls: WallsKnown, entry: WrittenViewpoint) -> None:
    ways = {"eye": entry.eye, "wall": entry.wall, "corner": entry.corner, "above": entry.above}
    if sum(value is not None for value in ways.values()) != 1:
        reading.fault(entry, "a viewpoint is given by one of 'eye' (with 'target'), 'wall', 'corner' or 'above'")
    elif (entry.eye is None) != (entry.target is None):
        reading.fault(entry, "'eye' and 'target' are given together", "target" if entry.eye is None else "eye")
    elif entry.eye is not None and entry.eye == entry.target:
        reading.fault(entry, "the eye stands on its target", "eye")
    for key in ("distance", "turn"):
        if getattr(entry, key) is not None and entry.corner is None:
            reading.fault(entry, f"'{key}' is for a viewpoint of a corner", key)
    known = [name for f in walls.figures for name in f.corner_ids]
    if entry.corner is not None and walls.outer_known and entry.corner not in known:
        message = f"there is no corner '{entry.corner}'{near_miss(entry.corner, known)} (corners: {', '.join(known)})"
        reading.fault(entry, message, "corner")


def before_of(reading: Reading, walls: WallsKnown, written: WrittenBefore) -> Before:
    """The room as it was; faults noted: a radiator on a wall that is not there, or longer than it."""
    radiators = []
    for entry in written.radiators:
        known = [name for f in walls.figures for name in f.wall_ids]
        if not walls.has(entry.wall):
            if walls.outer_known:
                reading.fault(entry, f"there is no wall '{entry.wall}'{near_miss(entry.wall, known)}", "wall")
            continue
        walls.fits(entry.wall, entry.at, entry.at + entry.width, entry, "the radiator", "at")
        radiators.append(
            Radiator(
                wall_id=entry.wall, along_mm=entry.at, width_mm=entry.width, height_mm=entry.height, up_mm=entry.up
            )
        )
    return Before(
        skirting_height_mm=written.skirting_height,
        skirting_thickness_mm=written.skirting_thickness,
        skirting=rgb(written.skirting),
        walls=None if written.walls is None else rgb(written.walls),
        radiators=tuple(radiators),
    )
