"""Heat, cutting, fixing and in-line joints from the plan as written, and what is wrong with them."""

from __future__ import annotations

from model3d.plans import PlanInPart
from model3d.plans.fixing import WrittenFixing
from model3d.rooms.reading import Reading
from model3d.rooms.work import Cutting, Heat, InLineRules, OffCut, Studs, WallFixing

STUD_WIDTH_MM = 38.0


def heat_of(plan: PlanInPart) -> Heat:
    """What the room asks of the heating."""
    heat = plan.heat
    return Heat(
        room_c=heat.room, loss_w=heat.loss, vulnerable=heat.vulnerable, valve_kv_m3_per_h=heat.valve_kv
    )


def cutting_of(plan: PlanInPart) -> Cutting:
    """Saw and stock."""
    cutting = plan.cutting
    return Cutting(
        kerf_mm=cutting.kerf,
        end_trim_mm=cutting.end_trim,
        worth_keeping_mm=cutting.worth_keeping,
        off_cuts=tuple(OffCut(length_mm=o.length, count=o.count, dry=o.dry) for o in cutting.off_cuts),
    )


def in_line_of(plan: PlanInPart) -> InLineRules:
    """How far in-line joints stay from things."""
    rules = plan.in_line
    return InLineRules(
        off_corner_mm=rules.off_corner,
        off_socket_mm=rules.off_socket,
        off_opening_mm=rules.off_opening,
        off_pipe_mm=rules.off_pipe,
    )


def resolved_fixings(reading: Reading, entries: tuple[WrittenFixing, ...]) -> tuple[WallFixing, ...]:
    """What each wall offers a bracket. A wall is given once; studs have a spacing and a first one, nothing
    else has.
    """
    seen: set[str] = set()
    found = []
    for entry in entries:
        if entry.wall in seen:
            reading.fault(entry, f"wall {entry.wall} is given twice", "wall")
        seen.add(entry.wall)
        found.append(WallFixing(wall_id=entry.wall, kind=entry.kind, studs=_studs(reading, entry)))
    return tuple(found)


def check_room_temperature(reading: Reading, plan: PlanInPart) -> None:
    """A room is cooler than the water that comes back to heat it; said where the water itself is sound."""
    water, lost = plan.water, reading.found.lost
    sound = water.return_ < water.flow and plan.frost < water.flow and not (lost("heat") or lost("water"))
    if plan.heat.written is not None and sound and plan.heat.room >= water.return_:
        message = f"a room at {plan.heat.room:g} is not heated by water that comes back at {water.return_:g}"
        reading.fault(plan.heat, message, "room")


def _studs(reading: Reading, entry: WrittenFixing) -> Studs | None:
    given = [key for key in ("spacing", "first", "width") if getattr(entry, key) is not None]
    if entry.kind != "studs":
        for key in given:
            reading.fault(entry, f"'{key}' is for studs, not for {entry.kind}", key)
        return None
    if entry.spacing is None or entry.first is None:
        if not reading.in_part(entry):
            missing = "spacing" if entry.spacing is None else "first"
            reading.fault(entry, f"studs need their spacing and the place of one: '{missing}' is missing")
        return None
    width = STUD_WIDTH_MM if entry.width is None else entry.width
    if width >= entry.spacing:
        reading.fault(entry, f"studs {width:g} wide do not stand {entry.spacing:g} apart", "spacing")
    return Studs(first_mm=entry.first, spacing_mm=entry.spacing, width_mm=width)
