"""The room a door leaf sweeps."""

from __future__ import annotations

import math

import cadquery as cq
from OCP.BRepPrimAPI import BRepPrimAPI_MakeCylinder
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt

from model3d.parts.room import SectorSpec
from model3d.solids.sound import SolidError, one_solid


def room_sector(spec: SectorSpec) -> cq.Solid:
    """A sector of a round bar about +z at the datum, from z = 0 up, mm; directions anticlockwise from +x.

    Raises SolidError unless radius and height are above 0 and the sweep is neither 0 nor a whole turn or
    more.
    """
    if spec.radius_mm <= 0.0 or spec.height_mm <= 0.0 or not 0.0 < abs(spec.sweep_deg) < 360.0:
        raise SolidError(
            f"a sector of radius {spec.radius_mm:g} mm, height {spec.height_mm:g} mm, "
            f"sweep {spec.sweep_deg:g} degrees has no body"
        )
    first = math.radians(min(spec.start_deg, spec.start_deg + spec.sweep_deg))
    axis = gp_Ax2(gp_Pnt(0.0, 0.0, 0.0), gp_Dir(0.0, 0.0, 1.0), gp_Dir(math.cos(first), math.sin(first), 0.0))
    sweep = math.radians(abs(spec.sweep_deg))
    return one_solid(BRepPrimAPI_MakeCylinder(axis, spec.radius_mm, spec.height_mm, sweep).Solid(), "sector")
