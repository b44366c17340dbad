"""Whether the rooms that the work on a run needs are free: of the room, what stands or moves in it, and other runs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from OCP.Bnd import Bnd_Box
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge
from OCP.BRepExtrema import BRepExtrema_DistShapeShape
from OCP.gp import gp_Pnt

from model3d.checks.engine import Body, clashes
from model3d.checks.free_rooms import FreeRoom, by_place
from model3d.checks.trial import Trial
from model3d.parts.room import SectorSpec
from model3d.scene import Part
from model3d.scene.values import ROOM_ROLES, SWEPT_ROLES
from model3d.solids.build import solid
from model3d.solids.placing import located

Blockers = Mapping[str, frozenset[str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lack:
    """A room that is taken in all its places: by what, and how much of it that leaves."""

    room: FreeRoom
    thing: Part
    free_mm: float


def lacking(rooms: Sequence[FreeRoom], things: Sequence[Part], trial: Trial) -> tuple[tuple[FreeRoom, Part], ...]:
    """The rooms that are taken wherever they might be, each with the things that take the usual place."""
    met, by_id = _met(rooms, things, trial), {t.id: t for t in things}
    taken = [r for r in rooms if all(met.get(p.id) for p in r.places)]
    return tuple((r, by_id[i]) for r in taken for i in sorted(met[r.places[0].id]))


def lacks(rooms: Sequence[FreeRoom], things: Sequence[Part], trial: Trial) -> tuple[Lack, ...]:
    """What ``lacking`` finds, with how much is left."""
    return tuple(Lack(room=r, thing=t, free_mm=free_mm(r, t)) for r, t in lacking(rooms, things, trial))


def takes(room: FreeRoom, thing: Part) -> bool:
    """Whether a thing counts that stands in a room. The wall and the floor along which a run lies do not, nor does the
    run itself; leaves and drawers are shut while the run is fitted, but not whenever its valve is turned.
    """
    if thing.role in SWEPT_ROLES:
        return room.code == "valve-head-room"
    if thing.role in ROOM_ROLES:
        return thing.role != "floor" and not (thing.role == "wall" and thing.wall == room.serves.wall)
    mine = thing.piece == room.serves.piece if thing.run is None else thing.run == room.serves.run
    return thing.role != "o-ring" and not mine


def free_mm(room: FreeRoom, thing: Part) -> float:
    """How much of the usual place a thing that stands in it leaves free, from the part that it serves on."""
    place = room.places[0]
    there = located(solid(thing.spec), place.placement.inverse() @ thing.placement).wrapped
    shared = BRepAlgoAPI_Common(solid(place.spec).wrapped, there).Shape()
    if isinstance(place.spec, SectorSpec):
        axis = BRepBuilderAPI_MakeEdge(gp_Pnt(0.0, 0.0, 0.0), gp_Pnt(0.0, 0.0, place.spec.height_mm)).Edge()
        apart = BRepExtrema_DistShapeShape(axis, shared)
        return max(0.0, float(apart.Value()) - (place.spec.radius_mm - room.asked_mm))
    box = Bnd_Box()
    BRepBndLib.AddOptimal_s(shared, box, False, False)
    return 0.0 if box.IsVoid() else max(0.0, float(box.Get()[2]))


def _met(rooms: Sequence[FreeRoom], things: Iterable[Part], trial: Trial) -> Blockers:
    """What stands in each place of the rooms, by the place's id."""
    served, listed = by_place(rooms), {t.id: t for t in things}
    places = {p.id: p for r in rooms for p in r.places}

    def allowed_mm(a: Body, b: Body) -> float | None:
        for one, other in ((a.id, b.id), (b.id, a.id)):
            if one in served and other in listed and takes(served[one], listed[other]):
                return 0.0
        return None

    parts = [*places.values(), *listed.values()]
    found = clashes(
        [Body(id=p.id, shape_key=p.spec, placement=p.placement) for p in parts],
        {p.spec: solid(p.spec) for p in parts},
        allowed_mm=allowed_mm,
        tolerance=trial.tolerance,
        memory=trial.memory,
    )
    met: dict[str, set[str]] = {}
    for clash in found:
        place, thing = (clash.first, clash.second) if clash.first in places else (clash.second, clash.first)
        met.setdefault(place, set()).add(thing)
    return {place: frozenset(ids) for place, ids in met.items()}
