"""Meshes of parts for motion, each distinct shape once, and what has been asked of them."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from model3d.families.family import Family
from model3d.geometry.placement import Vec3
from model3d.motion import Memo, MotionBody, MotionMesh, mesh_of
from model3d.motion.from_solids import part_above, part_below
from model3d.moves.bending import latch_bend_mm, latch_from_mm, lip_bend_mm, lip_from_mm
from model3d.parts.kinds import Spec
from model3d.scene import Part
from model3d.solids.build import solid

if TYPE_CHECKING:
    from model3d.moves.bent_lines import Bending

BENT = "|"  # follows a part's id in the ids of the bodies it falls into when it bends
BENDS = frozenset({"bracket", "cradle"})


@dataclass(slots=True)
class Shapes:
    """Meshes by spec and answers by pair, for one family; keep it while parts are moved about."""

    family: Family
    meshes: dict[Spec, MotionMesh] = field(default_factory=dict)
    halves: dict[Spec, tuple[MotionMesh | None, MotionMesh | None]] = field(default_factory=dict)
    memo: Memo = field(default_factory=dict)
    bendings: dict[tuple[object, ...], Bending | None] = field(default_factory=dict)

    def mesh(self, part: Part) -> MotionMesh:
        """The mesh of a part in its own frame."""
        if part.spec not in self.meshes:
            self.meshes[part.spec] = mesh_of(solid(part.spec), part.id)
        return self.meshes[part.spec]

    def body(self, part: Part, by_mm: Vec3 = (0.0, 0.0, 0.0)) -> MotionBody:
        """A part as it stands, shifted from its final place."""
        return MotionBody(id=part.id, mesh=self.mesh(part), placement=part.placement.moved(by_mm))

    def as_bent(self, part: Part) -> list[MotionBody]:
        """A bracket or cradle while its upper half gives way: the lower half as it stands, the upper bent up or down.

        Their frames have z up from the floor.
        """
        if part.role == "bracket":
            above, by = latch_from_mm(self.family), latch_bend_mm(self.family)
        else:
            above, by = lip_from_mm(self.family), lip_bend_mm(self.family)
        if part.spec not in self.halves:
            mesh = self.mesh(part)
            self.halves[part.spec] = part_below(mesh, above), part_above(mesh, above)
        found = []
        for name, half, shift in zip(("foot", "bent"), self.halves[part.spec], (0.0, by), strict=True):
            if half is not None:
                at = part.placement.moved((0.0, 0.0, shift))
                found.append(MotionBody(id=f"{part.id}{BENT}{name}", mesh=half, placement=at))
        return found


def part_id(body_id: str) -> str:
    """The part a body belongs to."""
    return body_id.split(BENT, 1)[0]
