"""Shapes made ready for line drawing: triangles with the true surface's normals, and the sharp edges as polylines."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Literal

import numpy as np
import numpy.typing as npt
from OCP.BRep import BRep_Tool
from OCP.BRepLib import BRepLib_ToolTriangulatedShape
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.TopAbs import TopAbs_Orientation, TopAbs_ShapeEnum
from OCP.TopExp import TopExp, TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS, TopoDS_Edge, TopoDS_Face, TopoDS_Shape
from OCP.TopTools import TopTools_IndexedDataMapOfShapeListOfShape, TopTools_IndexedMapOfShape

from model3d.geometry.placement import Placement
from model3d.illustrations.camera import Points
from model3d.parts.kinds import Spec
from model3d.solids.build import solid
from model3d.solids.mesh import fresh_copy

Numbers = npt.NDArray[np.int64]

DEFLECTION_MM = 0.05
TURN_DEG = 10.0  # two neighbouring triangles on a curve turn by no more than this
SHARP_DEG = 10.0  # faces that turn less than this where they meet leave no line
_WELD_MM = 1e-5


def moved(points_mm: Points, placement: Placement) -> Points:
    """(n, 3) points of a part's frame in the room frame."""
    return np.asarray(turned(points_mm, placement) + np.asarray(placement.origin_mm))


def turned(ways: Points, placement: Placement) -> Points:
    """(n, 3) directions of a part's frame in the room frame."""
    return np.asarray(ways @ np.array([placement.x_axis, placement.y_axis, placement.z_axis]))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Line:
    """A line on a solid that may be seen: ``points_mm`` (k, 3).

    ``sides`` (2, k, 3) are the unit normals of the surface on either hand of it, twice the same for a contour.
    ``bend`` says how the surface turns at it: ``ridge`` (a sharp edge that stands out), ``valley`` (one that does
    not), or ``contour``. ``fine`` lines are drawn thin whatever lies behind.
    """

    points_mm: Points
    sides: Points
    bend: Literal["ridge", "valley", "contour"]
    fine: bool = False

    def placed(self, placement: Placement) -> Line:
        """The line where ``placement`` puts its solid."""
        ways = turned(self.sides.reshape(-1, 3), placement).reshape(self.sides.shape)
        return Line(points_mm=moved(self.points_mm, placement), sides=ways, bend=self.bend, fine=self.fine)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shape:
    """One solid in its own frame, mm.

    ``corners_mm`` (m, 3, 3) are the triangles, anticlockwise from outside, ``normals`` (m, 3, 3) the surface's unit
    normals at them; ``vertices`` (m, 3) number the corners so that equal places have equal numbers; ``curved`` (m,)
    says whether a triangle lies on a face that is not flat.
    """

    corners_mm: Points
    normals: Points
    vertices: Numbers
    curved: npt.NDArray[np.bool_]
    edges: tuple[Line, ...]


@cache
def shape(spec: Spec) -> Shape:
    """The shape of a part, meshed once for each distinct spec. Raises SolidError as ``solid`` does."""
    return shape_of(solid(spec).wrapped)


