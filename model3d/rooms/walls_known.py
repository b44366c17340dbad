"""The walls that a plan's other entries may name, and what is known of each, even in a faulty room."""

from __future__ import annotations

from model3d.plans.shape import WrittenRoom
from model3d.rooms.plane import is_inside, meeting_point
from model3d.rooms.reading import Reading
from model3d.rooms.rings import RingFigures, figures_by_corners, outer_figures
from model3d.rooms.room import Ring, Wall
from model3d.sources import Entry
from model3d.survey import SurveyReport


class WallsKnown:
    """Every ring's figures; ``outer_known`` and ``islands_known`` say whether a name that is not there is a
    fault.
    """

    def __init__(self, reading: Reading, room: WrittenRoom | None) -> None:
        self.reading = reading
        outer = outer_figures(reading, room) if room is not None else None
        self.figures: list[RingFigures] = [] if outer is None else [outer]
        self.outer_known = outer is not None
        self.islands_known = room is not None and not reading.found.lost("room.islands")
        for island in room.islands if room is not None else ():
            made = figures_by_corners(reading, island)
            self.figures.append(made)
            if made.ring is not None and outer is not None and outer.ring is not None and not outer.crosses:
                inside = _outside_why(outer.ring, self.rings[1:-1], made.ring)
                if inside:
                    reading.fault(island, inside, "corners")

    def has(self, wall_id: str) -> bool:
        """Whether there is a wall of that name, be it faulty."""
        return self.ring_of(wall_id) is not None

    @property
    def rings(self) -> list[Ring]:
        """The rings that are whole, the outer one first."""
        return [f.ring for f in self.figures if f.ring is not None]

    @property
    def survey(self) -> SurveyReport | None:
        """The survey of the room's own walls, when there is one and it was accepted."""
        return next((f.survey for f in self.figures if f.survey is not None), None)

    def wall(self, wall_id: str) -> Wall | None:
        """The wall in numbers; None when there is none, or its ring is faulty."""
        return next((w for ring in self.rings for w in ring.walls if w.id == wall_id), None)

    def length_mm(self, wall_id: str) -> float | None:
        """The wall's length, when it is known."""
        for figures in self.figures:
            if wall_id in figures.wall_ids:
                return figures.lengths_mm[figures.wall_ids.index(wall_id)]
        return None

    def ring_of(self, wall_id: str) -> RingFigures | None:
        """The figures of the ring that the wall is of."""
        return next((f for f in self.figures if wall_id in f.wall_ids), None)

    def fits(self, wall_id: str, from_mm: float, to_mm: float, entry: Entry, what: str, key: str = "at") -> bool:
        """Whether a stretch lies on its wall; a fault of ``entry`` when it does not.

        An ``at`` that is itself off the wall is noted with the names (see ``names``) and not again.
        """
        length = self.length_mm(wall_id)
        if length is None or (from_mm >= -1e-6 and to_mm <= length + 1e-6):
            return True
        if key == "at" and from_mm > length + 1e-6:
            return False
        span = f"at {from_mm:.1f}" if from_mm == to_mm else f"from {from_mm:.1f} to {to_mm:.1f}"
        message = f"{what} {span} is off wall {wall_id}, which goes from 0 to {length:.1f}"
        self.reading.fault(entry, message, key)
        return False


def _outside_why(outer: Ring, others: list[Ring], island: Ring) -> str | None:
    """Why an island cannot stand where it is said to, None when it can."""
    points = [c.at_mm for c in island.corners]
    if not is_inside(points[0], [c.at_mm for c in outer.corners]) or _meet(outer, island):
        return "the island is not inside the room"
    for other in others:
        ring = [c.at_mm for c in other.corners]
        if _meet(other, island) or is_inside(points[0], ring) or is_inside(ring[0], points):
            return f"the island overlaps the island '{other.id}'"
    return None


def _meet(one: Ring, other: Ring) -> bool:
    return any(
        meeting_point(a.start_mm, a.end_mm, b.start_mm, b.end_mm) is not None for a in one.walls for b in other.walls
    )
