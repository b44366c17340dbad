"""How hard each step of an order is, and each corner, from what was worked out of its moves and the room about it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from model3d.layout import Joint, Piece
from model3d.motion import Nearest
from model3d.moves.shapes import part_id
from model3d.moves.trying import least_clearance
from model3d.moves.ways import Site
from model3d.order.blocking import Blocking, WayUp
from model3d.order.job import Job, things_of
from model3d.order.reach import END, Free, above_end, before_end, before_screw
from model3d.order.seek import Tick
from model3d.order.values import Sought, Turn
from model3d.steps import Step
from model3d.steps.difficulty import Circumstances, Difficulty, difficulty
from model3d.steps.words import together_below_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class RatedStep:
    """A step that puts pieces up, and how hard it is."""

    number: int
    title: str
    pieces: tuple[str, ...]
    found: Circumstances

    @property
    def difficulty(self) -> Difficulty:
        """By the rule."""
        return difficulty(self.found)


@dataclass(frozen=True, slots=True, kw_only=True)
class RatedCorner:
    """A joint made on the wall, at a corner (None: in-line), and how hard it is; ``step`` is the one that closes it."""

    joint: str
    kind: str
    corner: str | None
    wall: str
    turn_deg: float
    earlier: str
    later: str
    step: int
    found: Circumstances

    @property
    def difficulty(self) -> Difficulty:
        """By the rule."""
        return difficulty(self.found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rating:
    """All steps that put pieces up, in turn; the corners, hardest first."""

    steps: tuple[RatedStep, ...]
    corners: tuple[RatedCorner, ...]

    @property
    def by_step(self) -> Mapping[int, Difficulty]:
        """How hard the steps are, by their numbers."""
        return {s.number: s.difficulty for s in self.steps}

    def told(self, steps: Iterable[Step]) -> tuple[Step, ...]:
        """The steps that were rated, each with how hard it is, for pictures and sheets to say."""
        return tuple(replace(s, difficulty=self.by_step.get(s.number)) for s in steps)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Seen:
    """A turn with the step where it is done, and how near its piece comes to anything."""

    turn: Turn
    site: Site
    nearest: Nearest | None


def rate(job: Job, sought: Sought, *, tick: Tick | None = None) -> Rating:
    """The difficulty of every step of an order and of every corner whose joint is closed in it."""
    blocking = Blocking(job=job, things=things_of(job))
    seen: list[_Seen] = []
    there: set[str] = set()
    for turn in sought.turns:
        if tick is not None:
            tick(turn.step.title, len(seen), len(sought.turns))
        if turn.step.kind == "piece" and turn.thing is not None and turn.step.approach is not None:
            seen.append(_looked_at(blocking, turn, frozenset(there)))
        there |= {turn.thing} if turn.thing is not None else set()
    steps = tuple(_step(job, s) for s in seen)
    corners = [c for j in job.joints if (c := _corner(job, j, seen)) is not None]
    return Rating(steps=steps, corners=tuple(sorted(corners, key=_hardest_first)))


def rate_usual(job: Job, steps: Sequence[Step]) -> Rating:
    """The difficulty of the usual order's steps, each by the approach that it is given here, whether or not the order
    goes; no other order is sought.
    """
    names = {thing.step: thing.name for thing in things_of(job).all}
    turns = tuple(Turn(step=step, thing=names.get(step.number)) for step in steps)
    return rate(job, Sought(usual=True, turns=turns))


def _looked_at(blocking: Blocking, turn: Turn, there: frozenset[str]) -> _Seen:
    thing = blocking.things.named[str(turn.thing)]
    way = WayUp(approach=turn.step.approach.name if turn.step.approach else "", near=turn.near)
    site = blocking.site(thing, way, there)
    return _Seen(turn=turn, site=site, nearest=least_clearance(site, blocking.legs(thing, way, there)))


def _hardest_first(corner: RatedCorner) -> tuple[float, bool, float]:
    """By points; of equals links fed round first, then by what there is to spare."""
    points = sum(r.points for r in corner.difficulty.reasons)
    clearance = corner.found.clearance_mm
    return (-points, not corner.found.fed_round, clearance if clearance is not None else math.inf)


def _step(job: Job, seen: _Seen) -> RatedStep:
    turn, site = seen.turn, seen.site
    found = Circumstances(snags=len(turn.step.snags), bent_by_hand=turn.step.links_into is not None)
    if site.near is not None:
        found = _with_joint(job, found, site.near, seen, _ends(site.near, site.pieces)[1:])
    if site.far is not None:
        found = _with_hands(job, found, site.far, _ends(site.far, site.pieces)[:1])
    return RatedStep(
        number=turn.step.number,
        title=turn.step.title,
        pieces=turn.step.pieces,
        found=_with_clearance(found, seen.site, seen.nearest),
    )


def _corner(job: Job, joint: Joint, every: Iterable[_Seen]) -> RatedCorner | None:
    """A joint that is closed by one of the steps; None for one made on the bench or not closed."""
    seen = list(every)
    later = next((s for s in seen if joint.later in s.site.marks), None)
    earlier = next((s for s in seen if joint.earlier in s.site.marks), None)
    if later is None or joint.kind == "coupler":
        return None
    closing = max((s for s in (earlier, later) if s is not None), key=lambda s: s.turn.step.number)
    snags = [s for s in later.turn.step.snags if s.end == "start"]
    snags += [s for s in earlier.turn.step.snags if s.end == "end"] if earlier is not None else []
    by_hand = earlier is not None and earlier.turn.step.links_into == joint.later
    found = Circumstances(bent_by_hand=by_hand, snags=len(snags))
    found = _with_joint(job, found, joint, later, _ends(joint, later.site.pieces))
    for each in (s for s in (earlier, later) if s is not None and _is_at(s, joint)):
        found = _with_clearance(found, each.site, each.nearest)
    return RatedCorner(
        joint=joint.mark,
        kind=joint.kind,
        corner=joint.corner.id if joint.corner is not None else None,
        wall=joint.wall.id,
        turn_deg=joint.turn_deg,
        earlier=joint.earlier,
        later=joint.later,
        step=closing.turn.step.number,
        found=found,
    )


def _ends(joint: Joint, pieces: Mapping[str, Piece]) -> tuple[tuple[Piece, END], ...]:
    return ((pieces[joint.earlier], "end"), (pieces[joint.later], "start"))


def _with_joint(
    job: Job, found: Circumstances, joint: Joint, later: _Seen, ends: Iterable[tuple[Piece, END]]
) -> Circumstances:
    """What closing a joint brings with it, when its later piece goes onto it or its links follow by hand."""
    joined = later.turn.near == "joined" and any(p.piece == joint.earlier for p in later.site.standing)
    short = sum(p.cut_length_mm for p in later.site.group) < together_below_mm(job.family)
    both = short and later.site.far is not None and later.site.far.kind == "elbow"
    found = replace(
        found,
        joints_at_once=(2 if both else 1) if joined else 0,
        fed_round=joined and joint.kind == "link" and joint.turn_deg < 0.0,
        bent_by_hand=found.bent_by_hand or (joint.kind == "link" and later.turn.near == "by hand"),
    )
    return _with_hands(job, found, joint, ends)


def _with_hands(job: Job, found: Circumstances, joint: Joint, ends: Iterable[tuple[Piece, END]]) -> Circumstances:
    """Room for hands at these ends of a joint, for a screwdriver when it is a link; the least so far counts."""
    room = job.scene.room
    above, front = (Free(distance_mm=d, what=w) for d, w in _so_far(found))
    for piece, end in ends:
        above = _less(above, above_end(job.shapes, room, piece, end))
        front = _less(front, before_end(job.shapes, room, piece, end))
    found = replace(
        found,
        above_mm=above.distance_mm,
        above_what=above.what,
        front_mm=front.distance_mm,
        front_what=front.what,
    )
    if joint.kind != "link":
        return found
    spigots = [p for p in job.scene.fitted if p.joint == joint.mark and p.role == "spigot"]
    before = _less(Free(distance_mm=found.screw_mm, what=found.screw_what), before_screw(job.shapes, room, spigots))
    asked = job.family.link.screw_room_mm
    return replace(found, screw_mm=before.distance_mm, screw_what=before.what, screw_asked_mm=asked)


def _so_far(found: Circumstances) -> tuple[tuple[float | None, str], tuple[float | None, str]]:
    return (found.above_mm, found.above_what), (found.front_mm, found.front_what)


def _less(a: Free, b: Free) -> Free:
    if a.distance_mm is None or (b.distance_mm is not None and b.distance_mm < a.distance_mm):
        return b
    return a


def _with_clearance(found: Circumstances, site: Site, nearest: Nearest | None) -> Circumstances:
    if nearest is None or (found.clearance_mm is not None and found.clearance_mm <= nearest.distance_mm):
        return found
    other = site.find(part_id(nearest.standing))
    return replace(found, clearance_mm=nearest.distance_mm, clearance_from=other.obstacle or other.name)


def _is_at(seen: _Seen, joint: Joint) -> bool:
    """Whether a step comes nearest to something at this joint: a part of the joint does, or it is at that end."""
    if seen.nearest is None:
        return False
    parts = [seen.site.find(part_id(i)) for i in (seen.nearest.mover, seen.nearest.standing)]
    if any(p.joint is not None for p in parts):
        return any(p.joint == joint.mark for p in parts)
    x, y, _ = seen.nearest.place_mm
    first, last = seen.site.group[0], seen.site.group[-1]
    near, far = (math.dist((x, y), p.wall.point_mm(at)) for p, at in ((first, first.near_mm), (last, last.far_mm)))
    mine = "start" if joint.later in seen.site.marks else "end"
    return mine == ("start" if near <= far else "end")
