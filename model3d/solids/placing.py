"""Placements in plain numbers as the kernel's transformations, and moved copies of shared solids."""

from __future__ import annotations

import cadquery as cq
from OCP.gp import gp_Ax3, gp_Dir, gp_Pnt, gp_Trsf

from model3d.geometry.placement import Placement


def transform(placement: Placement) -> gp_Trsf:
    """The kernel's rigid transformation (scale exactly 1, never a mirror) from the part's frame to the outer
    frame."""
    frame = gp_Ax3(gp_Pnt(*placement.origin_mm), gp_Dir(*placement.z_axis), gp_Dir(*placement.x_axis))
    found = gp_Trsf()
    found.SetTransformation(frame)
    found.Invert()
    return found


def location(placement: Placement) -> cq.Location:
    """The placement as a location for assemblies and moved copies."""
    return cq.Location(transform(placement))


def located(solid: cq.Solid, placement: Placement) -> cq.Solid:
    """A copy of a shared solid standing at the placement; faces and curves stay shared, the original stays as
    it is."""
    return solid.moved(location(placement))
