"""The exact overlap of two solids by the kernel's boolean, in the first one's frame."""

from __future__ import annotations

from dataclasses import dataclass

import cadquery as cq
from OCP.Bnd import Bnd_OBB
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps
from OCP.TopTools import TopTools_ListOfShape

from model3d.geometry.placement import Placement, Vec3
from model3d.solids.placing import located

SPECK_MM3 = 1e-3  # below this the kernel's own tolerance speaks, not the parts


class OverlapError(RuntimeError):
    """The kernel could not say whether two solids overlap."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Overlap:
    """What two solids share: ``volume_mm3``; ``thickness_mm``, twice volume over surface (a shell's thickness); ``depth_mm``, the least
    side of the tightest box round it; ``place_mm``, its centre of mass in the first solid's frame.
    """

    volume_mm3: float
    thickness_mm: float
    depth_mm: float
    place_mm: Vec3


def overlap(a: cq.Solid, b: cq.Solid, b_in_a: Placement) -> Overlap | None:
    """The overlap of ``a`` and ``b`` placed at ``b_in_a``; None when they share no volume. Raises OverlapError when the kernel fails."""
    common = BRepAlgoAPI_Common()
    arguments, tools = TopTools_ListOfShape(), TopTools_ListOfShape()
    arguments.Append(a.wrapped)
    tools.Append(located(b, b_in_a).wrapped)
    common.SetArguments(arguments)
    common.SetTools(tools)
    common.Build()
    if not common.IsDone():
        raise OverlapError("the boolean of two solids failed")
    shape = common.Shape()
    volume = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, volume)
    if volume.Mass() < SPECK_MM3:
        return None
    surface = GProp_GProps()
    BRepGProp.SurfaceProperties_s(shape, surface)
    box = Bnd_OBB()
    BRepBndLib.AddOBB_s(shape, box, False, True, False)
    centre = volume.CentreOfMass()
    return Overlap(
        volume_mm3=volume.Mass(),
        thickness_mm=2.0 * volume.Mass() / surface.Mass(),
        depth_mm=2.0 * min(box.XHSize(), box.YHSize(), box.ZHSize()),
        place_mm=(centre.X(), centre.Y(), centre.Z()),
    )
