"""Drawers and doors from what the plan says of a box or of what is built in, and what is wrong with them."""

from __future__ import annotations

from collections.abc import Iterable

from model3d.geometry.placement import Placement, Vec3
from model3d.plans.drawers import WrittenCupboardDoor, WrittenDrawer
from model3d.rooms.drawers import CupboardDoor, Drawer, Front, Opener
from model3d.rooms.reading import Reading

_SAME_MM = 1e-6


def resolved_openers(
    reading: Reading,
    written: Iterable[WrittenDrawer | WrittenCupboardDoor],
    low_mm: Vec3,
    high_mm: Vec3,
    *,
    front: Front = "room",
    what: str,
) -> tuple[Opener, ...]:
    """The drawers and doors in one front of a box from ``low_mm`` to ``high_mm``; faults noted: ends swapped, past the
    front's sides, below or above it. ``what`` is what the box is called.
    """
    placed, width, depth = _front(low_mm, high_mm, front)
    found = []
    for entry in written:
        kind = "drawer" if isinstance(entry, WrittenDrawer) else "door"
        along = _along(reading, entry, width, kind, what)
        up = _up(reading, entry, (low_mm[2], high_mm[2]), kind, what)
        if along is not None and up is not None:
            found.append(_opener(entry, placed, along, up, depth))
    return tuple(found)


def _front(low: Vec3, high: Vec3, front: Front) -> tuple[Placement, float, float]:
    """The frame of a front, how wide it is, and how deep the box is behind it."""
    across, deep = high[0] - low[0], high[1] - low[1]
    if front == "room":
        return Placement(origin_mm=(low[0], high[1], 0.0)), across, deep
    if front == "left":
        placed = Placement(origin_mm=(high[0], high[1], 0.0), x_axis=(0.0, -1.0, 0.0), y_axis=(1.0, 0.0, 0.0))
    else:
        placed = Placement(origin_mm=(low[0], low[1], 0.0), x_axis=(0.0, 1.0, 0.0), y_axis=(-1.0, 0.0, 0.0))
    return placed, deep, across


def _along(
    reading: Reading, entry: WrittenDrawer | WrittenCupboardDoor, width: float, kind: str, what: str
) -> tuple[float, float] | None:
    low, high = entry.from_ if entry.from_ is not None else 0.0, entry.to if entry.to is not None else width
    if high > width + _SAME_MM:
        reading.fault(entry, f"the {kind} ends at {high:g}, and the front of {what} is {width:g} wide", "to")
    elif low >= high:
        message = f"'from' ({low:g}) must be less than 'to' ({high:g}{', the width of the front' * (entry.to is None)})"
        reading.fault(entry, message, "from")
    else:
        return low, high
    return None


def _up(
    reading: Reading, entry: WrittenDrawer | WrittenCupboardDoor, front: tuple[float, float], kind: str, what: str
) -> tuple[float, float] | None:
    low = front[0] if entry.up is None else entry.up
    high = front[1] if entry.height is None else low + entry.height
    whole = f"and {what} goes from {front[0]:g} to {front[1]:g} up"
    if low < front[0] - _SAME_MM or low >= front[1]:
        reading.fault(entry, f"the {kind} begins at {low:g}, {whole}", "up")
    elif high > front[1] + _SAME_MM:
        reading.fault(entry, f"the {kind} ends at {high:g}, {whole}", "height")
    else:
        return low, high
    return None


def _opener(
    entry: WrittenDrawer | WrittenCupboardDoor,
    front: Placement,
    along: tuple[float, float],
    up: tuple[float, float],
    depth: float,
) -> Opener:
    if isinstance(entry, WrittenDrawer):
        out = depth if entry.out is None else entry.out
        return Drawer(front=front, from_mm=along[0], to_mm=along[1], low_mm=up[0], high_mm=up[1], out_mm=out)
    return CupboardDoor(
        front=front, from_mm=along[0], to_mm=along[1], low_mm=up[0], high_mm=up[1], hinge=entry.hinge,
        opens_deg=entry.opens,
    )
