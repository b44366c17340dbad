"""Plane outlines as the kernel's wires and faces: lines stay lines, arcs stay arcs."""

from __future__ import annotations

import math
from collections.abc import Sequence

from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge, BRepBuilderAPI_MakeFace, BRepBuilderAPI_MakeWire
from OCP.GC import GC_MakeArcOfCircle
from OCP.gp import gp_Ax3, gp_Dir, gp_Pln, gp_Pnt
from OCP.TopoDS import TopoDS, TopoDS_Edge, TopoDS_Face, TopoDS_Wire

from model3d.geometry.outline import Obround, Outline, Segment
from model3d.geometry.placement import Placement, Vec2
from model3d.solids.sound import SolidError

ACROSS = Placement(x_axis=(0.0, 1.0, 0.0), y_axis=(0.0, 0.0, 1.0), z_axis=(1.0, 0.0, 0.0))
"""The plane square to x: an outline's (u, v) stand along y and z, its normal along +x."""


_SHORTEST_EDGE_MM = 1e-7  # the kernel's confusion: points nearer than this are one to it


def across_at(x_mm: float) -> Placement:
    """The plane square to x that stands at ``x_mm``."""
    return ACROSS.moved((x_mm, 0.0, 0.0))


def obround_outline(obround: Obround, centre: Vec2 = (0.0, 0.0)) -> Outline:
    """The stadium as an outline about ``centre``, anticlockwise, from its right side: a round one is two half
    circles."""
    u, v = centre
    r, half = obround.radius_mm, obround.straight_mm / 2.0
    if half < _SHORTEST_EDGE_MM:
        return Outline(
            start=(u + r, v),
            segments=(
                Segment(to=(u - r, v), through=(u, v + r)),
                Segment(to=(u + r, v), through=(u, v - r)),
            ),
        )
    if obround.height_mm > obround.width_mm:
        return Outline(
            start=(u + r, v - half),
            segments=(
                Segment(to=(u + r, v + half)),
                Segment(to=(u - r, v + half), through=(u, v + half + r)),
                Segment(to=(u - r, v - half)),
                Segment(to=(u + r, v - half), through=(u, v - half - r)),
            ),
        )
    return Outline(
        start=(u + half, v - r),
        segments=(
            Segment(to=(u + half, v + r), through=(u + half + r, v)),
            Segment(to=(u - half, v + r)),
            Segment(to=(u - half, v - r), through=(u - half - r, v)),
            Segment(to=(u + half, v - r)),
        ),
    )


def wire(outline: Outline, plane: Placement) -> TopoDS_Wire:
    """The outline as a closed wire in a plane: (u, v) along the plane's x and y axes.

    Raises SolidError when it does not close or three points of an arc stand in a line.
    """

    def point(p: Vec2) -> gp_Pnt:
        return gp_Pnt(*plane.point((p[0], p[1], 0.0)))

    maker = BRepBuilderAPI_MakeWire()
    for a, segment in outline.edges:
        maker.Add(_edge(point(a), segment, point(segment.to), plane))
    if not maker.IsDone() or not maker.Wire().Closed():
        raise SolidError(f"the outline from {outline.start} does not close")
    return maker.Wire()


def _edge(a: gp_Pnt, segment: Segment, b: gp_Pnt, plane: Placement) -> TopoDS_Edge:
    """One edge: straight, or the arc by way of its third point."""
    if segment.through is None:
        return BRepBuilderAPI_MakeEdge(a, b).Edge()
    middle = gp_Pnt(*plane.point((segment.through[0], segment.through[1], 0.0)))
    arc = GC_MakeArcOfCircle(a, middle, b)
    if not arc.IsDone():
        raise SolidError(f"the arc by way of {segment.through} to {segment.to}: three points in a line")
    return BRepBuilderAPI_MakeEdge(arc.Value()).Edge()


def flat_face(outer: Outline, holes: Sequence[Outline], plane: Placement) -> TopoDS_Face:
    """The plane face within ``outer`` and outside every hole, its normal along the plane's z. Outlines may go
    either way round."""
    base = gp_Pln(gp_Ax3(gp_Pnt(*plane.origin_mm), gp_Dir(*plane.z_axis), gp_Dir(*plane.x_axis)))
    maker = BRepBuilderAPI_MakeFace(base, _turned(wire(outer, plane), outer.area_mm2 < 0.0), True)
    for hole in holes:
        maker.Add(_turned(wire(hole, plane), hole.area_mm2 > 0.0))
    return maker.Face()


def _turned(loop: TopoDS_Wire, back: bool) -> TopoDS_Wire:
    """The wire, run the other way when ``back``."""
    return TopoDS.Wire_s(loop.Reversed()) if back else loop


def rounded_rectangle(half_width_mm: float, half_height_mm: float, radius_mm: float) -> Outline:
    """A rectangle about (0, 0) with rounded corners, anticlockwise. Raises SolidError when the radius does
    not fit."""
    w, h, r = half_width_mm, half_height_mm, radius_mm
    if not 0.0 < r < min(w, h):
        raise SolidError(f"a corner radius of {r} mm does not fit a plate of {2 * w} x {2 * h} mm")
    k = r * (1.0 - math.sqrt(0.5))
    return Outline(
        start=(w, r - h),
        segments=(
            Segment(to=(w, h - r)),
            Segment(to=(w - r, h), through=(w - k, h - k)),
            Segment(to=(r - w, h)),
            Segment(to=(-w, h - r), through=(k - w, h - k)),
            Segment(to=(-w, r - h)),
            Segment(to=(r - w, -h), through=(k - w, k - h)),
            Segment(to=(w - r, -h)),
            Segment(to=(w, r - h), through=(w - k, k - h)),
        ),
    )
