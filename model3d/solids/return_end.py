"""The return end of a run: block, spigots, tail pipe and drain key."""

from __future__ import annotations

import cadquery as cq

from model3d.geometry.outline import rectangle
from model3d.geometry.placement import Placement
from model3d.parts.ends import ReturnEndSpec
from model3d.solids.end_block import beyond, edge_round_mm, end_block, refuse_unfit
from model3d.solids.end_passages import joined_passages
from model3d.solids.simple_bodies import prism, rod
from model3d.solids.tail import hexagon, tail_bore, tail_parts


def return_end(spec: ReturnEndSpec) -> cq.Solid:
    """The return end: x along the wall with 0 at the cut face, the piece on the side of ``hand``, y out from
    the wall, z up from the floor, mm.

    A drain key stands on the block's far face where ``length_mm`` leaves room for one. Raises SolidError when
    the parts do not fit the block.
    """
    block = spec.block
    refuse_unfit(block)
    tail = tail_parts(block, spec.tail_radius_mm, spec.tail_offset_mm, block.block_end_mm)
    bored = [
        *joined_passages(block),
        tail_bore(block, spec.tail_radius_mm, spec.tail_offset_mm, block.bore_centres[0][1]),
    ]
    return end_block(block, 0.0, [*tail, *_drain_key(spec)], bored)


def _drain_key(spec: ReturnEndSpec) -> list[cq.Solid]:
    """A hexagon boss, a stem and a square key at the lower waterway's height, pointing away from the piece;
    none without 4 mm of room.
    """
    block = spec.block
    reach = min(15.0, block.length_mm - block.block_end_mm)
    if reach < 4.0:
        return []
    u, v = block.bore_centres[0]
    r = min(u - block.block_back_mm, block.block_front_mm - u) - edge_round_mm(block)
    hand = float(block.hand)

    def square_to_run(from_block_mm: float) -> Placement:
        return Placement(
            origin_mm=(beyond(block, block.block_end_mm + from_block_mm), u, v),
            x_axis=(0.0, 0.0, 1.0),
            y_axis=(0.0, hand, 0.0),
            z_axis=(-hand, 0.0, 0.0),
        )

    boss = hexagon(square_to_run(-1.0), 0.75 * r, 0.3 * reach + 1.0)
    stem = rod(square_to_run(0.0).origin_mm, (-hand, 0.0, 0.0), 0.5 * r, 0.55 * reach)
    half = 0.3 * r
    key = prism(rectangle(-half, -half, half, half), square_to_run(0.5 * reach), 0.5 * reach)
    return [boss, stem, key]
