"""End caps: a cover over the end of a run or of a dry piece, closed by a plate."""

from __future__ import annotations

import cadquery as cq
from cadquery.func import clean, fuse

from model3d.parts.fixings import EndCapSpec
from model3d.solids.outlines import across_at
from model3d.solids.simple_bodies import prism
from model3d.solids.sound import SolidError, one_solid


def end_cap(spec: EndCapSpec) -> cq.Solid:
    """An end cap: x along the wall with 0 at the cut face, the piece on the side of ``hand``, y out from the
    wall, z up from the floor, mm.

    Raises SolidError when the hand is not +1 or -1, or the cap is no longer than its plate.
    """
    if abs(spec.hand) != 1:
        raise SolidError(f"an end cap's hand is +1 or -1, not {spec.hand}")
    cover_mm = spec.overlap_mm + spec.length_mm - spec.plate_mm
    if min(spec.plate_mm, cover_mm) <= 0.0:
        raise SolidError(
            f"an end cap {spec.overlap_mm + spec.length_mm:g} mm long "
            f"cannot hold a plate of {spec.plate_mm:g} mm"
        )
    outer = across_at(-spec.hand * spec.length_mm)
    inner = across_at(spec.hand * (spec.plate_mm - spec.length_mm))
    plate = prism(spec.closing, outer, spec.hand * spec.plate_mm)
    cover = prism(spec.outline, inner, spec.hand * cover_mm)
    return one_solid(clean(fuse(plate, cover)), "end cap")
