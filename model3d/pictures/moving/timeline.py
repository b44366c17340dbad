"""When and where the parts of a step are: the legs of its move one after the other, then the work by hand. Numbers.

A part's move is a placement of the room frame that takes it from its final place to where it is at the time.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from model3d.families.family import Family
from model3d.geometry.placement import Placement, Vec3, add, scale, subtract, turned_about_z
from model3d.layout import Piece
from model3d.layout.allowances import slide_mm
from model3d.scene import Scene
from model3d.steps import Action, Shift, Step
from model3d.steps.moves import room_vector, swing_about_mm
from model3d.steps.poses import leg_poses, near_link_parts

SECONDS = {"offer": 1.2, "raise": 0.6, "slide": 0.8, "engage": 0.8, "press": 0.7}
SECONDS |= {"draw-out": 0.8, "insert": 0.9, "push-in": 0.9}
REST_S = 0.5
NOWHERE: Vec3 = (0.0, 0.0, 0.0)
Moves = Mapping[str, Placement]


@dataclass(frozen=True, slots=True, kw_only=True)
class Phase:
    """A stretch of time in which parts go straight, or turn, from one place to another.

    ``before`` and ``after`` are shifts from the final places; ``still`` those of parts that wait elsewhere meanwhile;
    ``hidden`` are not there yet. ``turn`` is the foot of the upright turned about and the angle that is left at the
    start, for a swing. ``hose_end`` names the part whose shift the later end of the near link's hoses shares.
    """

    name: str
    label: str
    text: str
    seconds: float
    before: Mapping[str, Vec3]
    after: Mapping[str, Vec3]
    still: Mapping[str, Vec3]
    hidden: frozenset[str] = frozenset()
    turn: tuple[Vec3, float] | None = None
    hose_end: str | None = None

    def shift(self, part_id: str, share: float) -> Vec3:
        """How far a part is from its final place when ``share`` of the time has passed, turning apart."""
        if part_id in self.before:
            start, end = self.before[part_id], self.after[part_id]
            return add(start, scale(subtract(end, start), share))
        return self.still.get(part_id, NOWHERE)

    def move(self, part_id: str, share: float) -> Placement:
        """The placement, room frame, that takes a part from its final place to where it is."""
        if self.turn is None or part_id not in self.before:
            return Placement(origin_mm=self.shift(part_id, share))
        about, whole = self.turn
        turn = turned_about_z(whole * (1.0 - share))
        swung = Placement(
            origin_mm=subtract(about, turn.vector(about)), x_axis=turn.x_axis, y_axis=turn.y_axis, z_axis=turn.z_axis
        )
        return swung @ Placement(origin_mm=self.after[part_id])


def eased(share: float) -> float:
    """A share of the time as a share of the way: it sets out and comes in gently."""
    return share * share * (3.0 - 2.0 * share)


def timeline(
    family: Family, scene: Scene, step: Step, group: Sequence[Piece], beyond: Piece | None = None
) -> tuple[Phase, ...]:
    """The phases of a step that puts pieces up: its legs by the approach it has, then elbows drawn out or links put in;
    into ``beyond`` as well, the piece past the far end that is up already.

    Empty for a step that moves nothing.
    """
    if not step.legs or not group:
        return ()
    late = frozenset(i for i in step.follows if scene.part(i).role not in ("end-cap", "trim", "bracket", "packer"))
    texts = {a.label: a.text for a in step.actions if a.label}
    return (
        *_legs(family, scene, step, group, texts, late),
        *_by_hand(family, step, group, texts, late, _aside(family, scene, beyond)),
        *_near_by_hand(step, _aside(family, scene, group[0] if step.links_from is not None else None)),
    )


def _legs(
    family: Family, scene: Scene, step: Step, group: Sequence[Piece], texts: Mapping[str, str], late: frozenset[str]
) -> Iterable[Phase]:
    held = near_link_parts(scene, group[0])
    aside = _aside(family, scene, group[0] if step.links_from is not None else None)
    for number, poses in enumerate(leg_poses(scene, step, group[0]), 1):
        turn = None
        if poses.leg.name == "offer" and step.approach is not None and step.approach.name == "swing":
            about = swing_about_mm(family, group[0], poses.leg.to_mm)
            turn = (about, step.approach.turn_deg * group[0].sense)
        yield Phase(
            name=poses.leg.name,
            label=str(number),
            text=texts.get(str(number), ""),
            seconds=SECONDS[poses.leg.name],
            before=poses.before,
            after=poses.after,
            still={**poses.standing, **aside},
            hidden=late,
            turn=turn,
            hose_end=held[0] if held else None,
        )


def _by_hand(
    family: Family,
    step: Step,
    group: Sequence[Piece],
    texts: Mapping[str, str],
    late: frozenset[str],
    aside: Mapping[str, Vec3],
) -> Iterable[Phase]:
    label = str(len(step.legs) + 1)
    text = texts.get(label, "")
    if step.drawn_out:
        home, out = _of(step.pushed_home), _of(step.drawn_out)
        yield Phase(
            name="draw-out",
            label=label,
            text=text,
            seconds=SECONDS["draw-out"],
            before=home,
            after=out,
            still={},
            hidden=late,
        )
    elif late:
        start = room_vector(group[-1], (slide_mm(family, "link"), 0.0, 0.0))
        after = dict.fromkeys(late, NOWHERE) | dict(aside)
        yield Phase(
            name="insert",
            label=label,
            text=text,
            seconds=SECONDS["insert"],
            before={i: add(start, after[i]) for i in late},
            after=after,
            still={},
            hose_end=next(iter(aside), None),
        )
        if aside:
            yield _pushed_in("insert", step.actions[-1], aside)


def _near_by_hand(step: Step, aside: Mapping[str, Vec3]) -> Iterable[Phase]:
    """The links of the near end pushed in when the piece is up."""
    if aside:
        last = [a for a in step.actions if a.label]
        yield _pushed_in("push-in", last[-1], aside)


def _aside(family: Family, scene: Scene, piece: Piece | None) -> dict[str, Vec3]:
    """The link's parts of a piece's near end, held out of its bores before they are pushed in by hand."""
    if piece is None:
        return {}
    out = room_vector(piece, (-slide_mm(family, "link"), 0.0, 0.0))
    return dict.fromkeys(near_link_parts(scene, piece), out)


def _pushed_in(name: str, action: Action, aside: Mapping[str, Vec3]) -> Phase:
    return Phase(
        name=name,
        label=action.label,
        text=action.text,
        seconds=SECONDS[name],
        before=aside,
        after=dict.fromkeys(aside, NOWHERE),
        still={},
        hose_end=next(iter(aside)),
    )


def _of(shifts: Iterable[Shift]) -> dict[str, Vec3]:
    return {s.part: s.by_mm for s in shifts}
