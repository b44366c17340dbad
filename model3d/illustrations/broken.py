"""Long pieces drawn short: a stretch of the piece from one end, broken off along a wavy line (ISO 128-2, a continuous
freehand line).
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from itertools import pairwise
from typing import Literal

import cadquery as cq
import numpy as np
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge, BRepBuilderAPI_MakeFace, BRepBuilderAPI_MakeWire
from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism
from OCP.GeomAPI import GeomAPI_PointsToBSpline
from OCP.gp import gp_Pnt, gp_Vec
from OCP.TColgp import TColgp_Array1OfPnt

from model3d.illustrations.shapes import Shape, shape_of
from model3d.parts.profile import PieceSpec
from model3d.solids.build import solid
from model3d.solids.joining import cut

WAVE_MM = 3.0  # how far the break swings either way
_SPARE_MM = 30.0
_POINTS = 25

Side = Literal["low", "high"]


@cache
def stub(spec: PieceSpec, kept_mm: float, side: Side, *, from_above: bool = False) -> Shape:
    """The first (``low``) or last (``high``) ``kept_mm`` of a piece along x, in the whole piece's frame, the other end
    broken off along a wave up the piece, or across it for a view ``from_above``. A piece that is hardly longer than
    that is given whole.
    """
    if spec.length_mm < kept_mm + _SPARE_MM:
        return shape_of(solid(spec).wrapped)
    short = kept_mm + _SPARE_MM
    whole = solid(replace(spec, length_mm=short))
    at = kept_mm if side == "low" else short - kept_mm
    low_u, low_v, high_u, high_v = spec.section.outline.extent_mm
    tool = _beyond(at, side, short, (low_u, high_u) if from_above else (low_v, high_v), from_above=from_above)
    broken = shape_of(cut(whole, [tool], "a piece drawn short").wrapped)
    return _by(_fine(broken, at), spec.length_mm - short if side == "high" else 0.0)


def _beyond(at_mm: float, side: Side, short_mm: float, reach_mm: tuple[float, float], *, from_above: bool) -> cq.Solid:
    """What is taken away: all beyond a wave at ``at_mm``, up the section or across it."""
    points = TColgp_Array1OfPnt(1, _POINTS)
    bottom, top = reach_mm[0] - 5.0, reach_mm[1] + 5.0

    def at(x: float, along: float) -> gp_Pnt:
        return gp_Pnt(x, along, -50.0) if from_above else gp_Pnt(x, -50.0, along)

    for k in range(_POINTS):
        share = k / (_POINTS - 1)
        wave = math.sin(2.0 * math.pi * 1.5 * share) + 0.35 * math.sin(2.0 * math.pi * 3.2 * share + 0.8)
        points.SetValue(k + 1, at(at_mm + WAVE_MM * wave / 1.3, bottom + share * (top - bottom)))
    wave_edge = BRepBuilderAPI_MakeEdge(GeomAPI_PointsToBSpline(points, 3, 8).Curve()).Edge()
    far = short_mm + 50.0 if side == "low" else -50.0
    first, last = points.Value(1), points.Value(_POINTS)
    corners = [last, at(far, top), at(far, bottom), first]
    maker = BRepBuilderAPI_MakeWire(wave_edge)
    for a, b in pairwise(corners):
        maker.Add(BRepBuilderAPI_MakeEdge(a, b).Edge())
    face = BRepBuilderAPI_MakeFace(maker.Wire(), True).Face()
    through = gp_Vec(0.0, 0.0, 400.0) if from_above else gp_Vec(0.0, 300.0, 0.0)
    return cq.Solid(BRepPrimAPI_MakePrism(face, through).Shape())


def _fine(shape: Shape, at_mm: float) -> Shape:
    """The break's edges thin, and its face taken as flat: it has no contour of its own."""
    edges = [
        replace(line, fine=True) if np.abs(line.points_mm[:, 0] - at_mm).max() < 1.2 * WAVE_MM else line
        for line in shape.edges
    ]
    on_break = (np.abs(shape.corners_mm[:, :, 0] - at_mm) < 1.2 * WAVE_MM).all(axis=1)
    return replace(shape, edges=tuple(edges), curved=shape.curved & ~on_break)


def _by(shape: Shape, x_mm: float) -> Shape:
    """The shape shifted along x."""
    way = np.array([x_mm, 0.0, 0.0])
    edges = tuple(replace(line, points_mm=line.points_mm + way) for line in shape.edges)
    return replace(shape, corners_mm=shape.corners_mm + way, edges=edges)
