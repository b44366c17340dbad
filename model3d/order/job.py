"""A plan taken to its steps, and what of it goes up or comes off as one thing, in the usual order."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Literal

from model3d.families.family import Family
from model3d.layout import Joint, Layout, Piece, lay_out
from model3d.moves import Shapes
from model3d.moves.sites import sites
from model3d.moves.ways import Site
from model3d.order.letting_go import lets_go
from model3d.order.reach import before_screw
from model3d.rooms import CheckedPlan
from model3d.scene import Scene, compose
from model3d.steps import Step, plan_steps, up_already

ThingKind = Literal["brackets", "piece", "covers"]


@dataclass(frozen=True, kw_only=True, eq=False)
class Job:
    """A plan, its family, and all that follows from them; ``shapes`` keeps meshes and answers for the next question."""

    plan: CheckedPlan
    family: Family
    layout: Layout
    scene: Scene
    steps: tuple[Step, ...]
    shapes: Shapes

    @cached_property
    def sites(self) -> Mapping[int, Site]:
        """Every step where it is done, by its number."""
        return {s.step.number: s for s in sites(self.layout, self.scene, self.steps, self.shapes)}

    @cached_property
    def joints(self) -> tuple[Joint, ...]:
        """The joints of all runs."""
        return tuple(j for run in self.layout.runs for j in run.joints)

    @cached_property
    def let_go(self) -> frozenset[str]:
        """Marks of the links that can be let go by hand between two pieces that are up: their hoses bear it, and a
        screwdriver reaches their screws.
        """
        return frozenset(j.mark for j in self.joints if lets_go(self.family, j) and self._screws_reached(j))

    def _screws_reached(self, joint: Joint) -> bool:
        spigots = [p for p in self.scene.fitted if p.joint == joint.mark and p.role == "spigot"]
        free = before_screw(self.shapes, self.scene.room, spigots).distance_mm
        return free is None or free >= self.family.link.screw_room_mm

    @cached_property
    def always_there(self) -> frozenset[str]:
        """Ids of what stands before the first step: the room, and what was fitted earlier."""
        return frozenset({*(p.id for p in self.scene.room), *up_already(self.layout, self.scene)})


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """What goes up or comes off as one: the brackets of a step, the pieces of a step with their fittings, or covers.

    ``parts`` are the ids of what is there once it is up; ``marks`` the pieces it is, or that covers are pushed over.
    """

    name: str
    kind: ThingKind
    step: int
    parts: tuple[str, ...]
    marks: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Things:
    """All things of a job in their usual order, and what needs what: a later piece the earlier one where their joint
    does not let go by hand; covers their pieces; pieces their brackets.
    """

    all: tuple[Thing, ...]
    attached: Mapping[str, frozenset[str]] = field(default_factory=dict)
    rests_on: Mapping[str, frozenset[str]] = field(default_factory=dict)

    @cached_property
    def named(self) -> Mapping[str, Thing]:
        """The things by name."""
        return {t.name: t for t in self.all}

    @cached_property
    def of_mark(self) -> Mapping[str, Thing]:
        """The things that pieces belong to, by the piece's mark."""
        return {mark: t for t in self.all if t.kind == "piece" for mark in t.marks}

    @cached_property
    def owner(self) -> Mapping[str, str]:
        """The name of the thing that a part belongs to, by the part's id."""
        return {part: thing.name for thing in self.all for part in thing.parts}


def job_of(plan: CheckedPlan, family: Family, *, shapes: Shapes | None = None) -> Job:
    """A checked plan laid out and taken to its steps. Raises ValueError when its layout is refused."""
    layout = lay_out(plan, family)
    if plan.as_cut or plan.fitted:
        from model3d.as_cut import with_cuts

        layout = with_cuts(plan, layout, family).layout
    scene = compose(plan.room, layout, family)
    steps = plan_steps(layout, scene, family)
    shapes = Shapes(family=family) if shapes is None else shapes
    return Job(plan=plan, family=family, layout=layout, scene=scene, steps=steps, shapes=shapes)


def with_all_to_fit(job: Job) -> Job:
    """The job as if no piece were up yet, so that every piece has its step."""
    layout = replace(
        job.layout,
        runs=tuple(replace(run, pieces=_not_up(run.pieces)) for run in job.layout.runs),
        dry_pieces=_not_up(job.layout.dry_pieces),
    )
    return replace(job, layout=layout, steps=plan_steps(layout, job.scene, job.family))


def _not_up(pieces: Sequence[Piece]) -> tuple[Piece, ...]:
    return tuple(replace(p, fitted=False) for p in pieces)


def things_of(job: Job, *, each_cover: bool = False) -> Things:
    """The things of a job. Covers are one thing a run, put on when all its pieces are up and tested; with
    ``each_cover`` every trim and end cap is one, on the pieces that it covers.
    """
    found: list[Thing] = []
    for step in job.steps:
        found += _of_step(job, step, each_cover=each_cover)
    things = Things(all=tuple(found))
    return replace(things, attached=_attached(job, things), rests_on=_rests_on(things))


def _of_step(job: Job, step: Step, *, each_cover: bool) -> Iterator[Thing]:
    if step.kind == "brackets":
        marks = tuple(dict.fromkeys(str(job.scene.part(i).piece) for i in step.follows))
        name = f"brackets of run {step.run}" if step.run is not None else "brackets of the dry pieces"
        yield Thing(name=name, kind="brackets", step=step.number, parts=step.follows, marks=marks)
    elif step.kind == "piece":
        parts = (*step.travels, *step.follows)
        yield Thing(name=" + ".join(step.pieces), kind="piece", step=step.number, parts=parts, marks=step.pieces)
    elif step.kind == "covers" and each_cover:
        for part in (job.scene.part(i) for i in step.follows):
            joined = next(((j.earlier, j.later) for j in job.joints if j.mark == part.joint), (str(part.piece),))
            yield Thing(name=part.name, kind="covers", step=step.number, parts=(part.id,), marks=joined)
    elif step.kind == "covers":
        run = next(r for r in job.layout.runs if r.id == step.run)
        marks = tuple(p.mark for p in run.pieces)
        name = f"trims and end caps of run {step.run}"
        yield Thing(name=name, kind="covers", step=step.number, parts=step.follows, marks=marks)


def _attached(job: Job, things: Things) -> dict[str, frozenset[str]]:
    of_mark = {mark: t.name for mark, t in things.of_mark.items()}
    found: dict[str, set[str]] = {}
    for joint in job.joints:
        earlier, later = of_mark.get(joint.earlier), of_mark.get(joint.later)
        if earlier and later and earlier != later and joint.mark not in job.let_go:
            found.setdefault(later, set()).add(earlier)
    for thing in things.all:
        if thing.kind == "covers":
            found.setdefault(thing.name, set()).update(of_mark[m] for m in thing.marks if m in of_mark)
    return {name: frozenset(on) for name, on in found.items()}


def _rests_on(things: Things) -> dict[str, frozenset[str]]:
    of_mark = {mark: t.name for t in things.all if t.kind == "brackets" for mark in t.marks}
    return {t.name: frozenset(of_mark[m] for m in t.marks if m in of_mark) for t in things.all if t.kind == "piece"}
