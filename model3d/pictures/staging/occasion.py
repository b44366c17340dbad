"""A step to be drawn, and the parts it is about."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from model3d.families.family import Family
from model3d.geometry.placement import Placement, Vec3, subtract
from model3d.layout import Joint, Piece
from model3d.pictures.staging.poses import NOWHERE, shifted, shifts, turned_in_place
from model3d.scene import Part, Scene
from model3d.steps import Step
from model3d.steps.moves import room_vector, swing_about_mm
from model3d.wording import Catalogue, catalogue


@dataclass(frozen=True, slots=True, kw_only=True)
class Occasion:
    """A step to be drawn: what is up already, what it brings, the pieces it puts up, near one first, the joints
    before, between and after them, and every piece of the room.
    """

    family: Family
    scene: Scene
    step: Step
    steps: int
    up_already: tuple[Part, ...]
    pieces: tuple[Piece, ...]
    near: Joint | None
    far: Joint | None
    between: tuple[Joint, ...]
    every_piece: tuple[Piece, ...] = ()

    @property
    def words(self) -> Catalogue:
        """The catalogue of the step's language."""
        return catalogue(self.step.language)

    def parts(self, ids: Collection[str]) -> list[Part]:
        """The parts with these ids, in the scene's order."""
        wanted = set(ids)
        return [p for p in self.scene.parts if p.id in wanted]

    def standing(self, ringed: Collection[str] = ()) -> list[Part]:
        """What is up already, without the O-rings that are inside the metal: all but those named."""
        return [p for p in self.up_already if p.role != "o-ring" or p.id in ringed]

    def offered(self) -> Placement:
        """From the final place to the place where the pieces are offered."""
        if not self.step.legs:
            return shifted(NOWHERE)
        return shifted(room_vector(self.pieces[0], self.step.legs[0].to_mm))

    def setting_out(self) -> Placement:
        """From the final place to the place the pieces set out from on their way to the offer."""
        approach, first = self.step.approach, self.pieces[0]
        if approach is None:
            return shifted(NOWHERE)
        if approach.name != "swing":
            return shifted(room_vector(first, approach.from_mm))
        return turned_in_place(self.hinge_mm(), approach.turn_deg * first.sense) @ self.offered()

    def hinge_mm(self) -> Vec3:
        """The foot of the upright line that a swinging piece turns about."""
        offered = self.step.legs[0].to_mm if self.step.legs else NOWHERE
        return swing_about_mm(self.family, self.pieces[0], offered)

    def travelling(self, pose: Placement) -> dict[str, Placement]:
        """Every travelling part moved with its piece, the far end's elbows pushed home beside."""
        home = shifts(self.step.pushed_home)
        return {i: pose @ home.get(i, shifted(NOWHERE)) for i in self.step.travels}

    def joint_parts(self, joint: Joint | None) -> list[Part]:
        """The fittings of a joint, without its cover."""
        return [p for p in self.scene.fitted if joint is not None and p.joint == joint.mark and p.role != "trim"]

    def offer_way(self) -> Vec3:
        """The way of the offer, room frame."""
        return subtract(self.offered().origin_mm, self.setting_out().origin_mm)
