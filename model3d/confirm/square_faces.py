"""Plane faces of a placed solid that stand square to a line, found on its boundary by their planes."""

from __future__ import annotations

from dataclasses import dataclass

import cadquery as cq
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepGProp import BRepGProp
from OCP.GeomAbs import GeomAbs_SurfaceType
from OCP.GProp import GProp_GProps
from OCP.TopAbs import TopAbs_Orientation, TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS, TopoDS_Face, TopoDS_Shape

from model3d.geometry.placement import Placement, Vec3, dot, subtract
from model3d.solids.placing import located

SQUARE = 1.0 - 1e-10  # cosine: a hundred-thousandth of a radian off square is off


@dataclass(frozen=True, slots=True, kw_only=True)
class SquareFace:
    """A plane face square to a line: ``along_mm`` where its plane stands from the line's start, ``looks`` +1
    when its outside is toward the line's end; ``middle_mm`` its centre of area, room frame; ``ring`` whether
    it goes round a hole.
    """

    along_mm: float
    looks: int
    middle_mm: Vec3
    area_mm2: float
    ring: bool


def square_faces(
    solid: cq.Solid, placement: Placement, start_mm: Vec3, direction: Vec3
) -> tuple[SquareFace, ...]:
    """Every plane face of a solid, placed, that stands square to the line from ``start_mm`` along the unit
    ``direction``.
    """
    found: list[SquareFace] = []
    faces = TopExp_Explorer(located(solid, placement).wrapped, TopAbs_ShapeEnum.TopAbs_FACE)
    while faces.More():
        face = TopoDS.Face_s(faces.Current())
        faces.Next()
        surface = BRepAdaptor_Surface(face)
        if surface.GetType() != GeomAbs_SurfaceType.GeomAbs_Plane:
            continue
        plane = surface.Plane()
        n, p = plane.Axis().Direction(), plane.Location()
        cosine = dot((n.X(), n.Y(), n.Z()), direction)
        if abs(cosine) < SQUARE:
            continue
        looks = _outward(face, plane.Direct(), cosine)
        found.append(_square_face(face, dot(subtract((p.X(), p.Y(), p.Z()), start_mm), direction), looks))
    return tuple(found)


def _outward(face: TopoDS_Face, direct: bool, cosine: float) -> int:
    """+1 when the outside of a plane face is on the side that its plane's axis and this cosine say, else -1."""
    turned = (face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED) != (not direct)
    return 1 if (cosine > 0.0) != turned else -1


def _square_face(face: TopoDS_Face, along_mm: float, looks: int) -> SquareFace:
    surface = GProp_GProps()
    BRepGProp.SurfaceProperties_s(face, surface)
    c = surface.CentreOfMass()
    return SquareFace(
        along_mm=along_mm,
        looks=looks,
        middle_mm=(c.X(), c.Y(), c.Z()),
        area_mm2=surface.Mass(),
        ring=_wires(face) > 1,
    )


def _wires(face: TopoDS_Shape) -> int:
    count, wires = 0, TopExp_Explorer(face, TopAbs_ShapeEnum.TopAbs_WIRE)
    while wires.More():
        count += 1
        wires.Next()
    return count
