"""Walls that bow and a floor that is not level, in numbers: what was read, and what lies between."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeVar

from model3d.plans import PlanInPart
from model3d.plans.surfaces import WrittenBow, WrittenLevel
from model3d.rooms.reading import Reading
from model3d.rooms.walls_known import WallsKnown

AT_CORNER_MM = (
    5.0  # past a wall's end by less, a reading is of the corner: an adjusted wall is not as long as it was read
)
BOWS_AT_MOST_MM = 50.0  # past that a wall does not bow, it turns (common practice, no source)
AtAndValue = tuple[float, float]
Written = TypeVar("Written", WrittenBow, WrittenLevel)


@dataclass(frozen=True, slots=True, kw_only=True)
class WallBow:
    """A wall's face off the straight line between its corners: ``readings`` are (along, off) in order, corners
    included; off is positive into the room.
    """

    wall_id: str
    readings: tuple[AtAndValue, ...]

    def off_at_mm(self, along_mm: float) -> float:
        """Between readings the face is taken as straight."""
        return between(self.readings, along_mm)

    def proudest_mm(self, one_mm: float, other_mm: float) -> float:
        """How far the face stands out at most between two places along it."""
        low, high = sorted((one_mm, other_mm))
        return max(self.off_at_mm(low), self.off_at_mm(high), *(off for at, off in self.readings if low < at < high))


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorLevel:
    """How far the floor at a wall lies below a level line: ``readings`` are (along, down) in order."""

    wall_id: str
    readings: tuple[AtAndValue, ...]

    def down_at_mm(self, along_mm: float) -> float:
        """Between readings the floor is taken as straight, beyond the last one as level."""
        return between(self.readings, along_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Packers:
    """Packers behind brackets: thicknesses in steps, and the most behind one bracket."""

    step_mm: float = 0.5
    most_mm: float = 10.0


def between(readings: Sequence[AtAndValue], along_mm: float) -> float:
    """A value at a place: straight from reading to reading, and as the nearest one beyond them."""
    if along_mm <= readings[0][0]:
        return readings[0][1]
    for (a, low), (b, high) in pairwise(readings):
        if along_mm <= b:
            return low + (high - low) * (along_mm - a) / (b - a)
    return readings[-1][1]


def resolved_bows(reading: Reading, walls: WallsKnown, entries: tuple[WrittenBow, ...]) -> tuple[WallBow, ...]:
    """The bows of walls that there are; faults: a wall given twice, a reading off its wall, one place read twice."""
    found = []
    for entry in _once(reading, walls, entries):
        length = walls.length_mm(entry.wall)
        if length is None:
            continue
        places = dict(_in_order(reading, entry, length))
        for i, (_, off) in enumerate(entry.readings):
            if abs(off) > BOWS_AT_MOST_MM:
                message = f"{off:g} off the straight is no bow (at most {BOWS_AT_MOST_MM:g}): give a corner there"
                reading.fault_in_list(entry, "readings", i, message)
        places.setdefault(0.0, 0.0)
        places.setdefault(length, 0.0)
        found.append(WallBow(wall_id=entry.wall, readings=tuple(sorted(places.items()))))
    return tuple(found)


def resolved_levels(reading: Reading, walls: WallsKnown, entries: tuple[WrittenLevel, ...]) -> tuple[FloorLevel, ...]:
    """The floor at walls that there are; faults as for bows."""
    found = []
    for entry in _once(reading, walls, entries):
        length = walls.length_mm(entry.wall)
        if length is not None:
            found.append(FloorLevel(wall_id=entry.wall, readings=tuple(_in_order(reading, entry, length))))
    return tuple(found)


def packers_of(plan: PlanInPart) -> Packers:
    """The packers in hand."""
    return Packers(step_mm=plan.packers.step, most_mm=plan.packers.most)


def _once(reading: Reading, walls: WallsKnown, entries: tuple[Written, ...]) -> list[Written]:
    seen: set[str] = set()
    found = []
    for entry in entries:
        if entry.wall in seen:
            reading.fault(entry, f"wall {entry.wall} is given twice", "wall")
        elif walls.has(entry.wall):
            found.append(entry)
        seen.add(entry.wall)
    return found


def _in_order(reading: Reading, entry: WrittenBow | WrittenLevel, length_mm: float) -> list[AtAndValue]:
    places: dict[float, float] = {}
    for i, (at, value) in enumerate(entry.readings):
        if at > length_mm + AT_CORNER_MM:
            reading.fault_in_list(
                entry, "readings", i, f"{at:.1f} is off wall {entry.wall}, which is {length_mm:.1f} long"
            )
        elif min(at, length_mm) in places:
            reading.fault_in_list(entry, "readings", i, f"the place {at:g} on wall {entry.wall} is read twice")
        else:
            places[min(at, length_mm)] = value
    return sorted(places.items())
