"""What stands in the way of the things of a plan, asked of the solids."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass, field, replace
from itertools import product
from typing import Literal

import numpy as np
import numpy.typing as npt

from model3d.families.family import Family
from model3d.layout import Piece
from model3d.motion import contacts
from model3d.moves.by_hand import with_free_near
from model3d.moves.hose_bodies import hose_meets
from model3d.moves.meant import NOT_STANDING, meant_on
from model3d.moves.shapes import part_id
from model3d.moves.ways import Site, Way, bracket_ways, hand_ways, piece_ways
from model3d.order.apart import Assembly
from model3d.order.job import Job, Thing, Things
from model3d.scene import Part
from model3d.steps import Approach
from model3d.steps.moves import approaches

Near = Literal["joined", "by hand"]
Box = npt.NDArray[np.float64]
FURTHEST_OFF_MM = 100.0  # nothing is held further off than this before it is pushed in or put to the wall


@dataclass(frozen=True, slots=True, kw_only=True)
class WayUp:
    """How a thing goes up, and backwards how it comes off: by which approach of its family; its near end onto what
    waits there, or free, its links pushed in by hand afterwards.
    """

    approach: str
    near: Near = "joined"


STRAIGHT = WayUp(approach="straight")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Blocking:
    """Answers what stands in a thing's way when certain other things are there."""

    job: Job
    things: Things
    _boxes: dict[str, Box] = field(default_factory=dict)
    _reach: dict[str, Box] = field(default_factory=dict)

    def ways(self, thing: Thing) -> tuple[WayUp, ...]:
        """The ways of a thing, the usual one first."""
        if thing.kind != "piece":
            return (STRAIGHT,)
        site = self.job.sites[thing.step]
        found = [WayUp(approach=a.name) for a in approaches(self.job.family, site.group)]
        if site.near is not None and site.near.mark in self.job.let_go:
            free = approaches(self.job.family, with_free_near(site).group)
            found += [WayUp(approach=a.name, near="by hand") for a in free]
        return tuple(found)

    def site(self, thing: Thing, way: WayUp, present: Collection[str]) -> Site:
        """The thing's step where it is done with these things there."""
        up = {i for t in self.things.all if t.name in present and t.name != thing.name for i in t.parts}
        there = (p for p in self.job.scene.parts if p.id in self.job.always_there or p.id in up)
        standing = tuple(p for p in there if self._comes_near(thing, p))
        site = replace(self.job.sites[thing.step], standing=standing)
        return with_free_near(site) if way.near == "by hand" else site

    def _comes_near(self, thing: Thing, part: Part) -> bool:
        """Whether the thing could come to a part on any of its ways; no other is asked about."""
        if part.role == "o-ring" or part.role in NOT_STANDING:
            return False
        if thing.name not in self._reach:
            mine = np.array([self._box(p) for p in self.job.sites[thing.step].parts(thing.parts)]).reshape(-1, 2, 3)
            off = _reach_mm(self.job.sites[thing.step])
            low, high = mine[:, 0].min(axis=0, initial=np.inf), mine[:, 1].max(axis=0, initial=-np.inf)
            self._reach[thing.name] = np.array([low - off, high + off])
        low, high = self._reach[thing.name]
        box = self._box(part)
        return bool(np.all(box[0] <= high) and np.all(box[1] >= low))

    def _box(self, part: Part) -> Box:
        """Low and high corner of a part, room frame."""
        if part.id not in self._boxes:
            own = self.job.shapes.mesh(part).box
            corners = [part.placement.point((x, y, z)) for x, y, z in product(*own.T.tolist())]
            self._boxes[part.id] = np.array([np.min(corners, axis=0), np.max(corners, axis=0)])
        return self._boxes[part.id]

    def legs(self, thing: Thing, way: WayUp, present: Collection[str]) -> list[Way]:
        """All that moves when the thing goes up, in turn: its legs, then the work by hand."""
        site = self.site(thing, way, present)
        if thing.kind == "brackets":
            return bracket_ways(site)
        if thing.kind == "covers":
            return []
        approach = approach_named(self.job.family, site.group, way.approach)
        return [*piece_ways(site, approach), *hand_ways(site)]

    def __call__(self, thing: str, way: WayUp, present: frozenset[str]) -> frozenset[str]:
        """All things there, and ids of parts that never go, that stand in the way."""
        moved = self.things.named[thing]
        if moved.kind == "covers":  # pushed on from the front, and pulled off first
            return frozenset()
        site, owner = self.site(moved, way, present), self.things.owner
        met: set[str] = set()
        for leg in self.legs(moved, way, present):
            meant = meant_on(site.family, site.find, leg.name, site.marks)
            for contact in contacts(leg.movers, leg.standing, meant=meant, memo=site.shapes.memo):
                met.add(part_id(contact.standing))
        met |= hose_meets(site) if moved.kind == "piece" else frozenset()
        return frozenset(owner.get(i, i) for i in met)

    def assembly(self) -> Assembly[WayUp]:
        """The whole of it, to be taken apart."""
        return Assembly(
            things=tuple(t.name for t in self.things.all),
            ways={t.name: self.ways(t) for t in self.things.all},
            blockers=self,
            attached=self.things.attached,
            rests_on=self.things.rests_on,
        )

    def is_up(self, mark: str, present: Collection[str]) -> bool:
        """Whether the piece of a mark is among the things present, or was up before the first step."""
        thing = self.things.of_mark.get(mark)
        return thing.name in present if thing is not None else f"{mark}/piece" in self.job.always_there


def approach_named(family: Family, group: Sequence[Piece], name: str) -> Approach:
    """The approach of that name which the family lists for these pieces. Raises KeyError when there is none."""
    for approach in approaches(family, group):
        if approach.name == name:
            return approach
    raise KeyError(name)


def _reach_mm(site: Site) -> float:
    """How far from their final places the parts of a step ever come: by the longest approach, swung or straight, or as
    far as a bracket or a fitting is held off.
    """
    if not site.group:
        return FURTHEST_OFF_MM
    length_mm = sum(p.cut_length_mm for p in site.group)
    every = [*approaches(site.family, site.group), *approaches(site.family, with_free_near(site).group)]
    return FURTHEST_OFF_MM + max(math.hypot(*a.from_mm) + math.radians(abs(a.turn_deg)) * length_mm for a in every)
