"""The turn-back end of a run: a block that joins the upper waterway to the lower."""

from __future__ import annotations

import cadquery as cq

from model3d.parts.ends import TurnBackEndSpec
from model3d.solids.end_block import end_block, refuse_unfit
from model3d.solids.end_passages import joined_passages


def turn_back_end(spec: TurnBackEndSpec) -> cq.Solid:
    """The turn-back end: x along the wall with 0 at the cut face, the piece on the side of ``hand``, y out
    from the wall, z up, mm.

    Its far upper and lower corners are rounded by two thirds of its thickness, as the water turns. Raises
    SolidError when its legs or its chamber do not fit.
    """
    block = spec.block
    refuse_unfit(block)
    thickness = block.block_end_mm - block.face_gap_mm
    nose = min(2.0 * thickness / 3.0, (block.block_top_mm - block.block_bottom_mm) / 3.0)
    return end_block(block, nose, [], joined_passages(block))
