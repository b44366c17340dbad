"""A room by its survey: readings that check each other, from the plan to adjusted corners."""

from __future__ import annotations

from dataclasses import dataclass

from model3d.plans.shape import WrittenRoom, WrittenWall
from model3d.plans.survey import WrittenAngle, WrittenDiagonal, WrittenSurvey
from model3d.rooms.reading import Reading
from model3d.sources import Entry, near_miss
from model3d.survey import (
    AngleReading,
    LengthReading,
    NotFixed,
    SurveyReport,
    outcome_text,
    sketched,
    survey,
)
from model3d.survey import Reading as Measured

SKETCH_MAY_BE_OFF_DEG = 30.0
USUAL_TURN_DEG = 90.0


@dataclass(frozen=True, slots=True)
class _Noted:
    """A reading, and where it stands in the file."""

    measured: Measured
    entry: Entry
    key: str


def surveyed_room(reading: Reading, room: WrittenRoom, names: list[str]) -> SurveyReport | None:
    """The adjusted room; None, with the faults noted, when the readings do not fix it or do not agree.

    ``names`` are the walls' names.
    """
    walls = room.walls or ()
    if room.survey is None or not _enough(reading, room, walls):
        return None
    noted = _Readings(reading, room.survey, names, walls).all()
    if noted is None:
        return None
    turns = _sketched_turns(walls, noted)
    if not _sketch_closes(reading, room, turns):
        return None
    readings = [n.measured for n in noted]
    try:
        report = survey(sketched([w.length for w in walls], turns), readings)
    except NotFixed as error:
        free = ", ".join(f"c{i + 1}" for i in error.corners)
        reading.fault(
            room, f"the readings do not fix the room: {free} can still move; measure another diagonal", "survey"
        )
        return None
    if not report.accepted:
        _refuse(reading, room, noted, report)
        return None
    return report if _as_sketched(reading, room, turns, report) else None


def _enough(reading: Reading, room: WrittenRoom, walls: tuple[WrittenWall, ...]) -> bool:
    if len(walls) < 3:
        reading.fault(room, f"at least 3 walls are needed, not {len(walls)}", "walls")
    return len(walls) >= 3 and not reading.found.lost("room.survey")


class _Readings:
    """The readings of one survey, each with its place in the file."""

    def __init__(
        self, reading: Reading, written: WrittenSurvey, names: list[str], walls: tuple[WrittenWall, ...]
    ) -> None:
        self.reading, self.written, self.names, self.walls = reading, written, names, walls
        self.corners = [f"c{i + 1}" for i in range(len(walls))]
        self.faulty = False

    def all(self) -> list[_Noted] | None:
        """All of them; None, with the faults noted, when one names a corner that is not there, or is given twice."""
        count = len(self.walls)
        found = [
            _Noted(
                LengthReading(
                    name=f"wall {name}",
                    first=i,
                    second=(i + 1) % count,
                    value_mm=wall.length,
                    sigma_mm=wall.sigma or self.written.length_sigma,
                ),
                wall,
                "length",
            )
            for i, (name, wall) in enumerate(zip(self.names, self.walls, strict=True))
            if wall.length is not None
        ]
        found += [noted for d in self.written.diagonals if (noted := self._diagonal(d)) is not None]
        found += [noted for a in self.written.angles if (noted := self._angle(a)) is not None]
        self._refuse_twice(found)
        return None if self.faulty else found

    def _refuse_twice(self, found: list[_Noted]) -> None:
        seen: set[str] = set()
        for noted in found:
            if noted.measured.name in seen:
                self._fault(noted.entry, f"the {noted.measured.name} is given twice", noted.key)
            seen.add(noted.measured.name)

    def _fault(self, entry: Entry, message: str, key: str) -> None:
        self.reading.fault(entry, message, key)
        self.faulty = True

    def _corner(self, entry: Entry, name: str, key: str) -> int | None:
        if name in self.corners:
            return self.corners.index(name)
        message = f"there is no corner '{name}'{near_miss(name, self.corners)} (corners: c1 to {self.corners[-1]})"
        self._fault(entry, message, key)
        return None

    def _diagonal(self, entry: WrittenDiagonal) -> _Noted | None:
        ends = self._corner(entry, entry.from_, "from"), self._corner(entry, entry.to, "to")
        if ends[0] is None or ends[1] is None:
            return None
        first, second = sorted((ends[0], ends[1]))
        count = len(self.corners)
        if first == second or second - first in (1, count - 1):
            self._fault(entry, f"no diagonal goes from {entry.from_} to {entry.to}: a wall joins them", "to")
            return None
        name = f"diagonal {self.corners[first]} to {self.corners[second]}"
        sigma = entry.sigma or self.written.length_sigma
        return _Noted(
            LengthReading(name=name, first=first, second=second, value_mm=entry.length, sigma_mm=sigma), entry, "length"
        )

    def _angle(self, entry: WrittenAngle) -> _Noted | None:
        if (entry.interior is None) == (entry.turn is None):
            self._fault(entry, "an angle is given by 'interior' or by 'turn'", "interior")
            return None
        corner = self._corner(entry, entry.corner, "corner")
        if corner is None:
            return None
        count = len(self.corners)
        measured = AngleReading(
            name=f"angle at {entry.corner}",
            corner=corner,
            toward=(corner + 1) % count,
            back=(corner - 1) % count,
            value_deg=entry.interior if entry.interior is not None else 180.0 - (entry.turn or 0.0),
            sigma_deg=entry.sigma or self.written.angle_sigma,
        )
        return _Noted(measured, entry, "interior" if entry.interior is not None else "turn")


