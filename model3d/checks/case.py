"""A thing of the room in the way of a run, and what is asked about it by whatever would free the run of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from model3d.checks.kept_out import stretch_text
from model3d.checks.trial import Trial
from model3d.geometry.placement import Vec3
from model3d.scene import Part, Scene
from model3d.scene.values import SWEPT_ROLES


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A thing of the room, the parts of one run that it overlaps, all else that is fitted, and the rest of the room."""

    thing: Part
    met: tuple[Part, ...]
    walls: tuple[Part, ...]
    fitted: tuple[Part, ...]
    trial: Trial
    room: tuple[Part, ...] = ()

    @property
    def own_walls(self) -> tuple[Part, ...]:
        """The walls that the parts belong to."""
        names = {part.wall for part in self.met}
        return tuple(wall for wall in self.walls if wall.wall in names)

    def on(self, wall: Part) -> tuple[Part, ...]:
        """All that is fitted on a wall."""
        return tuple(part for part in self.fitted if part.wall == wall.wall)

    @property
    def bodies(self) -> tuple[Part, ...]:
        """The bodies of the obstacle that the thing is, or belongs to."""
        return tuple(p for p in self.room if p.role == "obstacle" and p.obstacle == self.thing.obstacle)

    def goes_moved(self, by_mm: Vec3) -> bool:
        """Whether the obstacle, moved, stands clear of all that is fitted and of its fitting, with what its drawers and
        doors take: but for those that have a finding of their own where they are.
        """
        swept = [p for p in self.room if p.role in SWEPT_ROLES and p.obstacle == self.thing.obstacle]
        others = {p.id: p for p in (*self.bodies, *swept) if p.id != self.thing.id}
        counted = [self.thing, *(p for p in others.values() if p.role not in SWEPT_ROLES or self.free([p]))]
        moved = [p.moved(by_mm) for p in counted]
        asked = {self.thing.id} if self.thing.role not in SWEPT_ROLES else {p.id for p in self.bodies}
        return self.free(moved) and all(self.trial.fits(p) for p in moved if p.id in asked)

    def free(self, moved: Iterable[Part]) -> bool:
        """Whether parts are clear of all that is fitted."""
        return all(self.trial.is_free(p, self.fitted) for p in moved)


def case_of(
    scene: Scene, thing: Part, met: Iterable[Part], trial: Trial, rooms: Iterable[Part] = ()
) -> Case:
    """The case of a thing in a scene; ``rooms`` are to be left free like what is fitted."""
    walls = tuple(p for p in scene.parts if p.role == "wall" and p.wall is not None)
    return Case(
        thing=thing, met=tuple(met), walls=walls, fitted=(*scene.fitted, *rooms), trial=trial, room=scene.room
    )


def keep_out(case: Case) -> list[str]:
    """Where the run may stand, on all of its walls that the thing comes near."""
    kept = [stretch_text(case.thing, wall, case.on(wall), case.trial) for wall in case.own_walls]
    said = [text for text in kept if text]
    return ["keep the run " + ", and ".join(said)] if said else []
