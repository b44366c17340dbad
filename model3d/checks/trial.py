"""Placed parts tried against one another, and how far they reach; what is worked out of their solids is kept."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field

from OCP.Bnd import Bnd_Box
from OCP.BRepBndLib import BRepBndLib

from model3d.checks.engine import Body, Clash, Memory, Tolerance, clashes
from model3d.checks.engine.bodies import matrix
from model3d.checks.engine.depth import Points
from model3d.checks.engine.verdict import Solids
from model3d.geometry.placement import Placement, Vec3
from model3d.scene import Part
from model3d.scene.values import ROOM_ROLES
from model3d.solids.build import solid
from model3d.solids.placing import located

SPARE_MM = 2.0  # what a remedy leaves beyond what is asked


def everywhere(_thing: Part) -> bool:
    """A thing of the room hinders nothing, wherever it stands: where moves, or room to work, are not asked."""
    return True


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """What counts as contact, and the engine's memory of solids by their specs. Of a thing of the room in another place
    ``fits`` says whether everything can still be fitted, and ``asks`` whether it leaves what else is asked; remedies
    leave ``spare_mm``.
    """

    tolerance: Tolerance
    memory: Memory = field(default_factory=Memory)
    fits: Callable[[Part], bool] = everywhere
    asks: Callable[[Part], bool] = everywhere
    spare_mm: float = SPARE_MM

    def clashes(
        self, parts: Iterable[Part], *, of: Part | None = None, tick: Callable[[int, int], None] | None = None
    ) -> Iterator[Clash]:
        """Every pair of parts that overlap deeper than they are meant to, as they are found; those of one
        part alone when ``of`` is given.

        Raises SolidError when a part cannot be built, RuntimeError when the engine cannot say.
        """
        listed = tuple(parts)
        by_id = {p.id: p for p in listed}

        def allowed_mm(a: Body, b: Body) -> float | None:
            if of is not None and of.id not in (a.id, b.id):
                return None
            return meant_mm(by_id[a.id], by_id[b.id])

        return clashes(
            [Body(id=p.id, shape_key=p.spec, placement=p.placement) for p in listed],
            {p.spec: solid(p.spec) for p in listed},
            allowed_mm=allowed_mm,
            tolerance=self.tolerance,
            memory=self.memory,
            tick=tick,
        )

    def reach_mm(self, part: Part, frame: Placement) -> tuple[Vec3, Vec3]:
        """The low and high corner of a box that holds a part, seen from a frame, to a few tenths of a
        millimetre.
        """
        solids = Solids(
            shapes={part.spec: solid(part.spec)}, memory=self.memory, contact_mm=self.tolerance.contact_mm
        )
        held = solids.skin(part.spec)
        there = matrix(frame.inverse() @ part.placement)
        points = held.hull @ there[:, :3].T + there[:, 3]
        spare = self.tolerance.contact_mm
        return _vec(points.min(axis=0) - spare), _vec(points.max(axis=0) + spare)

    def is_free(self, part: Part, others: Iterable[Part]) -> bool:
        """Whether a part overlaps none of the others where it stands; a thing of the room must leave what else is
        asked as well. One of the same id is left out of them.
        """
        rest = [p for p in others if p.id != part.id]
        clear = next(self.clashes([*rest, part], of=part), None) is None
        return clear and (part.role not in ROOM_ROLES or self.asks(part))


def _vec(point: Points) -> Vec3:
    return (float(point[0]), float(point[1]), float(point[2]))


def meant_mm(a: Part, b: Part) -> float | None:
    """How deep two parts are meant to overlap: an O-ring in the bore that squeezes it; None for two things of
    the room.
    """
    if a.role in ROOM_ROLES and b.role in ROOM_ROLES:
        return None
    return max(a.presses_mm if b.id in a.presses_on else 0.0, b.presses_mm if a.id in b.presses_on else 0.0)


def exact_reach_mm(part: Part, frame: Placement) -> tuple[Vec3, Vec3]:
    """The low and high corner of the box round a part, seen from a frame, by its true faces."""
    box = Bnd_Box()
    BRepBndLib.AddOptimal_s(
        located(solid(part.spec), frame.inverse() @ part.placement).wrapped, box, False, False
    )
    x0, y0, z0, x1, y1, z1 = box.Get()
    return (x0, y0, z0), (x1, y1, z1)
