"""Runs and dry pieces from what the plan says: the walls they pass, and what is wrong with their way."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from model3d.plans.runs import BesideOpening, OnWall, Stop, WrittenDryPiece, WrittenRun
from model3d.rooms import runs as resolved
from model3d.rooms.asked_joints import AskedJoints, Stretch
from model3d.rooms.names import full_name
from model3d.rooms.openings import Door, Opening
from model3d.rooms.reading import Reading
from model3d.rooms.room import Ring
from model3d.rooms.walls_known import WallsKnown
from model3d.sources import Entry

_LEAST_MM = 1e-6
Walked = list[tuple[int, float, float]]
"""The walls a run passes, by number in their ring, each with where the run comes on and goes off."""


@dataclass(frozen=True, slots=True)
class _Place:
    """A run's end: the wall, and how far along it when the plan says so."""

    wall_id: str
    at_mm: float | None


class RunReading:
    """Resolves the runs and dry pieces of one plan over the walls and openings that are known."""

    def __init__(self, reading: Reading, walls: WallsKnown, openings: tuple[Opening, ...]) -> None:
        self.reading, self.walls, self.openings = reading, walls, openings
        self.taken: list[tuple[str, float, float, str]] = []

    def run(self, entry: WrittenRun) -> resolved.RunPlan | None:
        """The run in numbers; None, with its faults noted, when it cannot be followed."""
        start, end = self._place(entry, "start"), self._place(entry, "end")
        asked = AskedJoints(self.reading, self.walls, entry)
        if start is None or end is None or self.reading.found.lost(entry.place("direction").key):
            return None
        figures = self.walls.ring_of(start.wall_id)
        if figures is None or figures is not self.walls.ring_of(end.wall_id):
            message = f"the run starts on wall {start.wall_id} and ends on {end.wall_id}, and no wall leads there"
            self.reading.fault(entry, message, "end")
            return None
        if figures.ring is None:
            return None
        sense: Literal[1, -1] = 1 if entry.direction == "with-walls" else -1
        walked = _walk(figures.ring, sense, start, end)
        if any(abs(b - a) <= _LEAST_MM for _, a, b in walked):
            self.reading.fault(entry, "the run has no length on its first or its last wall: move its end", "start")
            return None
        return self._put_together(entry, asked, figures.ring, sense, walked)

    def _place(self, entry: WrittenRun, key: Literal["start", "end"]) -> _Place | None:
        stop: Stop = entry.start if key == "start" else entry.end
        if isinstance(stop, BesideOpening):
            return self._beside(stop)
        wall_id = full_name(stop.wall if isinstance(stop, OnWall) else stop, entry.island)
        if not self.walls.has(wall_id):
            return None
        if not isinstance(stop, OnWall):
            return _Place(wall_id, None)
        return _Place(wall_id, stop.at) if self.walls.fits(wall_id, stop.at, stop.at, stop, "it") else None

    def _beside(self, stop: BesideOpening) -> _Place | None:
        for opening in self.openings:
            length = self.walls.length_mm(opening.wall_id)
            if opening.id == stop.beside and length is not None and opening.to_mm <= length + _LEAST_MM:
                low, high = opening.from_mm, opening.to_mm
                if isinstance(opening, Door):
                    low, high = opening.kept_clear_mm
                at = low if stop.side == "right" else high
                fits = self.walls.fits(opening.wall_id, at, at, stop, "the place beside it", "beside")
                return _Place(opening.wall_id, at) if fits else None
        return None

    def _put_together(
        self, entry: WrittenRun, asked: AskedJoints, ring: Ring, sense: Literal[1, -1], walked: Walked
    ) -> resolved.RunPlan:
        passed = [ring.corners[(i + 1) % len(ring.corners) if sense > 0 else i] for i, _, _ in walked[:-1]]
        stretches = [Stretch(ring.walls[i].id, a, b) for i, a, b in walked]
        uses = asked.at_corners([c.id for c in passed])
        in_line = asked.in_line(stretches)
        cuts = asked.cut_lengths(stretches)
        spans = tuple(
            resolved.RunSpan(
                wall=ring.walls[i],
                enters_mm=a,
                leaves_mm=b,
                joints=tuple(sorted(in_line.get(k, []), key=lambda j: sense * j.at_mm)),
                cut_lengths=tuple(cuts.get(k, [])),
            )
            for k, (i, a, b) in enumerate(walked)
        )
        for span in spans:
            self._take(entry, f"run '{entry.id}'", span.wall.id, span.enters_mm, span.leaves_mm)
        return resolved.RunPlan(
            id=entry.id,
            ring=ring.id,
            sense=sense,
            spans=spans,
            corners=tuple(resolved.CornerPass(corner=c, use=uses.get(c.id)) for c in passed),
            start_fitting=entry.start_fitting,
            end_fitting=entry.end_fitting,
            return_fixed=entry.return_fixed,
        )

    def dry_piece(self, entry: WrittenDryPiece) -> resolved.DryPlan | None:
        """The dry piece in numbers; None, with its faults noted, when it has no place."""
        if not self.walls.has(entry.wall):
            return None
        if entry.from_ >= entry.to:
            self.reading.fault(entry, f"'from' ({entry.from_:g}) must be less than 'to' ({entry.to:g})", "from")
            return None
        fits = self.walls.fits(entry.wall, entry.from_, entry.to, entry, "the dry piece", "to")
        self._take(entry, f"dry piece '{entry.id}'", entry.wall, entry.from_, entry.to)
        wall = self.walls.wall(entry.wall)
        if wall is None or not fits:
            return None
        return resolved.DryPlan(id=entry.id, wall=wall, from_mm=entry.from_, to_mm=entry.to)

    def _take(self, entry: Entry, what: str, wall_id: str, one_mm: float, other_mm: float) -> None:
        """Takes up a stretch of wall: a fault where it is taken already, or is a doorway."""
        low, high = min(one_mm, other_mm), max(one_mm, other_mm)
        for opening in self.openings:
            if isinstance(opening, Door) and opening.wall_id == wall_id:
                self._clash(
                    entry,
                    what,
                    f"the doorway of '{opening.id}'",
                    wall_id,
                    (low, high),
                    (opening.from_mm, opening.to_mm),
                )
        for other_wall, a, b, other in self.taken:
            if other_wall == wall_id:
                self._clash(entry, what, other if other != what else "itself", wall_id, (low, high), (a, b))
        self.taken.append((wall_id, low, high, what))

    def _clash(
        self,
        entry: Entry,
        what: str,
        other: str,
        wall_id: str,
        one: tuple[float, float],
        two: tuple[float, float],
    ) -> None:
        low, high = max(one[0], two[0]), min(one[1], two[1])
        if high - low > _LEAST_MM:
            self.reading.fault(entry, f"{what} goes over {other} on wall {wall_id}, from {low:.1f} to {high:.1f}")


def _walk(ring: Ring, sense: Literal[1, -1], start: _Place, end: _Place) -> Walked:
    """The walls passed, by number, each with where the run comes on and goes off.

    An end whose place is not given is the wall's own: the first one met for the start, the last one for the
    end. A run that ends before it starts on one wall goes all the way round.
    """
    names = [w.id for w in ring.walls]
    i, last = names.index(start.wall_id), names.index(end.wall_id)

    def ends(number: int) -> tuple[float, float]:
        length = ring.walls[number].length_mm
        return (0.0, length) if sense > 0 else (length, 0.0)

    here = ends(i)[0] if start.at_mm is None else start.at_mm
    there = ends(last)[1] if end.at_mm is None else end.at_mm
    if i == last and sense * (there - here) >= 0.0:
        return [(i, here, there)]
    walked = [(i, here, ends(i)[1])]
    while (i := (i + sense) % len(names)) != last:
        walked.append((i, *ends(i)))
    return [*walked, (last, ends(last)[0], there)]
