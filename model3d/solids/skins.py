"""Solids sewn from their faces: exact surfaces, no cutting.

A chain of stations along x gives a skin: between two stations a ruled face for each edge (planes, cylinders
and cones where the edges are lines and arcs), and where two stations stand at the same x a plane step.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import cadquery as cq
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakePolygon,
    BRepBuilderAPI_MakeSolid,
    BRepBuilderAPI_Sewing,
)
from OCP.BRepLib import BRepLib
from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections
from OCP.gp import gp_Pnt
from OCP.TopoDS import TopoDS, TopoDS_Shape

from model3d.geometry.outline import Outline
from model3d.solids.outlines import across_at, flat_face, wire
from model3d.solids.sound import SolidError, one_solid, shells_in

_SEAM_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """One section of a skin: an outline square to x at ``x_mm``."""

    x_mm: float
    outline: Outline


def skin(stations: Sequence[Station]) -> list[TopoDS_Shape]:
    """The faces along a chain of stations, open at both ends. Raises SolidError when neighbours have unlike
    edges.

    Stations go up in x; two at the same x make a step, whose smaller outline must lie within the larger.
    """
    found: list[TopoDS_Shape] = []
    stretch = [stations[0]]
    for before, after in pairwise(stations):
        if after.x_mm < before.x_mm:
            raise SolidError(f"stations must not go back: {before.x_mm} then {after.x_mm}")
        if after.x_mm == before.x_mm:
            found += _sides(stretch)
            found.append(step(before.outline, after.outline, after.x_mm))
            stretch = []
        stretch.append(after)
    return found + _sides(stretch)


def step(one: Outline, other: Outline, x_mm: float) -> TopoDS_Shape:
    """The plane ring between two outlines at ``x_mm``, whichever is the larger."""
    large, small = (one, other) if abs(one.area_mm2) > abs(other.area_mm2) else (other, one)
    return flat_face(large, [small], across_at(x_mm))


def _sides(stretch: Sequence[Station]) -> list[TopoDS_Shape]:
    """Ruled faces through stations at growing x; nothing for a single station."""
    if len(stretch) < 2:
        return []
    if len({len(s.outline.edges) for s in stretch}) != 1:
        raise SolidError("a skin cannot pass from one outline to another with other edges but by a step")
    if all(segment.through is None for s in stretch for _, segment in s.outline.edges):
        return [face for a, b in pairwise(stretch) for face in _flats(a, b)]
    maker = BRepOffsetAPI_ThruSections(False, True)
    maker.CheckCompatibility(False)
    for station in stretch:
        maker.AddWire(wire(station.outline, across_at(station.x_mm)))
    maker.Build()
    return [maker.Shape()]


def _flats(one: Station, other: Station) -> list[TopoDS_Shape]:
    """Plane faces between two outlines of straight lines; each pair of edges must lie in a plane."""
    found: list[TopoDS_Shape] = []
    for (a, near), (b, far) in zip(one.outline.edges, other.outline.edges, strict=True):
        corners = [gp_Pnt(one.x_mm, *p) for p in (a, near.to)] + [gp_Pnt(other.x_mm, *p) for p in (far.to, b)]
        loop = BRepBuilderAPI_MakePolygon(*corners, True).Wire()
        maker = BRepBuilderAPI_MakeFace(loop, True)
        if not maker.IsDone():
            raise SolidError(f"the edges from {a} at x {one.x_mm} and {b} at x {other.x_mm} lie in no plane")
        found.append(maker.Face())
    return found


def sewn(faces: Iterable[TopoDS_Shape], what: str) -> cq.Solid:
    """The solid that the faces enclose, hollows included. ``what`` names the part. Raises SolidError when
    they leave it open."""
    sewing = BRepBuilderAPI_Sewing(_SEAM_MM)
    for face in faces:
        sewing.Add(face)
    sewing.Perform()
    shells = shells_in(sewing.SewedShape())
    if len(shells) != 1 or not shells[0].Closed():
        raise SolidError(f"{what}: the faces do not close into one shell")
    body = TopoDS.Solid_s(BRepBuilderAPI_MakeSolid(shells[0]).Solid())
    BRepLib.OrientClosedSolid_s(body)
    return one_solid(body, what)


def punched_plate(
    edge: Outline, holes: Sequence[Outline], start_mm: float, end_mm: float, what: str
) -> cq.Solid:
    """A flat plate square to x, from ``start_mm`` to ``end_mm``, with holes right through.

    ``what`` names the part. Raises SolidError when the holes run into each other or the edge.
    """
    ends = (start_mm, end_mm)
    sides = [
        face
        for outline in (edge, *holes)
        for face in skin([Station(x_mm=x_mm, outline=outline) for x_mm in ends])
    ]
    return sewn([*sides, *(flat_face(edge, holes, across_at(x_mm)) for x_mm in ends)], what)
