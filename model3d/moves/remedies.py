"""What would free a step, in trade words; everything offered has been tried."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import product

from model3d.geometry.placement import Vec3, scale
from model3d.motion import MotionBody
from model3d.motion.sweep import stands_in
from model3d.motion.way import SKIN_MM
from model3d.moves.hose_bodies import hose_stop
from model3d.moves.meant import FLEXIBLE
from model3d.moves.trying import goes
from model3d.moves.values import Stop
from model3d.moves.ways import Site, bracket_ways, hand_ways, piece_ways
from model3d.parts.profile import PieceSpec
from model3d.parts.room import CylinderSpec
from model3d.scene import Part, Scene
from model3d.scene.values import ROOM_ROLES, SWEPT_ROLES
from model3d.steps.moves import approaches, room_vector

FURTHEST_MM = 400.0  # nothing is asked to be moved further than this
SPARE_MM = 1.0
SHORTEST_SPARE_MM = 2.0  # what a piece is longer than the insertions at its ends
OFF_FLOOR_MM = 20.0  # what stands lower reaches the floor: it is not raised
KEEP_CLEAR = "Move it, or keep the run clear of it."
WAYS: tuple[tuple[Vec3, str], ...] = (
    ((-1.0, 0.0, 0.0), "toward the valve"),
    ((1.0, 0.0, 0.0), "toward the return"),
    ((0.0, 1.0, 0.0), "out from the wall"),
    ((0.0, 0.0, 1.0), "up"),
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Blockade:
    """A stop of a step among all steps; ``gone`` are the other things that stop the same step."""

    every: Sequence[Site]
    site: Site
    stop: Stop
    gone: frozenset[str]

    @property
    def thing(self) -> Part:
        """What stands in the way."""
        return self.site.find(self.stop.standing)

    @property
    def whole_thing(self) -> tuple[Part, ...]:
        """All parts of what stands in the way (a socket's plate and box), and what its drawers and doors take."""
        thing = self.thing
        if thing.obstacle is None:
            return (thing,)
        roles = {thing.role, *SWEPT_ROLES}
        return tuple(p for p in self.site.scene.room if p.obstacle == thing.obstacle and p.role in roles)


def remedy_of(case: Blockade) -> str:
    """What would free the step of this stop. A thing that stands in the piece's final place is moved clear of that
    too, and of every other step.
    """
    thing = case.thing
    ways: list[str] = []
    if thing.role == "obstacle":
        ways = [*_moved(case), *([] if case.stop.lasting else _taken_off(case))]
    elif case.stop.lasting:
        ways = []
    elif thing.role == "bracket" and thing.piece not in case.site.marks:
        ways = list(_moved(case))
    elif thing.role not in ROOM_ROLES and thing.piece not in case.site.marks:
        ways = list(_before(case))
    if not ways:
        ways = list(_end_back(case))
    if not ways and case.stop.lasting:
        return KEEP_CLEAR
    if not ways:
        return "Seek another order of fitting, or take another joint at the corner."
    said = "; or ".join(ways)
    return said[:1].upper() + said[1:] + "."


def is_free(site: Site, gone: Collection[str] = ()) -> bool:
    """Whether the step goes by some approach, the work by hand and its bent hoses included."""
    if site.step.kind == "brackets":
        return goes(site, bracket_ways(site), gone)
    if not goes(site, hand_ways(site), gone) or hose_stop(site, gone) is not None:
        return False
    return any(goes(site, piece_ways(site, a), gone) for a in approaches(site.family, site.group))


def goes_with(every: Sequence[Site], moved: Mapping[str, Part]) -> bool:
    """Whether every step that would go if some parts were not there goes with them where they are moved to."""
    asked = [s for s in every if s.step.kind in ("piece", "brackets")]
    return all(is_free(_with(s, moved)) for s in asked if is_free(s, moved))


def _moved(case: Blockade) -> Iterator[str]:
    """The shortest move of the thing along the wall, out from it or up that frees this step and stops no other."""
    lengths: list[tuple[float, str]] = []
    frame = case.site.group[0] if case.site.group else case.site.pieces[str(case.site.find(case.stop.mover).piece)]
    low = min(_box_low_mm(case.site, p) for p in case.whole_thing if p.role not in SWEPT_ROLES)
    for way, words in WAYS:
        if (way[2] and low < OFF_FLOOR_MM) or (case.thing.role == "bracket" and not way[0]):
            continue
        direction = room_vector(frame, way)
        most = min([FURTHEST_MM, *(length for length, _ in lengths)])
        length = _least(partial(_goes_moved, case, direction), most)
        if length is not None:
            lengths.append((length, words))
    if lengths:
        length, words = min(lengths)
        yield f"move {case.thing.obstacle or case.thing.name} {length:g} mm {words}"


def _taken_off(case: Blockade) -> Iterator[str]:
    """Off while the piece goes up: a thing that is no pipe and stands in no piece's place."""
    if isinstance(case.thing.spec, CylinderSpec):
        return
    if is_free(case.site, {*case.gone, *(p.id for p in case.whole_thing)}):
        yield f"take {case.thing.obstacle} off until {case.site.name} is up"


def _before(case: Blockade) -> Iterator[str]:
    """This piece before the one whose part stands in the way, when that one goes up after it as well."""
    mark = case.thing.piece
    theirs = {p.id for p in case.site.scene.fitted if p.piece == mark and p.role not in ("bracket", "packer", "cradle")}
    other = next((s for s in case.every if mark in s.marks), None)
    if other is None or not is_free(case.site, {*case.gone, *theirs}):
        return
    mine = (*case.site.step.travels, *case.site.step.follows)
    later = replace(other, standing=(*other.standing, *(case.site.find(i) for i in mine)))
    if is_free(later):
        yield f"put {case.site.name} up before {mark}"


def _end_back(case: Blockade) -> Iterator[str]:
    """A run's or dry piece's free end further back from what its last piece meets beyond it: so far that it meets
    nothing else either, where that can be.
    """
    if case.site.far is not None or not case.site.group:
        return
    lengths = (_least(partial(_shorter_goes, case, gone), FURTHEST_MM) for gone in (frozenset[str](), case.gone))
    length = next((mm for mm in lengths if mm is not None), None)
    if length is None:
        return
    last = case.site.group[-1]
    end = last.far_mm + last.sense * (last.end.allowance_mm + last.growth_gap_mm - length)
    at = math.floor(end + 1e-6) if last.sense > 0 else math.ceil(end - 1e-6)
    what = f"run {last.run}" if last.run is not None else f"dry piece {last.mark}"
    yield f"end {what} {abs(at - end) + length:g} mm further back, at {at:g} on {last.wall.id}"


def _least(free_by: Callable[[float], bool], most_mm: float) -> float | None:
    """About the least length that goes, to a millimetre and with a spare one: the first that does of lengths that
    double, then halved between.
    """
    low, high = 0.0, 2.0
    while not free_by(high):
        if high >= most_mm:
            return None
        low, high = high, min(2.0 * high, most_mm)
    while high - low > 0.5:
        middle = (low + high) / 2.0
        low, high = (low, middle) if free_by(middle) else (middle, high)
    length = math.ceil(high + SPARE_MM)
    return float(length) if free_by(float(length)) else None


def _goes_moved(case: Blockade, direction: Vec3, length_mm: float) -> bool:
    """Whether the step goes with the thing moved, and every other, and the thing stands clear of all that is fitted."""
    moved = _moved_parts(case, scale(direction, length_mm))
    if not _clear(case.site, moved) or not is_free(_with(case.site, moved), case.gone):
        return False
    return goes_with(case.every, moved)


def _moved_parts(case: Blockade, by_mm: Vec3) -> dict[str, Part]:
    return {p.id: p.moved(by_mm) for p in case.whole_thing}


def _with(site: Site, changed: Mapping[str, Part]) -> Site:
    """The site with some parts in other places."""
    standing = tuple(changed.get(p.id, p) for p in site.standing)
    return replace(site, standing=standing, by_id={**site.by_id, **changed})


def _clear(site: Site, moved: dict[str, Part]) -> bool:
    """Whether moved parts stand in nothing that is fitted, nor in the walls if they stood clear of them before."""
    for part in moved.values():
        body = site.shapes.body(part)
        before = site.shapes.body(site.find(part.id))
        for other in site.scene.parts:
            if other.id in moved or other.role in FLEXIBLE or other.role in SWEPT_ROLES:
                continue
            if _shares(site, other, body) and (other.role not in ROOM_ROLES or not _shares(site, other, before)):
                return False
    return True


def _shares(site: Site, part: Part, body: MotionBody) -> bool:
    mesh, to = site.shapes.mesh(part).drawn(SKIN_MM), body.placement.inverse() @ part.placement
    middle, other = mesh.box.mean(axis=0), body.mesh.box.mean(axis=0)
    x, y, z = to.point((float(middle[0]), float(middle[1]), float(middle[2])))
    reach = math.dist(mesh.box[0], mesh.box[1]) / 2.0 + math.dist(body.mesh.box[0], body.mesh.box[1]) / 2.0
    return math.dist((x, y, z), other) <= reach and stands_in(mesh, to, body.mesh)


def _box_low_mm(site: Site, part: Part) -> float:
    x, y, z = site.shapes.mesh(part).box.T.tolist()
    return min(part.placement.point(corner)[2] for corner in product(x, y, z))


def _shorter_goes(case: Blockade, gone: Collection[str], by_mm: float) -> bool:
    """Whether the step goes with its last piece cut so much shorter, and all that is at its far end with it."""
    last = case.site.group[-1]
    if last.cut_length_mm - by_mm < last.start.most_insertion_mm + last.end.most_insertion_mm + SHORTEST_SPARE_MM:
        return False
    back = room_vector(last, (-by_mm, 0.0, 0.0))
    changed: dict[str, Part] = {}
    for part in case.site.scene.of_piece(last.mark):
        if isinstance(part.spec, PieceSpec):
            spec = replace(part.spec, length_mm=round(part.spec.length_mm - by_mm, 6))
            at = part.placement if last.sense > 0 else part.placement.moved(back)
            changed[part.id] = replace(part, spec=spec, placement=at)
        elif part.end == "end" and part.id in case.site.step.travels:
            changed[part.id] = part.moved(back)
    scene = Scene(parts=tuple(changed.get(p.id, p) for p in case.site.scene.parts))
    shorter = replace(last, far_mm=last.far_mm - last.sense * by_mm, cut_length_mm=last.cut_length_mm - by_mm)
    site = replace(_with(case.site, changed), scene=scene, group=(*case.site.group[:-1], shorter))
    return is_free(site, gone)
