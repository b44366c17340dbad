"""Doors and windows from what the plan says, and what is wrong with where they are."""

from __future__ import annotations

from model3d.plans.openings import AnyOpening, WrittenDoor, WrittenWindow
from model3d.rooms.openings import Casement, Casing, Door, Opening, Window
from model3d.rooms.reading import Reading
from model3d.rooms.walls_known import WallsKnown


def resolved_openings(
    reading: Reading, walls: WallsKnown, written: tuple[AnyOpening, ...], height_mm: float
) -> tuple[Opening, ...]:
    """The openings that stand on a wall there is; faults noted: off the wall, above it, one over another."""
    found: list[tuple[AnyOpening, Opening]] = []
    for entry in written:
        opening = _door(entry) if isinstance(entry, WrittenDoor) else _window(reading, entry)
        if not walls.has(entry.wall):
            continue
        walls.fits(entry.wall, opening.from_mm, opening.to_mm, entry, f"the {entry.kind}")
        top = opening.height_mm + (opening.sill_mm if isinstance(opening, Window) else 0.0)
        if top > height_mm + 1e-6 and not reading.in_part(entry):
            message = f"the {entry.kind} reaches {top:g} up, and the walls are {height_mm:g} high"
            reading.fault(entry, message, "height")
        for other_entry, other in found:
            if _overlap(other, opening):
                reading.fault(entry, f"the {entry.kind} overlaps the {other_entry.kind} '{other.id}'", "at")
        found.append((entry, opening))
    return tuple(opening for _, opening in found)


def _overlap(one: Opening, other: Opening) -> bool:
    if one.wall_id != other.wall_id or min(one.to_mm, other.to_mm) - max(one.from_mm, other.from_mm) <= 1e-6:
        return False
    (low, high), (other_low, other_high) = _heights(one), _heights(other)
    return min(high, other_high) - max(low, other_low) > 1e-6


def _heights(opening: Opening) -> tuple[float, float]:
    low = opening.sill_mm if isinstance(opening, Window) else 0.0
    return low, low + opening.height_mm


def _door(entry: WrittenDoor) -> Door:
    casing = entry.casing
    return Door(
        id=entry.id,
        wall_id=entry.wall,
        from_mm=entry.at,
        to_mm=entry.at + entry.width,
        height_mm=entry.height,
        hinge=entry.hinge,
        swing=entry.swing,
        opens_deg=entry.opens,
        leaf_thickness_mm=entry.leaf,
        casing=None if casing is None else Casing(width_mm=casing.width, depth_mm=casing.depth),
    )


def _window(reading: Reading, entry: WrittenWindow) -> Window:
    return Window(
        id=entry.id,
        wall_id=entry.wall,
        from_mm=entry.at,
        to_mm=entry.at + entry.width,
        sill_mm=entry.sill,
        height_mm=entry.height,
        sill_depth_mm=entry.sill_depth,
        sill_thickness_mm=entry.sill_thickness,
        casement=_casement(reading, entry),
    )


def _casement(reading: Reading, entry: WrittenWindow) -> Casement | None:
    """What opens into the room; a fault where hinges or an angle are given for a window that does not open."""
    if entry.swing is None and not reading.in_part(entry):
        for key in ("hinge", "opens"):
            if getattr(entry, key) is not None:
                reading.fault(entry, f"'{key}' is for a window that opens: give 'swing', in or out", key)
    if entry.swing != "in":
        return None
    return Casement(hinge=entry.hinge or "left", opens_deg=90.0 if entry.opens is None else entry.opens)
