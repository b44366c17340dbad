"""The kernel's exact hidden-line result, for comparison: visible length of sharp edges and contours, parallel
projection.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from OCP.BRep import BRep_Builder
from OCP.BRepGProp import BRepGProp
from OCP.BRepLib import BRepLib
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.GProp import GProp_GProps
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape
from OCP.TopoDS import TopoDS_Compound

from model3d.geometry.placement import Placement, Vec3
from model3d.illustrations.shapes import SHARP_DEG
from model3d.parts.kinds import Spec
from model3d.solids.build import solid
from model3d.solids.mesh import fresh_copy
from model3d.solids.placing import location


def exact_length_mm(parts: Sequence[tuple[Spec, Placement]], toward: Vec3, right: Vec3) -> float:
    """Length on the page, mm at full size, of all that is seen of the parts from the unit direction ``toward``."""
    builder, all_parts = BRep_Builder(), TopoDS_Compound()
    builder.MakeCompound(all_parts)
    for spec, placement in parts:
        body = fresh_copy(solid(spec).wrapped)
        BRepLib.EncodeRegularity_s(body, math.radians(SHARP_DEG))
        builder.Add(all_parts, body.Moved(location(placement).wrapped))
    algorithm = HLRBRep_Algo()
    algorithm.Add(all_parts, 0)
    algorithm.Projector(HLRAlgo_Projector(gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(*toward), gp_Dir(*right))))
    algorithm.Update()
    algorithm.Hide()
    found = HLRBRep_HLRToShape(algorithm)
    total = 0.0
    for lines in (found.VCompound(), found.OutLineVCompound()):
        if lines is not None and not lines.IsNull():
            BRepLib.BuildCurves3d_s(lines)
            sums = GProp_GProps()
            BRepGProp.LinearProperties_s(lines, sums)
            total += sums.Mass()
    return total
