"""What stands in a room and where it is looked at from, resolved: numbers for the customer's pictures."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from model3d.geometry.placement import Placement, Vec2, Vec3
from model3d.plans.furniture import FurnitureKind
from model3d.rooms.drawers import Opener
from model3d.rooms.obstacles import Slab


@dataclass(frozen=True, slots=True, kw_only=True)
class Furniture:
    """A piece of furniture in its own frame: x along its width, y from its back (0) to its front (depth), z up.

    ``colour`` is red, green, blue from 0 to 1 (sRGB), None for the usual one of its kind. ``wall_id`` is the wall it
    stands against, None on the open floor. ``fixed`` says that it is built in;
    ``openers`` are the drawers and doors of what is.
    """

    id: str
    kind: FurnitureKind
    wall_id: str | None
    frame: Placement
    width_mm: float
    depth_mm: float
    height_mm: float
    colour: Vec3 | None = None
    fixed: bool = False
    openers: tuple[Opener, ...] = ()

    @property
    def outline_mm(self) -> tuple[Vec2, ...]:
        """Its four corners on the floor plan, room frame, anticlockwise."""
        w, d = self.width_mm, self.depth_mm
        points = (self.frame.point(p) for p in ((0.0, 0.0, 0.0), (w, 0.0, 0.0), (w, d, 0.0), (0.0, d, 0.0)))
        return tuple((x, y) for x, y, _ in points)


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedView:
    """A place to look from: ``eye_mm`` and ``target_mm``, or a wall, a corner (ids), or a direction from above.

    What is None is chosen by rule.
    """

    id: str
    eye_mm: Vec3 | None = None
    target_mm: Vec3 | None = None
    wall_id: str | None = None
    corner_id: str | None = None
    above_deg: float | None = None
    distance_mm: float | None = None
    turn_deg: float | None = None
    field_deg: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Radiator:
    """A panel radiator on a wall, from ``along_mm`` on, its underside ``up_mm`` above the floor."""

    wall_id: str
    along_mm: float
    width_mm: float
    height_mm: float
    up_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Before:
    """The room as it was: the old skirting board's section and colour, the walls' colour (None: as they are now), and
    the radiators; none given means one where it is usual."""

    skirting_height_mm: float = 95.0
    skirting_thickness_mm: float = 15.0
    skirting: Vec3 = (0.94, 0.90, 0.81)
    walls: Vec3 | None = None
    radiators: tuple[Radiator, ...] = ()


def built_in(furniture: Iterable[Furniture]) -> tuple[Slab, ...]:
    """What is built in, as obstacles: the box round each piece, with its drawers and doors."""
    return tuple(
        Slab(
            id=f.id,
            kind="box",
            wall_id=f.wall_id,
            frame=f.frame,
            low_mm=(0.0, 0.0, 0.0),
            high_mm=(f.width_mm, f.depth_mm, f.height_mm),
            openers=f.openers,
        )
        for f in furniture
        if f.fixed
    )