def shape_of(body: TopoDS_Shape) -> Shape:
    """A solid as a shape; the solid itself is left without a mesh. Raises ValueError when a face cannot be meshed."""
    copy = fresh_copy(body)
    BRepMesh_IncrementalMesh(copy, DEFLECTION_MM, False, math.radians(TURN_DEG), True)
    faces = _Faces(copy)
    corners = np.concatenate([f.points[f.triangles] for f in faces.found])
    grid = np.rint(corners.reshape(-1, 3) / _WELD_MM).astype(np.int64)
    _, numbers = np.unique(grid, axis=0, return_inverse=True)
    return Shape(
        corners_mm=corners,
        normals=np.concatenate([f.normals[f.triangles] for f in faces.found]),
        vertices=np.asarray(numbers.reshape(-1, 3), dtype=np.int64),
        curved=np.concatenate([np.full(len(f.triangles), f.curved) for f in faces.found]),
        edges=tuple(faces.sharp_edges()),
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Face:
    """A face's own mesh: points, unit outward normals, triangles."""

    face: TopoDS_Face
    points: Points
    normals: Points
    triangles: Numbers
    curved: bool

    def beside(self, nodes: Numbers) -> Points:
        """(k - 1, 3) for each side of the mesh between neighbouring nodes, the third corner of its triangle."""
        third = {}
        for a, b, c in self.triangles.tolist():
            third[frozenset((a, b))], third[frozenset((b, c))], third[frozenset((c, a))] = c, a, b
        pairs = zip(nodes[:-1].tolist(), nodes[1:].tolist(), strict=True)
        return self.points[[third[frozenset(pair)] for pair in pairs]]


class _Faces:
    """The faces of a meshed solid, and the edges between them."""

    def __init__(self, body: TopoDS_Shape) -> None:
        self._body = body
        self.found = [_face(f) for f in _each(body, TopAbs_ShapeEnum.TopAbs_FACE)]
        self._places = TopTools_IndexedMapOfShape()
        for face in self.found:
            self._places.Add(face.face)

    def sharp_edges(self) -> Iterator[Line]:
        """Every edge at which two faces meet at an angle."""
        shared = TopTools_IndexedDataMapOfShapeListOfShape()
        TopExp.MapShapesAndAncestors_s(self._body, TopAbs_ShapeEnum.TopAbs_EDGE, TopAbs_ShapeEnum.TopAbs_FACE, shared)
        for number in range(1, shared.Extent() + 1):
            edge = TopoDS.Edge_s(shared.FindKey(number))
            owners = [TopoDS.Face_s(f) for f in shared.FindFromIndex(number)]
            if BRep_Tool.Degenerated_s(edge) or len(owners) != 2 or owners[0].IsSame(owners[1]):
                continue
            line = self._line(edge, owners)
            if line is not None:
                yield line

    def _line(self, edge: TopoDS_Edge, owners: list[TopoDS_Face]) -> Line | None:
        (mine, nodes), (other, other_nodes) = (self._along(edge, owner) for owner in owners)
        if len(nodes) != len(other_nodes):
            return None
        sides = np.stack([mine.normals[nodes], other.normals[other_nodes]])
        if np.median(np.einsum("ij,ij->i", *sides)) > math.cos(math.radians(SHARP_DEG)):
            return None
        inward = mine.beside(nodes) - mine.points[nodes[:-1]]
        rises = float(np.median(np.einsum("ij,ij->i", inward, sides[1][:-1])))
        return Line(points_mm=mine.points[nodes], sides=sides, bend="ridge" if rises < 0 else "valley")

    def _along(self, edge: TopoDS_Edge, owner: TopoDS_Face) -> tuple[_Face, Numbers]:
        """A face, and the numbers of the edge's points in its mesh."""
        mine = self.found[self._places.FindIndex(owner) - 1]
        where = TopLoc_Location()
        net = BRep_Tool.Triangulation_s(owner, where)
        line = BRep_Tool.PolygonOnTriangulation_s(edge, net, where)
        return mine, np.array([line.Node(k) - 1 for k in range(1, line.NbNodes() + 1)], dtype=np.int64)


def _face(face: TopoDS_Face) -> _Face:
    where = TopLoc_Location()
    net = BRep_Tool.Triangulation_s(face, where)
    if net is None:
        raise ValueError("the kernel could not mesh a face")
    BRepLib_ToolTriangulatedShape.ComputeNormals_s(face, net)
    turned = where.Transformation()
    nodes = [net.Node(k).Transformed(turned) for k in range(1, net.NbNodes() + 1)]
    ways = [net.Normal(k).Transformed(turned) for k in range(1, net.NbNodes() + 1)]
    inside = face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED
    triples = [net.Triangle(k).Get() for k in range(1, net.NbTriangles() + 1)]
    triangles = np.array([(a, c, b) if inside else (a, b, c) for a, b, c in triples], dtype=np.int64) - 1
    normals = np.array([(w.X(), w.Y(), w.Z()) for w in ways])
    return _Face(
        face=face,
        points=np.array([(p.X(), p.Y(), p.Z()) for p in nodes]),
        normals=-normals if inside else normals,
        triangles=triangles,
        curved=bool(np.abs(normals - normals[0]).max() > 1e-6),
    )


def _each(body: TopoDS_Shape, kind: TopAbs_ShapeEnum) -> Iterator[TopoDS_Face]:
    faces = TopExp_Explorer(body, kind)
    while faces.More():
        yield TopoDS.Face_s(faces.Current())
        faces.Next()
