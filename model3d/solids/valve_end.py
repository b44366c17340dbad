"""The valve end of a run: block, spigots, thermostatic head and tail pipes."""

from __future__ import annotations

import cadquery as cq

from model3d.parts.ends import ValveEndSpec
from model3d.solids.end_block import end_block, refuse_unfit
from model3d.solids.end_passages import joined_passages, passage
from model3d.solids.sound import SolidError
from model3d.solids.tail import tail_bore, tail_parts
from model3d.solids.valve_head import head, neck_parts


def valve_end(spec: ValveEndSpec) -> cq.Solid:
    """The valve end: x along the wall with 0 at the cut face, the piece on the side of ``hand``, y out from
    the wall, z up from the floor, mm.

    With one tail both waterways meet in a chamber over it; with two, the nearer feeds the lower waterway and
    the farther the upper, apart. Raises SolidError when the parts do not fit the block or the room that
    ``length_mm`` leaves.
    """
    block = spec.block
    refuse_unfit(block)
    reach = block.block_end_mm + spec.neck_length_mm + spec.head_length_mm
    if reach > block.length_mm:
        raise SolidError(
            f"a valve end of {block.length_mm:g} mm is shorter than its block, neck and head: {reach:g} mm"
        )
    if len(spec.tail_offsets_mm) not in (1, 2):
        raise SolidError(f"a valve end has one tail or two, not {len(spec.tail_offsets_mm)}")
    offsets = sorted(spec.tail_offsets_mm)
    room = (offsets[-1] - offsets[0]) / 2.0 - 0.25 if len(offsets) == 2 else block.block_end_mm
    tails = [solid for at in offsets for solid in tail_parts(block, spec.tail_radius_mm, at, room)]
    return end_block(block, 0.0, [*neck_parts(spec), head(spec), *tails], _bored(spec, offsets))


def _bored(spec: ValveEndSpec, offsets: list[float]) -> list[cq.Solid]:
    """Passages and tail bores."""
    block, r = spec.block, spec.tail_radius_mm
    lower = block.bore_centres[0][1]
    if len(offsets) == 1:
        return [*joined_passages(block), tail_bore(block, r, offsets[0], lower)]
    upper = block.bore_centres[1][1]
    return [
        passage(block, 0, offsets[0]),
        tail_bore(block, r, offsets[0], lower),
        passage(block, 1, offsets[1]),
        tail_bore(block, r, offsets[1], upper),
    ]
