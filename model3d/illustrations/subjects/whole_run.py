"""Steps that put no piece up: brackets, the pressure test, trims and end caps, on the whole run from above."""

from __future__ import annotations

from dataclasses import replace

from model3d.geometry.placement import Vec3, scale
from model3d.illustrations.picture import Flag, Item, Job, Path3, Setting
from model3d.illustrations.strokes import Shown
from model3d.illustrations.subjects.naming import items
from model3d.illustrations.subjects.placing import NOWHERE, as_is
from model3d.illustrations.subjects.plain import FAR_OFF, from_above, soft
from model3d.layout import Joint
from model3d.scene import Part
from model3d.steps import Step, up_already

_UP = FAR_OFF | {"bracket", "cradle", "packer", "elbow", "hose", "coupler"}
_THINGS = frozenset({"floor", "casing", "sill", "obstacle"})
LOW_MM = 200.0
_TURNS = (0.55, -0.55, 1.1, -1.1)


def whole_run(job: Job, step: Step) -> Setting:
    """The room without its walls and what is up by this step; what is new in a colour and called out, in the pressure
    test every joint by its mark.
    """
    up = {i for s in job.steps[: step.number - 1] for i in (*s.travels, *s.follows)}
    up |= set(up_already(job.layout, job.scene))
    new = [p for p in job.scene.fitted if p.id in step.follows]
    there = [p for p in job.scene.fitted if p.id in up and p.role in _UP and p not in new]
    shown: list[Shown] = [one for p in job.scene.room if p.role in _THINGS for one in [soft(p)] if _stands(one)]
    shown += [as_is(p) for p in there]
    shown += [as_is(p, NOWHERE, "new-tint") for p in new]
    ways = _directions(job)
    return Setting(
        shown=tuple(shown),
        toward=ways[0],
        others=ways[1:],
        room_lines=tuple(_floor_lines(job)),
        items=_called_out(job, step, new),
        flags=tuple(_joint_flags(job, step)) if step.kind == "pressure-test" else (),
    )


def _stands(thing: Shown) -> bool:
    """Whether a thing of the room stands low, and does not hang on a wall that is left out."""
    return float(thing.body.corners_mm[..., 2].min()) < LOW_MM


def _directions(job: Job) -> tuple[Vec3, ...]:
    """From over the room on each of its sides, steeper and flatter."""
    own = tuple(from_above(job, turn=turn) for turn in _TURNS)
    return (*own, *((-x, -y, z) for x, y, z in own))


def _called_out(job: Job, step: Step, new: list[Part]) -> tuple[Item, ...]:
    """Brackets one balloon a wall, covers one each."""
    where = {p.id: p.wall or "" if step.kind == "brackets" else p.id for p in new}
    return tuple(_named(job, item) for item in items(((p, where[p.id]) for p in new), job.words))


def _named(job: Job, item: Item) -> Item:
    """A trim by the joint that it goes over."""
    first = job.scene.part(item.places[0][0])
    joint = next((j for run in job.layout.runs for j in run.joints if j.mark == first.joint), None)
    if first.role != "trim" or joint is None:
        return item
    kind = "in-line" if joint.corner is None else "internal" if joint.turn_deg > 0 else "external"
    return replace(item, name=job.words.say(f"part.trim-{kind}", deg=round(180.0 - abs(joint.turn_deg), 1)))


def _joint_flags(job: Job, step: Step) -> list[Flag]:
    """Every joint of the run by its mark, at the front of its top."""
    run = next(run for run in job.layout.runs if run.id == step.run)
    return [Flag(text=joint.mark, at_mm=_middle(job, joint)) for joint in run.joints]


def _middle(job: Job, joint: Joint) -> Vec3:
    """The middle of a joint, at the height of its upper waterway."""
    parts = [p.placement.origin_mm for p in job.scene.fitted if p.joint == joint.mark and p.role != "trim"]
    middle = [sum(at[k] for at in parts) / len(parts) for k in (0, 1)]
    return (middle[0], middle[1], max(at[2] for at in parts))


def _floor_lines(job: Job) -> list[Path3]:
    """The foot of every wall."""
    found: list[Path3] = []
    for wall in job.room.walls:
        back = scale((wall.normal[0], wall.normal[1], 0.0), 0.5)
        a, b = (wall.frame.point((x, 0.0, 0.5)) for x in (0.0, wall.length_mm))
        found.append(tuple((p[0] + back[0], p[1] + back[1], p[2]) for p in (a, b)))
    return found
