"""From a plan file to a checked plan: form and meaning are checked together, and every fault is reported at
once.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path

from model3d.families.reading import UnknownFamily
from model3d.plans import Plan, PlanInPart
from model3d.plans.colours import rgb
from model3d.rooms.asked_joints import check_in_line
from model3d.rooms.checked import CheckedPlan, Finish, Temperatures
from model3d.rooms.cuts import cuts_made, fitted_pieces
from model3d.rooms.furniture import built_in
from model3d.rooms.names import check_names
from model3d.rooms.reading import Reading
from model3d.rooms.resolve_furniture import before_of, named_views, resolved_furniture
from model3d.rooms.resolve_obstacles import resolved_obstacles
from model3d.rooms.resolve_openings import resolved_openings
from model3d.rooms.resolve_runs import RunReading
from model3d.rooms.resolve_work import check_room_temperature, cutting_of, heat_of, in_line_of, resolved_fixings
from model3d.rooms.room import Room
from model3d.rooms.surfaces import packers_of, resolved_bows, resolved_levels
from model3d.rooms.walls_known import WallsKnown
from model3d.sources import FaultyFile, Salvage, read_source, salvage, source_of

FindFamily = Callable[[str, Path], Path]
"""Takes a family's name or path, and the folder relative paths start from; gives the family's file. Raises
UnknownFamily, or a LookupError, that says why there is none.
"""


def read_plan(path: Path, *, find_family: FindFamily) -> CheckedPlan:
    """Reads and checks a plan file. Raises FaultyFile with every fault of form and meaning, each with line
    and key.
    """
    return room_and_runs(salvage(read_source(path), Plan, PlanInPart), find_family=find_family)


def plan_of(text: str, path: Path, *, find_family: FindFamily) -> CheckedPlan:
    """The same from text; ``path`` is what faults name and relative paths start from."""
    return room_and_runs(salvage(source_of(text, path), Plan, PlanInPart), find_family=find_family)


def room_and_runs(found: Salvage[PlanInPart], *, find_family: FindFamily) -> CheckedPlan:
    """The room and its runs from a plan as far as it could be read. Raises FaultyFile when anything is wrong
    with it.
    """
    plan = found.value
    if plan is None:
        raise FaultyFile(found.faults)
    reading = Reading(found)
    walls = WallsKnown(reading, plan.room)
    check_names(reading, walls)
    height = plan.room.height if plan.room is not None and not found.lost("room.height") else math.inf
    openings = resolved_openings(reading, walls, plan.openings, height)
    obstacles = resolved_obstacles(reading, walls, plan.obstacles, height)
    furniture = resolved_furniture(reading, walls, plan.furniture, height)
    viewpoints, before = named_views(reading, walls, plan.viewpoints), before_of(reading, walls, plan.before)
    on_walls = RunReading(reading, walls, openings)
    runs = [on_walls.run(entry) for entry in plan.runs]
    dry_pieces = [on_walls.dry_piece(entry) for entry in plan.dry_pieces]
    fixings = resolved_fixings(reading, plan.fixing)
    _check_temperatures(reading, plan)
    check_room_temperature(reading, plan)
    bows, levels = resolved_bows(reading, walls, plan.bows), resolved_levels(reading, walls, plan.floor_level)
    as_cut, fitted = cuts_made(reading, plan), fitted_pieces(reading, plan)
    family_path = _family(reading, plan, find_family)
    check_in_line(reading, plan, family_path)
    if found.faults or reading.faults or family_path is None or plan.room is None:
        raise FaultyFile((*found.faults, *reading.faults))
    room = Room(
        rings=tuple(walls.rings),
        height_mm=height,
        wall_thickness_mm=plan.room.wall_thickness,
        openings=openings,
        obstacles=obstacles + built_in(furniture),
    )
    return CheckedPlan(
        path=reading.file,
        name=plan.name or reading.file.stem,
        family_path=family_path,
        room=room,
        runs=tuple(r for r in runs if r is not None),
        dry_pieces=tuple(d for d in dry_pieces if d is not None),
        temperatures=_temperatures(plan),
        finish=_finish(plan),
        survey=walls.survey,
        bows=bows,
        floor_levels=levels,
        packers=packers_of(plan),
        as_cut=as_cut,
        fitted=fitted,
        heat=heat_of(plan),
        cutting=cutting_of(plan),
        fixings=fixings,
        in_line=in_line_of(plan),
        furniture=furniture,
        viewpoints=viewpoints,
        before=before,
    )


def _temperatures(plan: PlanInPart) -> Temperatures:
    return Temperatures(flow_c=plan.water.flow, return_c=plan.water.return_, install_c=plan.install, frost_c=plan.frost)


def _finish(plan: PlanInPart) -> Finish:
    finish = plan.finish
    return Finish(
        floor=rgb(finish.floor),
        walls=rgb(finish.walls),
        skirting=rgb(finish.skirting),
        flooring=finish.flooring,
        flooring_turn_deg=finish.flooring_turn,
    )


def _check_temperatures(reading: Reading, plan: PlanInPart) -> None:
    """Water goes out warmer than it comes back, and warmer than the frost set-back."""
    flow, back = plan.water.flow, plan.water.return_
    if reading.found.lost("water"):
        return
    if flow <= back:
        reading.fault(plan.water, f"water that goes out at {flow:g} cannot come back at {back:g}", "flow")
    if plan.frost >= flow and not reading.found.lost("frost"):
        reading.fault(plan, f"the frost set-back, {plan.frost:g}, is not below the flow, {flow:g}", "frost")


def _family(reading: Reading, plan: PlanInPart, find_family: FindFamily) -> Path | None:
    if plan.family is None:
        return None
    try:
        return find_family(plan.family, reading.file.parent)
    except (UnknownFamily, LookupError) as error:
        why = error.args[0] if error.args else ""
        reading.fault(plan, str(why) or f"there is no family '{plan.family}'", "family")
        return None
