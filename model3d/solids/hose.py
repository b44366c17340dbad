"""The hose of a link: a round tube along its sagging centre line.

Each skin is four quarter patches along each stretch of the centre line (straight, arc, straight): exact
circles square to the centre line at close places, and through each of their poles a smooth cubic spline. Over a
grip, where the hose lies level on its tail, the patches are round cylinders as the tail itself is.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import cadquery as cq
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeFace
from OCP.Geom import Geom_BSplineCurve, Geom_BSplineSurface, Geom_CylindricalSurface
from OCP.GeomAPI import GeomAPI_Interpolate
from OCP.gp import gp_Ax3, gp_Dir, gp_Pnt, gp_Vec
from OCP.TColgp import TColgp_Array2OfPnt, TColgp_HArray1OfPnt
from OCP.TColStd import (
    TColStd_Array1OfInteger,
    TColStd_Array1OfReal,
    TColStd_Array2OfReal,
    TColStd_HArray1OfReal,
)
from OCP.TopoDS import TopoDS_Shape

from model3d.geometry.outline import Obround, Outline
from model3d.geometry.placement import Placement, Vec3, cross, scale, subtract
from model3d.parts.fittings import HoseSpec
from model3d.parts.hose_curve import HoseCurve, hose_curve, stretches_mm
from model3d.solids.outlines import flat_face, obround_outline
from model3d.solids.skins import sewn
from model3d.solids.sound import SolidError

_SPACING_MM = 3.0
_FIT_MM = 1e-7
_MIDDLE_WEIGHT = math.sqrt(0.5)


def hose(spec: HoseSpec) -> cq.Solid:
    """One hose, mm: from the datum along x, round its turn, open through both ends.

    Raises SolidError when it is too short for its way, bent tighter than it is thick, or its wall is not
    above 0.
    """
    try:
        curve = hose_curve(spec)
    except ValueError as error:
        raise SolidError(f"hose: {error}") from error
    if not 0.0 < spec.inner_radius_mm < spec.outer_radius_mm:
        raise SolidError(f"hose: no wall between radius {spec.inner_radius_mm} and {spec.outer_radius_mm} mm")
    if not curve.least_bend_radius_mm > spec.outer_radius_mm:
        tightest = curve.least_bend_radius_mm
        raise SolidError(f"hose: bent to {tightest:.2f} mm, tighter than its own {spec.outer_radius_mm} mm")
    outer, inner = _round(spec.outer_radius_mm), _round(spec.inner_radius_mm)
    ends = [flat_face(outer, [inner], _square_to(curve, s_mm)) for s_mm in (0.0, curve.plan_length_mm)]
    skins = [
        (_level_patch if curve.is_grip(places[0], places[-1]) else _patch)(curve, places, radius, quarter)
        for places in stretches_mm(curve, _SPACING_MM)
        for radius in (spec.outer_radius_mm, spec.inner_radius_mm)
        for quarter in range(4)
    ]
    return sewn([*skins, *ends], "hose")


def _round(radius_mm: float) -> Outline:
    """A circle about the centre line."""
    return obround_outline(Obround(width_mm=2.0 * radius_mm, height_mm=2.0 * radius_mm))


def _square_to(curve: HoseCurve, s_mm: float) -> Placement:
    """The plane square to the centre line: its x level and to the left, its y up, its normal along the
    way."""
    ahead = curve.tangent(s_mm)
    level = math.hypot(ahead[0], ahead[1])
    left = (-ahead[1] / level, ahead[0] / level, 0.0)
    return Placement(origin_mm=curve.point(s_mm), x_axis=left, y_axis=cross(ahead, left), z_axis=ahead)


def _patch(curve: HoseCurve, places: Sequence[float], radius_mm: float, quarter: int) -> TopoDS_Shape:
    """A quarter of a skin: three pole lines, the middle one further out and lighter, as a circle's quarter
    needs."""
    start = quarter * math.pi / 2.0
    lines = [
        _pole_line(curve, places, radius_mm, start),
        _pole_line(curve, places, radius_mm / _MIDDLE_WEIGHT, start + math.pi / 4.0),
        _pole_line(curve, places, radius_mm, start + math.pi / 2.0),
    ]
    return BRepBuilderAPI_MakeFace(_surface(lines), _FIT_MM).Face()


def _level_patch(curve: HoseCurve, places: Sequence[float], radius_mm: float, quarter: int) -> TopoDS_Shape:
    """A quarter of a round cylinder along a straight and level stretch."""
    plane = _square_to(curve, places[0])
    frame = gp_Ax3(gp_Pnt(*plane.origin_mm), gp_Dir(*plane.z_axis), gp_Dir(*plane.x_axis))
    start, end = quarter * math.pi / 2.0, (quarter + 1) * math.pi / 2.0
    surface = Geom_CylindricalSurface(frame, radius_mm)
    return BRepBuilderAPI_MakeFace(surface, start, end, 0.0, places[-1] - places[0], _FIT_MM).Face()


def _pole_line(
    curve: HoseCurve, places: Sequence[float], radius_mm: float, angle_rad: float
) -> Geom_BSplineCurve:
    """The cubic spline that one pole of the section follows along the hose."""

    def pole(s_mm: float) -> Vec3:
        plane = _square_to(curve, s_mm)
        return plane.point((radius_mm * math.cos(angle_rad), radius_mm * math.sin(angle_rad), 0.0))

    def way(s_mm: float) -> gp_Vec:
        here, towards = pole(s_mm), 1e-3 if s_mm == places[0] else -1e-3
        near, far = (subtract(pole(s_mm + k * towards), here) for k in (1, 2))
        return gp_Vec(*scale(subtract(scale(near, 4.0), far), 0.5 / towards))

    points, parameters = TColgp_HArray1OfPnt(1, len(places)), TColStd_HArray1OfReal(1, len(places))
    for k, s_mm in enumerate(places, start=1):
        points.SetValue(k, gp_Pnt(*pole(s_mm)))
        parameters.SetValue(k, s_mm)
    maker = GeomAPI_Interpolate(points, parameters, False, _FIT_MM)
    maker.Load(way(places[0]), way(places[-1]), False)
    maker.Perform()
    return maker.Curve()


def _surface(lines: Sequence[Geom_BSplineCurve]) -> Geom_BSplineSurface:
    """The patch over three pole lines with common knots."""
    first = lines[0]
    count = first.NbPoles()
    poles, weights = TColgp_Array2OfPnt(1, count, 1, 3), TColStd_Array2OfReal(1, count, 1, 3)
    for column, (line, weight) in enumerate(zip(lines, (1.0, _MIDDLE_WEIGHT, 1.0), strict=True), start=1):
        for row in range(1, count + 1):
            poles.SetValue(row, column, line.Pole(row))
            weights.SetValue(row, column, weight)
    knots, counts = TColStd_Array1OfReal(1, first.NbKnots()), TColStd_Array1OfInteger(1, first.NbKnots())
    for k in range(1, first.NbKnots() + 1):
        knots.SetValue(k, first.Knot(k))
        counts.SetValue(k, first.Multiplicity(k))
    across, twice = TColStd_Array1OfReal(1, 2), TColStd_Array1OfInteger(1, 2)
    for k, value in enumerate((0.0, 1.0), start=1):
        across.SetValue(k, value)
        twice.SetValue(k, 3)
    return Geom_BSplineSurface(poles, weights, knots, across, counts, twice, first.Degree(), 2)
