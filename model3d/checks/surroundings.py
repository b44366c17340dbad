"""What stands about a run without being in it: whether it leaves the rooms that the work needs, and the clearances."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from model3d.checks.clearances import asked_between
from model3d.checks.engine import Memory, Tolerance
from model3d.checks.free_rooms import FreeRoom, free_rooms
from model3d.checks.gaps import Tight, tight_pairs
from model3d.checks.making_room import remedy_of_lacks, remedy_of_tight
from model3d.checks.room_to_work import Lack, lacking, lacks
from model3d.checks.scene_check import CONTACT, place_of
from model3d.checks.trial import Trial, everywhere
from model3d.families.family import Family
from model3d.findings import Finding
from model3d.layout import Layout
from model3d.scene import Part, Scene
from model3d.scene.values import ROOM_ROLES, SWEPT_ROLES
from model3d.steps import Step


@dataclass(frozen=True, kw_only=True)
class Surroundings:
    """A scene with the steps that put it up. ``memory`` keeps what is worked out of solids; ``fits`` is as for
    ``check_scene``.
    """

    layout: Layout
    scene: Scene
    steps: Sequence[Step]
    family: Family
    memory: Memory = field(default_factory=Memory)
    tolerance: Tolerance = CONTACT
    fits: Callable[[Part], bool] = everywhere

    @cached_property
    def rooms(self) -> tuple[FreeRoom, ...]:
        """The rooms that the work needs."""
        return free_rooms(self.layout, self.scene, self.steps, self.family)

    @cached_property
    def trial(self) -> Trial:
        """For remedies: a thing of the room goes elsewhere only where it leaves all rooms and clearances."""
        return Trial(tolerance=self.tolerance, memory=self.memory, fits=self.fits, asks=self.leaves)

    def leaves(self, thing: Part) -> bool:
        """Whether a thing of the room, put where it is, would leave all rooms and clearances that are asked of it."""
        parts = [p for p in self.scene.parts if p.id != thing.id]
        others = [p for p in parts if p.obstacle is None or p.obstacle != thing.obstacle]
        if any(t.id == thing.id for _, t in lacking(self.rooms, [*others, thing], self.trial)):
            return False
        walls = [p for p in others if p.role == "wall"]
        return not any(t.thing.id == thing.id for t in tight_pairs([thing, *walls], self.scene.fitted, self.trial))

    def findings(self, said: Iterable[Finding] = ()) -> tuple[Finding, ...]:
        """A warning for each kind of room that a thing takes from a run, and for each thing nearer to a run than it may
        be. What an error of ``said`` names already, the thing and a part of the run, is not said again.
        """
        named = [_sides_named(f, self.scene) for f in said if f.severity == "error"]

        def unsaid(thing: Part, part: Part) -> bool:
            sides = {_side(thing), _side(part)}
            return not any(sides <= names for names in named)

        taken: dict[tuple[str, str, str], list[Lack]] = {}
        for lack in lacks(self.rooms, self.scene.parts, self.trial):
            if unsaid(lack.thing, lack.room.serves):
                key = (lack.room.code, _side(lack.thing), _side(lack.room.serves))
                taken.setdefault(key, []).append(lack)
        near: dict[tuple[str, ...], list[Tight]] = {}
        for tight in tight_pairs(self.scene.room, self.scene.fitted, self.trial, unsaid):
            near.setdefault(tuple(sorted((_side(tight.thing), _side(tight.part)))), []).append(tight)
        return (*(self._lacking(g) for g in taken.values()), *(self._tight(g) for g in near.values()))

    def _lacking(self, group: Sequence[Lack]) -> Finding:
        worst = min(group, key=lambda lack: lack.free_mm - lack.room.asked_mm)
        room, thing = worst.room, worst.thing
        places = len({lack.room.where for lack in group}) - 1
        more = f", and takes room in {places} more place(s)" if places else ""
        return Finding(
            code=room.code,
            severity="warning",
            where=place_of(room.serves),
            message=(
                f"{_called(thing)} leaves {worst.free_mm:.1f} mm {room.where}: "
                f"{room.who} {room.asked_mm:g} mm{more}"
            ),
            remedy=remedy_of_lacks(group, self.layout, self.scene, self.rooms, self.trial),
            parts=tuple(dict.fromkeys([room.serves.id, thing.id, *(lack.room.serves.id for lack in group)])),
            measured=worst.free_mm,
            limit=room.asked_mm,
            place_mm=room.places[0].placement.origin_mm,
        )

    def _tight(self, group: Sequence[Tight]) -> Finding:
        worst = max(group, key=lambda tight: tight.asked_mm - tight.gap_mm)
        thing, part = worst.thing, worst.part
        touches = worst.gap_mm <= self.tolerance.contact_mm
        near = "touches" if touches else f"stands {worst.gap_mm:.2f} mm from"
        more = f", and {len(group) - 1} more pair(s)" if len(group) > 1 else ""
        return Finding(
            code="tight",
            severity="warning",
            where=place_of(part),
            message=(
                f"{_called(thing)} {near} {part.name}: "
                f"{worst.asked_mm:g} mm are needed between {asked_between(part, thing)}{more}"
            ),
            remedy=remedy_of_tight(group, self.scene, self.trial),
            parts=tuple(dict.fromkeys([part.id, thing.id, *(i for t in group for i in (t.part.id, t.thing.id))])),
            measured=0.0 if touches else worst.gap_mm,
            limit=worst.asked_mm,
            place_mm=worst.place_mm,
        )


def _side(part: Part) -> str:
    """What a part belongs to: the thing of the room, the run or the dry piece."""
    if part.role in ROOM_ROLES:
        return part.id if part.role in SWEPT_ROLES else f"room/{part.obstacle}" if part.obstacle else part.id
    return f"run/{part.run}" if part.run is not None else f"dry/{part.piece}"


def _sides_named(finding: Finding, scene: Scene) -> frozenset[str]:
    """The sides of the parts that a finding names."""
    ids = set(finding.parts)
    return frozenset(_side(p) for p in scene.parts if p.id in ids)


def _called(thing: Part) -> str:
    """A thing of the room as the plan calls it, or what it is."""
    return thing.name if thing.role in SWEPT_ROLES or thing.obstacle is None else thing.obstacle
