"""The valve's wall cradle: a plate on the wall and an arm over the block."""

from __future__ import annotations

import cadquery as cq

from model3d.geometry.placement import at
from model3d.parts.ends import CradleSpec
from model3d.solids.bracket import screw_hole
from model3d.solids.joining import cut
from model3d.solids.outlines import across_at
from model3d.solids.placing import located
from model3d.solids.simple_bodies import prism
from model3d.solids.sound import SolidError


def cradle(spec: CradleSpec) -> cq.Solid:
    """The cradle: x along the wall with 0 at the cut face and the piece on the side of ``hand``, y out from
    the wall, z up from the floor, mm.

    Its outline carried along the wall, less two countersunk screw holes. Raises SolidError when the hand is
    not +1 or -1 or the plate has no body.
    """
    wide, high = spec.x_end_mm - spec.x_start_mm, spec.block_top_mm - spec.bottom_mm
    sizes = (
        wide,
        high - spec.lip_mm,
        spec.plate_mm,
        spec.block_front_mm - spec.plate_mm,
        spec.arm_mm,
        spec.lip_mm,
    )
    if abs(spec.hand) != 1 or min(sizes) <= 0.0:
        raise SolidError(f"a cradle {wide:g} mm wide and {high:g} mm high for hand {spec.hand} has no body")
    low = min(-spec.hand * spec.x_start_mm, -spec.hand * spec.x_end_mm)
    body = prism(spec.outline, across_at(low), wide)
    middle = at(low + wide / 2.0, 0.0, 0.0)
    holes = [
        located(screw_hole(spec.hole_diameter_mm, spec.hole_diameter_mm / 2.0, spec.plate_mm, height), middle)
        for height in spec.hole_heights_mm
    ]
    return cut(body, holes, "cradle")
