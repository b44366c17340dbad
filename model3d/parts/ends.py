"""What stands at the ends of a run: valve end and its cradle, return end, turn-back end.

Frame: x along the wall with 0 at the piece's cut face, y out from the wall with 0 at the wall's surface, z up
from the floor. ``hand`` is +1 when the piece lies toward +x, -1 when it lies toward -x: the two hands are two
shapes, as in the catalogue of any valve, since a part is never mirrored.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from model3d.geometry.outline import Outline, Segment
from model3d.geometry.placement import Vec2
from model3d.parts.fittings import LegSpec, NibSpec


@dataclass(frozen=True, slots=True, kw_only=True)
class EndBlockSpec:
    """The block of an end fitting with its spigots.

    ``bore_centres`` are the waterways' centres (u, v from wall and floor), lower first; the leg reaches
    ``insertion_mm`` into the piece; the block stands from ``face_gap_mm`` to ``block_end_mm`` away from the
    cut face, over ``block_back_mm``..``block_front_mm`` along y and ``block_bottom_mm``..``block_top_mm`` up.
    Its nibs enter the clip on the side ``nib_side`` (+1 front, -1 back). ``length_mm`` is all the room the
    fitting takes beyond the cut face. Passages inside the block are plain: both legs' passages end in one
    chamber, a leg's width short of the block's far face; under two tails each runs to its own tail. Tail pipes end
    ``tail_bottom_mm`` above the floor: the piece is offered lower than it will stand.
    """

    hand: int
    bore_centres: tuple[Vec2, Vec2]
    leg: LegSpec
    insertion_mm: float
    face_gap_mm: float
    block_end_mm: float
    block_back_mm: float
    block_front_mm: float
    block_bottom_mm: float
    block_top_mm: float
    nib: NibSpec
    nib_side: int
    length_mm: float
    tail_bottom_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ValveEndSpec:
    """Valve end (EN 215 valve): the block, a neck and a round head pointing away from the piece, and one tail
    pipe down to the floor.

    ``tail_offsets_mm`` are the tails' distances beyond the cut face: one, or two when the run turns back. The
    head's axis lies along x at (``head_u_mm``, ``head_v_mm``) from wall and floor.
    """

    block: EndBlockSpec
    neck_radius_mm: float
    neck_length_mm: float
    head_radius_mm: float
    head_length_mm: float
    head_u_mm: float
    head_v_mm: float
    tail_radius_mm: float
    tail_offsets_mm: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CradleSpec:
    """The valve's wall cradle: a plate on the wall behind the block and an arm over its top that holds it,
    clear of the tails.

    The plate lies ``x_start_mm``..``x_end_mm`` beyond the cut face on the side of ``hand``; ``plate_mm``
    thick (y from 0), up to the block's top, from ``bottom_mm``; the arm lies on the block's top
    (``block_top_mm``), ``arm_mm`` thick, past ``block_front_mm`` from the wall, where a lip as thick hangs
    ``lip_mm`` down over the block's front; their outer edge is rounded. Two countersunk screw holes, as wide
    as the plate is thick (at most 5 mm), stand a quarter of the plate's height from its ends.
    """

    hand: int
    x_start_mm: float
    x_end_mm: float
    plate_mm: float
    bottom_mm: float
    block_top_mm: float
    block_front_mm: float
    arm_mm: float
    lip_mm: float

    @property
    def outline(self) -> Outline:
        """The cradle's outline in (u, v) from wall and floor, anticlockwise."""
        top, front, t = self.block_top_mm, self.block_front_mm, self.arm_mm
        k = t * (1.0 - math.sqrt(0.5))
        edges = (
            Segment(to=(self.plate_mm, self.bottom_mm)),
            Segment(to=(self.plate_mm, top)),
            Segment(to=(front, top)),
            Segment(to=(front, top - self.lip_mm)),
            Segment(to=(front + t, top - self.lip_mm)),
            Segment(to=(front + t, top)),
            Segment(to=(front, top + t), through=(front + t - k, top + t - k)),
            Segment(to=(0.0, top + t)),
        )
        return Outline(start=(0.0, self.bottom_mm), segments=edges)

    @property
    def hole_diameter_mm(self) -> float:
        """Diameter of the screw holes."""
        return min(5.0, self.plate_mm)

    @property
    def hole_heights_mm(self) -> tuple[float, float]:
        """Heights of the screw holes above the floor."""
        quarter = (self.block_top_mm - self.bottom_mm) / 4.0
        return (self.bottom_mm + quarter, self.block_top_mm - quarter)

    @property
    def volume_mm3(self) -> float:
        """Outline area times width, less two holes whose 90 degree cones are as deep as the holes' radius."""
        r = self.hole_diameter_mm / 2.0
        hole = math.pi * r**2 * (self.plate_mm - r) + math.pi * r**3 * 7.0 / 3.0
        return self.outline.area_mm2 * abs(self.x_end_mm - self.x_start_mm) - 2.0 * hole


@dataclass(frozen=True, slots=True, kw_only=True)
class ReturnEndSpec:
    """Return end: the block and one tail pipe down to the floor at ``tail_offset_mm`` beyond the cut face."""

    block: EndBlockSpec
    tail_radius_mm: float
    tail_offset_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnBackEndSpec:
    """Turn-back end: the block, in which the upper waterway is joined to the lower; no tail."""

    block: EndBlockSpec
