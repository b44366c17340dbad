"""Boxes and round bars: obstacles of a room, and the bodies that end fittings are made of."""

from __future__ import annotations

import math
from collections.abc import Sequence

import cadquery as cq
from OCP.BRepPrimAPI import (
    BRepPrimAPI_MakeBox,
    BRepPrimAPI_MakeCylinder,
    BRepPrimAPI_MakePrism,
    BRepPrimAPI_MakeRevol,
)
from OCP.gp import gp_Ax1, gp_Ax2, gp_Dir, gp_Pnt, gp_Vec

from model3d.geometry.outline import Outline
from model3d.geometry.placement import Placement, Vec3, scale
from model3d.parts.room import BoxSpec, CylinderSpec
from model3d.solids.outlines import flat_face
from model3d.solids.sound import SolidError, one_solid


def box_body(spec: BoxSpec) -> cq.Solid:
    """A box from the datum along +x, +y, +z, mm. Raises SolidError unless every side is above 0."""
    if min(spec.size_mm) <= 0.0:
        raise SolidError(f"a box needs sides above 0, not {spec.size_mm}")
    return one_solid(block((0.0, 0.0, 0.0), spec.size_mm), "box")


def cylinder_body(spec: CylinderSpec) -> cq.Solid:
    """A round bar from the datum (the centre of its lower end) along +z, mm. Raises SolidError unless both
    sizes are above 0.
    """
    return one_solid(rod((0.0, 0.0, 0.0), (0.0, 0.0, 1.0), spec.radius_mm, spec.length_mm), "cylinder")


def block(corner_mm: Vec3, opposite_mm: Vec3) -> cq.Solid:
    """A box between two opposite corners, given either way round. Raises SolidError when it is flat."""
    low = [min(a, b) for a, b in zip(corner_mm, opposite_mm, strict=True)]
    size = [abs(a - b) for a, b in zip(corner_mm, opposite_mm, strict=True)]
    if not all(side > 0.0 and math.isfinite(side) for side in size):
        raise SolidError(f"a box of {size[0]:g} x {size[1]:g} x {size[2]:g} mm has no body")
    return cq.Solid(BRepPrimAPI_MakeBox(gp_Pnt(*low), *size).Solid())


def rod(start_mm: Vec3, direction: Vec3, radius_mm: float, length_mm: float) -> cq.Solid:
    """A round bar from the centre of one end along a direction. Raises SolidError unless radius and length
    are above 0.
    """
    if not (radius_mm > 0.0 and length_mm > 0.0 and math.isfinite(radius_mm * length_mm)):
        raise SolidError(f"a round bar of radius {radius_mm:g} and length {length_mm:g} mm has no body")
    axis = gp_Ax2(gp_Pnt(*start_mm), gp_Dir(*direction))
    return cq.Solid(BRepPrimAPI_MakeCylinder(axis, radius_mm, length_mm).Solid())


def prism(outline: Outline, plane: Placement, length_mm: float, holes: Sequence[Outline] = ()) -> cq.Solid:
    """An outline less its holes, drawn in a plane and carried ``length_mm`` along its z (back when negative).

    Raises SolidError when the length is 0 or the outlines cross.
    """
    if not (length_mm != 0.0 and math.isfinite(length_mm)):
        raise SolidError(f"an outline carried over {length_mm:g} mm has no body")
    along = gp_Vec(*scale(plane.z_axis, length_mm))
    return one_solid(BRepPrimAPI_MakePrism(flat_face(outline, holes, plane), along).Shape(), "prism")


def turned(outline: Outline, plane: Placement) -> cq.Solid:
    """A body of revolution: an outline drawn in a plane, turned about the plane's x axis; it may touch the
    axis, not cross it.
    """
    axis = gp_Ax1(gp_Pnt(*plane.origin_mm), gp_Dir(*plane.x_axis))
    return one_solid(BRepPrimAPI_MakeRevol(flat_face(outline, (), plane), axis).Shape(), "turned body")
