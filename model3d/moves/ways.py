"""The ways of a step, ready for the engine: what moves through which poses past what stands."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from model3d.families.family import Family
from model3d.geometry.placement import Placement, Vec3, add, length, scale, subtract
from model3d.layout import Joint, Piece
from model3d.layout.allowances import slide_mm
from model3d.motion import MotionBody, Moving, turned_about, turning_steps
from model3d.moves.meant import FLEXIBLE, NOT_STANDING, bends, index_of
from model3d.moves.shapes import BENDS, Shapes
from model3d.scene import Part, Scene
from model3d.steps import Approach, Step
from model3d.steps.moves import room_vector, swing_about_mm
from model3d.steps.poses import NOWHERE, LegPoses, far_link_parts, leg_poses, near_link_parts

SAGITTA_MM = 0.02
BRACKET_FROM_MM = 60.0  # how far out a bracket comes straight to the wall
Shifts = Mapping[str, Vec3]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Way:
    """One leg: ``name`` as the family or the trade has it, its length, the movers and what stands."""

    name: str
    length_mm: float
    movers: tuple[Moving, ...]
    standing: tuple[MotionBody, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Site:
    """A step where it is done: the pieces that go up as one, the joints before and after them (None at the run's ends),
    and all parts that stand by then, room included.
    """

    family: Family
    scene: Scene
    by_id: Mapping[str, Part]
    pieces: Mapping[str, Piece]
    shapes: Shapes
    step: Step
    group: tuple[Piece, ...]
    near: Joint | None
    far: Joint | None
    standing: tuple[Part, ...]

    @property
    def marks(self) -> frozenset[str]:
        """The marks of the pieces."""
        return frozenset(p.mark for p in self.group)

    @property
    def name(self) -> str:
        """The pieces by their marks."""
        return " + ".join(p.mark for p in self.group)

    def find(self, part_id: str) -> Part:
        """The part of an id. Raises KeyError when there is none."""
        return self.by_id[part_id]

    def is_up(self, mark: str) -> bool:
        """Whether the piece of a mark stands already."""
        return any(p.piece == mark and p.role == "piece" for p in self.standing)

    def stands(self, part: Part) -> bool:
        """Whether a part that is there is a body to be missed: no O-ring, no swing of a door; of hoses those that lie
        at rest between two pieces that are up, but not those that this step bends.
        """
        if part.role in NOT_STANDING or part.role == "o-ring":
            return False
        if part.role != "hose":
            return True
        own = {j.mark for j in (self.near, self.far) if j is not None}
        return part.joint not in own and any(index_of(m) == index_of(str(part.piece)) + 1 for m in self._up(part.run))

    def _up(self, run: str | None) -> list[str]:
        return [str(p.piece) for p in self.standing if p.role == "piece" and p.run == run]

    def parts(self, ids: Iterable[str]) -> list[Part]:
        """Parts by id, the flexible ones left out."""
        found = (self.by_id[i] for i in ids)
        return [p for p in found if p.role not in FLEXIBLE]


def piece_ways(site: Site, approach: Approach) -> list[Way]:
    """The legs that put the piece up, coming by an approach."""
    poses = leg_poses(site.scene, site.step, site.group[0], approach)
    turns = [approach.turn_deg if p.leg.name == "offer" and approach.name == "swing" else 0.0 for p in poses]
    return [_leg_way(site, p, turn) for p, turn in zip(poses, turns, strict=True)]


def hand_ways(site: Site) -> list[Way]:
    """What is done by hand: elbows pushed home on the bench; once the piece is up, elbows drawn out and links pushed
    in, at its own ends and at the near end of a piece beyond it that is up.
    """
    step, ways = site.step, []
    home, out = ({s.part: s.by_mm for s in shifts} for shifts in (step.pushed_home, step.drawn_out))
    if home:
        last = site.group[-1]
        clear = last.end.most_insertion_mm + 2.0
        outside = {i: add(by, room_vector(last, (clear, 0.0, 0.0))) for i, by in home.items()}
        others = [p for p in site.parts(step.travels) if p.id not in home]
        ways.append(_hand_way(site, "push-home", outside, home, others))
        others = [*site.standing, *others, *(p for p in site.parts(s.part for s in step.waiting))]
        ways.append(_hand_way(site, "draw-out", home, out, others))
    links = [i for i in far_link_parts(site.scene, site.group[-1]) if i in step.follows]
    if links:
        before = room_vector(site.group[-1], (slide_mm(site.family, "link"), 0.0, 0.0))
        others = [*site.standing, *site.parts(step.travels)]
        ways.append(_hand_way(site, "insert", dict.fromkeys(links, before), dict.fromkeys(links, NOWHERE), others))
    if step.near_by_hand and site.near is not None and site.is_up(site.near.earlier):
        ways += _near_pushed_in(site, site.near.later)
    if site.far is not None and site.is_up(site.far.later):
        ways += _near_pushed_in(site, site.far.later)
    return ways


def _near_pushed_in(site: Site, mark: str) -> list[Way]:
    """A link's spigots pushed by hand into the near end of the later piece, when both are up."""
    piece = site.pieces[mark]
    links = near_link_parts(site.scene, piece)
    if not site.parts(links):
        return []
    out = room_vector(piece, (-slide_mm(site.family, "link"), 0.0, 0.0))
    others = [p for p in (*site.standing, *site.parts(site.step.travels)) if p.id not in links]
    return [_hand_way(site, "insert", dict.fromkeys(links, out), dict.fromkeys(links, NOWHERE), others)]


def bracket_ways(site: Site) -> list[Way]:
    """Brackets and cradles that come straight to the wall, each on its own."""
    found = []
    still = _bodies(site, site.standing, {})
    for part in (site.find(i) for i in site.step.follows):
        if part.role in BENDS:
            start = part.placement.moved(scale(part.placement.y_axis, BRACKET_FROM_MM))
            mover = Moving(id=part.id, mesh=site.shapes.mesh(part), poses=(start, part.placement))
            found.append(Way(name=part.role, length_mm=BRACKET_FROM_MM, movers=(mover,), standing=still))
    return found


def _leg_way(site: Site, poses: LegPoses, turn_deg: float) -> Way:
    movers = site.parts(poses.before)
    others = [p for p in site.standing if p.id not in poses.before]
    mine = f"{site.group[0].mark}/piece"
    straight = length(subtract(poses.after[mine], poses.before[mine]))
    return Way(
        name=poses.leg.name,
        length_mm=straight if turn_deg == 0.0 else _swung_mm(site, turn_deg),
        movers=_movers(site, poses, movers, turn_deg),
        standing=_bodies(site, others, poses.standing, leg=poses.leg.name),
    )


def _hand_way(site: Site, name: str, before: Shifts, after: Shifts, others: Sequence[Part]) -> Way:
    movers = tuple(
        Moving(
            id=p.id,
            mesh=site.shapes.mesh(p),
            poses=(p.placement.moved(before[p.id]), p.placement.moved(after[p.id])),
        )
        for p in site.parts(before)
    )
    first = next(iter(before))
    return Way(
        name=name,
        length_mm=length(subtract(after[first], before[first])),
        movers=movers,
        standing=_bodies(site, [p for p in others if p.id not in before], {}),
    )


def _bodies(site: Site, parts: Iterable[Part], shifts: Shifts, *, leg: str = "") -> tuple[MotionBody, ...]:
    """Standing parts as bodies; of those that bend on this leg the bent ones as well."""
    found: list[MotionBody] = []
    for part in parts:
        if site.stands(part):
            found.append(site.shapes.body(part, shifts.get(part.id, NOWHERE)))
            if bends(part, leg, site.marks):
                found += site.shapes.as_bent(part)
    return tuple(found)


def _movers(site: Site, poses: LegPoses, movers: Sequence[Part], turn_deg: float) -> tuple[Moving, ...]:
    """Straight from each place to the next, or swinging in about the upright at the near end."""
    after = {p.id: p.placement.moved(poses.after[p.id]) for p in movers}
    if turn_deg == 0.0:
        ends = [(p, (p.placement.moved(poses.before[p.id]), after[p.id])) for p in movers]
        return tuple(Moving(id=p.id, mesh=site.shapes.mesh(p), poses=at) for p, at in ends)
    first = site.group[0]
    about = swing_about_mm(site.family, first, poses.leg.to_mm)
    reach = max(_reach_mm(site, p, after[p.id], about) for p in movers)
    found = []
    for part in movers:
        swung = turned_about(after[part.id], about, turn_deg * first.sense)  # the far end out in the room
        steps = turning_steps(swung, about, -turn_deg * first.sense, reach, SAGITTA_MM)
        found.append(Moving(id=part.id, mesh=site.shapes.mesh(part), poses=tuple(steps)))
    return tuple(found)


def _reach_mm(site: Site, part: Part, at: Placement, about: Vec3) -> float:
    corners = site.shapes.mesh(part).box
    x, y, _ = at.inverse().point(about)
    far = np.max(np.abs(corners[:, :2] - np.array([x, y])), axis=0)
    return float(np.hypot(*far))


def _swung_mm(site: Site, turn_deg: float) -> float:
    """The way of the far end on the arc."""
    return math.radians(turn_deg) * sum(p.cut_length_mm for p in site.group)
