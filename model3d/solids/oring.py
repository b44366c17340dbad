"""The O-ring as moulded: a round section carried round a stadium."""

from __future__ import annotations

import math

import cadquery as cq
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge, BRepBuilderAPI_MakeWire
from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism, BRepPrimAPI_MakeRevol
from OCP.gp import gp_Ax1, gp_Ax2, gp_Circ, gp_Dir, gp_Pnt, gp_Vec
from OCP.TopoDS import TopoDS_Shape, TopoDS_Wire

from model3d.geometry.outline import Arc, Segment, arc_through
from model3d.geometry.placement import Vec2
from model3d.parts.fittings import OringSpec
from model3d.solids.outlines import obround_outline
from model3d.solids.skins import sewn
from model3d.solids.sound import SolidError


def oring(spec: OringSpec) -> cq.Solid:
    """One O-ring about the datum, lying in the plane square to x, mm. Raises SolidError when its section does
    not fit round its ends."""
    if not spec.section_mm > 0.0 or not spec.inside.radius_mm > 0.0:
        raise SolidError(f"O-ring: section {spec.section_mm} mm on ends of radius {spec.inside.radius_mm} mm")
    centre_line = obround_outline(spec.inside.grown(spec.section_mm / 2.0))
    return sewn([_carried(a, segment, spec.section_mm / 2.0) for a, segment in centre_line.edges], "O-ring")


def _carried(a: Vec2, segment: Segment, radius_mm: float) -> TopoDS_Shape:
    """The skin along one edge of the centre line: a cylinder or a part of a torus."""
    b = segment.to
    if segment.through is None:
        along = (b[0] - a[0], b[1] - a[1])
        return BRepPrimAPI_MakePrism(_ring(a, along, radius_mm), gp_Vec(0.0, *along)).Shape()
    arc: Arc = arc_through(a, segment.through, b)
    sense = math.copysign(1.0, arc.sweep_rad)
    tangent = (-math.sin(arc.start_rad) * sense, math.cos(arc.start_rad) * sense)
    axis = gp_Ax1(gp_Pnt(0.0, *arc.centre), gp_Dir(sense, 0.0, 0.0))
    return BRepPrimAPI_MakeRevol(_ring(a, tangent, radius_mm), axis, abs(arc.sweep_rad)).Shape()


def _ring(centre: Vec2, normal: Vec2, radius_mm: float) -> TopoDS_Wire:
    """The section's circle square to the centre line, its seam on the side that looks along +x."""
    frame = gp_Ax2(gp_Pnt(0.0, *centre), gp_Dir(0.0, *normal), gp_Dir(1.0, 0.0, 0.0))
    return BRepBuilderAPI_MakeWire(BRepBuilderAPI_MakeEdge(gp_Circ(frame, radius_mm)).Edge()).Wire()
