"""The names in a plan: each given once, and each wall, opening and island that is named must be there.

This is checked on the file as written, so that an entry that is faulty in some other way is looked at too.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

from model3d.rooms.reading import Reading
from model3d.rooms.walls_known import WallsKnown
from model3d.sources import MarkedList, MarkedMap, Place, near_miss, place_in
from model3d.sources.lengths import length_mm

_LISTS = (
    "openings",
    "obstacles",
    "runs",
    "dry_pieces",
    "fixing",
    "bows",
    "floor_level",
    "furniture",
    "viewpoints",
)

METRES_BELOW_MM = 100.0  # a wall so short was most likely given in metres


def check_names(reading: Reading, walls: WallsKnown) -> None:
    """Notes every id given twice, and every name of a wall, an opening or an island that is not there."""
    top = reading.found.source.data
    if isinstance(top, MarkedMap):
        _check_ids(reading, walls, top)
        for key in _LISTS:
            for entry in _maps(top.get(key)):
                _check_references(reading, walls, entry, _island_of(reading, walls, entry))


def _maps(listed: Any) -> Iterator[MarkedMap]:
    if isinstance(listed, MarkedList):
        yield from (entry for entry in listed if isinstance(entry, MarkedMap))


def _ids(listed: Any, prefix: str = "") -> Iterator[tuple[str, Place]]:
    """The ids in a list, and where they stand."""
    for entry in _maps(listed):
        if isinstance(entry.get("id"), str):
            yield prefix + entry["id"], place_in(entry, "id")


def _check_ids(reading: Reading, walls: WallsKnown, top: MarkedMap) -> None:
    room = top.get("room")
    room = room if isinstance(room, MarkedMap) else MarkedMap({}, top.place, {}, {})
    of_rings = [*_ids(room.get("corners")), *_ids(room.get("walls"))]
    for island in _maps(room.get("islands")):
        of_rings += _ids(island.get("corners"), f"{island.get('id')}.")
    others = [pair for key in _LISTS for pair in _ids(top.get(key))] + list(_ids(room.get("islands")))
    first: dict[str, Place] = {"room": Place(0, 0, "")}
    in_rings = Counter(name for f in walls.figures for name in (*f.wall_ids, *f.corner_ids))
    in_rings -= Counter(name for name, _ in of_rings)
    for name, place in sorted(of_rings + others, key=lambda pair: (pair[1].line, pair[1].column)):
        if name == "room":
            reading.fault_at(place, "the id 'room' stands for the room's own walls: take another")
        elif name in first:
            reading.fault_at(place, f"the id '{name}' is given twice (first on line {first[name].line})")
        elif in_rings[name] > 0:
            message = f"the id '{name}' is the name of a wall or corner that has no id of its own: take another"
            reading.fault_at(place, message)
        first.setdefault(name, place)


def _island_of(reading: Reading, walls: WallsKnown, entry: MarkedMap) -> str | None:
    """The island that an entry is said to be on, None when there is none of that name."""
    island = entry.get("island")
    if not isinstance(island, str):
        return None
    known = [f.id for f in walls.figures if f.id != "room"]
    if walls.islands_known and island not in known:
        reading.fault_at(place_in(entry, "island"), f"there is no island '{island}'{near_miss(island, known)}")
    return island if island in known else None


def _check_references(reading: Reading, walls: WallsKnown, node: Any, island: str | None) -> None:
    """Looks at every place in an entry where a wall or an opening is named."""
    if isinstance(node, MarkedList):
        for part in node:
            _check_references(reading, walls, part, island)
    if not isinstance(node, MarkedMap):
        return
    for key, value in node.items():
        if key == "beside" and isinstance(value, str):
            _check_opening(reading, value, place_in(node, key))
        elif key in ("wall", "start", "end") and isinstance(value, str):
            _check_wall(reading, walls, full_name(value, island), place_in(node, key))
            if key == "wall":
                _check_at(reading, walls, full_name(value, island), node)
        else:
            _check_references(reading, walls, value, island)


def full_name(name: str, island: str | None) -> str:
    """A wall or corner as the room names it: what is on an island may leave the island's name out."""
    return name if island is None or "." in name else f"{island}.{name}"


def _check_opening(reading: Reading, name: str, place: Place) -> None:
    known = [known for known in reading.ids_as_written("openings") if known]
    if name not in known:
        listed = f" (openings: {', '.join(known)})" if known else ""
        reading.fault_at(place, f"there is no opening '{name}'{near_miss(name, known)}{listed}")


def _check_wall(reading: Reading, walls: WallsKnown, name: str, place: Place) -> None:
    known = [known for f in walls.figures for known in f.wall_ids]
    certain = walls.islands_known if "." in name else walls.outer_known
    if certain and name not in known:
        listed = ", ".join(known) if len(known) <= 12 else f"{', '.join(known[:4])} to {known[-1]}"
        reading.fault_at(place, f"there is no wall '{name}'{near_miss(name, known)} (walls: {listed})")


def _check_at(reading: Reading, walls: WallsKnown, wall_id: str, node: MarkedMap) -> None:
    """A place along a wall must be on it."""
    at, length = node.get("at"), walls.length_mm(wall_id)
    if isinstance(at, str):
        try:
            at = length_mm(at)
        except ValueError:
            return
    if length is not None and isinstance(at, int | float) and at > length + 1e-6:
        small = "; lengths are millimetres, metres are written out, such as 4.2 m" if length < METRES_BELOW_MM else ""
        message = f"{at:.1f} is off wall {wall_id}, which is {length:.1f} long{small}"
        reading.fault_at(place_in(node, "at"), message)