def _sketched_turns(walls: tuple[WrittenWall, ...], noted: list[_Noted]) -> list[float]:
    """The turn at each wall's end: as sketched, as read, or square; at the last one, what is left of a whole turn."""
    count = len(walls)
    read = {n.measured.corner: 180.0 - n.measured.value_deg for n in noted if isinstance(n.measured, AngleReading)}
    turns = [w.turn if w.turn is not None else read.get((i + 1) % count, USUAL_TURN_DEG) for i, w in enumerate(walls)]
    left = 360.0 - sum(turns[:-1])
    if walls[-1].turn is None and 0 not in read and abs(left) < 180.0:
        turns[-1] = left
    return turns


def _sketch_closes(reading: Reading, room: WrittenRoom, turns: list[float]) -> bool:
    off = 360.0 - sum(turns)
    if abs(off) <= SKETCH_MAY_BE_OFF_DEG:
        return True
    if abs(-360.0 - sum(turns)) <= SKETCH_MAY_BE_OFF_DEG:
        message = "the turns go clockwise: go round with the room on the left; internal corners turn by plus"
    else:
        message = (
            f"the sketched turns add up to {sum(turns):g} degrees, and round a room they add up to 360 "
            "(a turn left out is 90: write -90 at a square external corner)"
        )
    reading.fault(room, message, "walls")
    return False


def _refuse(reading: Reading, room: WrittenRoom, noted: list[_Noted], report: SurveyReport) -> None:
    """Notes the survey's refusal at the reading that is likely wrong."""
    named = report.suspicion.name if report.suspicion is not None else None
    for n in noted:
        if n.measured.name == named:
            reading.fault(n.entry, outcome_text(report), n.key)
            return
    reading.fault(room, outcome_text(report), "survey")


def _as_sketched(reading: Reading, room: WrittenRoom, turns: list[float], report: SurveyReport) -> bool:
    """Lengths fit a room and its mirror images alike: every corner must have come out about as sketched."""
    sound = True
    for i, turn in enumerate(turns):
        corner = (i + 1) % len(turns)
        got = report.corners[corner].turn_deg
        if abs(got - turn) > SKETCH_MAY_BE_OFF_DEG:
            message = f"corner c{corner + 1} comes out with a turn of {got:.1f}, and the sketch says {turn:g}: mend one"
            reading.fault_in_list(room, "walls", i, message)
            sound = False
    return sound
