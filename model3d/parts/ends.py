"""What stands at the ends of a run: valve end and its cradle, return end, turn-back end.

Frame: x along the wall with 0 at the piece's cut face, y out from the wall with 0 at the wall's surface, z up from the floor.
``hand`` is +1 when the piece lies toward +x, -1 when it lies toward -x: the two hands are two shapes, as in the catalogue of any
valve, since a part is never mirrored.
"""

from __future__ import annotations

from dataclasses import dataclass

from model3d.geometry.placement import Vec2
from model3d.parts.fittings import LegSpec, NibSpec


@dataclass(frozen=True, slots=True, kw_only=True)
class EndBlockSpec:
    """The block of an end fitting with its spigots.

    ``bore_centres`` are the waterways' centres (u, v from wall and floor), lower first; the leg reaches ``insertion_mm`` into the piece; the block
    stands from ``face_gap_mm`` to ``block_end_mm`` away from the cut face, over ``block_back_mm``..``block_front_mm`` along y and
    ``block_bottom_mm``..``block_top_mm`` up. Its nibs enter the clip on the side ``nib_side`` (+1 front, -1 back).
    ``length_mm`` is all the room the fitting takes beyond the cut face. Passages inside the block are plain: each leg's passage
    ends in a chamber one leg's width short of the block's far face.
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


@dataclass(frozen=True, slots=True, kw_only=True)
class ValveEndSpec:
    """Valve end (EN 215 valve): the block, a neck and a round head pointing away from the piece, and one tail pipe down to the floor.

    ``tail_offsets_mm`` are the tails' distances beyond the cut face: one, or two when the run turns back. The head's axis lies along x at
    (``head_u_mm``, ``head_v_mm``) from wall and floor.
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
    """The valve's wall cradle: a plate on the wall behind the block and an arm over its top that holds it, clear of the tails.

    The plate lies ``x_start_mm``..``x_end_mm`` beyond the cut face on the side of ``hand``; ``plate_mm`` thick (y from 0), up to the block's top,
    from ``bottom_mm``; the arm lies on the block's top (``block_top_mm``), ``arm_mm`` thick, out to ``arm_reach_mm`` from the wall, with a lip of
    ``lip_mm`` down over the block's front.
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
