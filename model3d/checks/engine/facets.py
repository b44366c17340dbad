"""Kernel meshes read face by face, as arrays, with the ways the true faces look."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from OCP.BRep import BRep_Builder, BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepLib import BRepLib_ToolTriangulatedShape
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.GeomAbs import GeomAbs_SurfaceType
from OCP.TopAbs import TopAbs_Orientation, TopAbs_ShapeEnum
from OCP.TopExp import TopExp, TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS, TopoDS_Compound, TopoDS_Face, TopoDS_Shape
from OCP.TopTools import TopTools_IndexedDataMapOfShapeListOfShape, TopTools_IndexedMapOfShape

from model3d.solids.mesh import fresh_copy

Points = npt.NDArray[np.float64]
Triangles = npt.NDArray[np.int64]

WELD_MM = 1e-6  # faces that meet at an edge share its points; what differs is rounding, far under this


@dataclass(frozen=True, slots=True, kw_only=True)
class Facets:
    """A mesh in the shape's own frame, mm: ``points`` (n, 3), each with the outward ``normals`` of the true
    face there, whether that face is ``flat``; ``triangles`` (m, 3), anticlockwise from outside.
    """

    points: Points
    normals: Points
    flat: npt.NDArray[np.bool_]
    triangles: Triangles


def facets(
    shape: TopoDS_Shape,
    *,
    deflection_mm: float,
    angle_rad: float,
    refined: Collection[int] = (),
    refined_mm: float = 0.0,
    known: Sequence[Facets] = (),
) -> tuple[Facets, ...]:
    """The mesh of each face of a shape, in the order of its faces; the shape itself is left without one.

    The faces numbered in ``refined`` (from 0) get a mesh of deflection ``refined_mm``. With what is ``known`` of the
    faces from the same call without refining, only those and their neighbours are meshed. Raises ValueError when the
    kernel cannot mesh a face.
    """
    copy = fresh_copy(shape)
    faces: list[TopoDS_Face] = []
    explorer = TopExp_Explorer(copy, TopAbs_ShapeEnum.TopAbs_FACE)
    while explorer.More():
        faces.append(TopoDS.Face_s(explorer.Current()))
        explorer.Next()
    if refined:  # what is meshed fine enough already is kept
        BRepMesh_IncrementalMesh(_together(faces, refined), refined_mm, False, angle_rad, False)
    anew = set(_with_neighbours(copy, faces, refined)) if known and refined else set(range(len(faces)))
    part = copy if len(anew) == len(faces) else _together(faces, sorted(anew))
    BRepMesh_IncrementalMesh(part, deflection_mm, False, angle_rad, False)
    read = iter(_faces([faces[k] for k in sorted(anew)]))
    return tuple(next(read) if k in anew else known[k] for k in range(len(faces)))


def _together(faces: Sequence[TopoDS_Face], numbers: Collection[int]) -> TopoDS_Compound:
    """Some of the faces as one shape."""
    some, builder = TopoDS_Compound(), BRep_Builder()
    builder.MakeCompound(some)
    for number in numbers:
        builder.Add(some, faces[number])
    return some


def _with_neighbours(shape: TopoDS_Shape, faces: Sequence[TopoDS_Face], numbers: Collection[int]) -> list[int]:
    """The numbers of some faces and of those that they share an edge with."""
    along = TopTools_IndexedDataMapOfShapeListOfShape()
    TopExp.MapShapesAndAncestors_s(shape, TopAbs_ShapeEnum.TopAbs_EDGE, TopAbs_ShapeEnum.TopAbs_FACE, along)
    listed = TopTools_IndexedMapOfShape()
    for face in faces:
        listed.Add(face)
    found = set(numbers)
    for number in numbers:
        edges = TopExp_Explorer(faces[number], TopAbs_ShapeEnum.TopAbs_EDGE)
        while edges.More():
            found.update(listed.FindIndex(face) - 1 for face in along.FindFromKey(edges.Current()))
            edges.Next()
    return sorted(found)


def joined(faces: Sequence[Facets]) -> Facets:
    """All faces as one list of points and triangles, not yet welded."""
    starts = np.cumsum([0, *(len(f.points) for f in faces)])
    return Facets(
        points=np.concatenate([f.points for f in faces]),
        normals=np.concatenate([f.normals for f in faces]),
        flat=np.concatenate([f.flat for f in faces]),
        triangles=np.concatenate([f.triangles + start for f, start in zip(faces, starts, strict=False)]),
    )


def welded(mesh: Facets) -> tuple[npt.NDArray[np.int64], npt.NDArray[np.int64], npt.NDArray[np.bool_]]:
    """Which points stay when points in one place become one, which of those each point becomes, and which
    triangles are left.
    """
    grid = np.rint(mesh.points / WELD_MM).astype(np.int64)
    _, kept, number = np.unique(grid, axis=0, return_index=True, return_inverse=True)
    number = number.reshape(-1)
    a, b, c = number[mesh.triangles].T
    return kept, number, (a != b) & (b != c) & (c != a)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Net:
    """The mesh of one face as the kernel has it: ``normals`` empty where it is flat, ``triangles`` from 1."""

    nodes: list[tuple[float, float, float]]
    normals: list[tuple[float, float, float]]
    triangles: list[tuple[int, int, int]]
    inward: bool
    turn: Points | None


def _faces(faces: Sequence[TopoDS_Face]) -> list[Facets]:
    """The meshes of some faces; their points and triangles are reckoned with all at once."""
    if not faces:
        return []
    nets = [_net(face) for face in faces]
    points = np.array([node for net in nets for node in net.nodes])
    none = [(0.0, 0.0, 0.0)]
    normals = np.array([way for net in nets for way in net.normals or none * len(net.nodes)])
    triangles = np.array([three for net in nets for three in net.triangles], dtype=np.int64) - 1
    ends, lasts = np.cumsum([len(net.nodes) for net in nets]), np.cumsum([len(net.triangles) for net in nets])
    starts, firsts = np.array([0, *ends[:-1]]), np.array([0, *lasts[:-1]])
    for net, start, end in zip(nets, starts, ends, strict=True):
        if net.turn is not None:
            points[start:end] = points[start:end] @ net.turn[:, :3].T + net.turn[:, 3]
            normals[start:end] = normals[start:end] @ net.turn[:, :3].T
    turned = np.repeat([net.inward for net in nets], lasts - firsts)
    triangles[turned] = triangles[turned, ::-1]
    a, b, c = (points[corner] for corner in (triangles + np.repeat(starts, lasts - firsts)[:, None]).T)
    across = np.cross(b - a, c - a)
    first_normals = normals[triangles[:, 0] + np.repeat(starts, lasts - firsts)]
    out = np.add.reduceat(np.einsum("ij,ij->i", across, first_normals), firsts) >= 0.0
    ways = np.add.reduceat(across, firsts)
    found = []
    for k, net in enumerate(nets):
        at, flat = slice(starts[k], ends[k]), not net.normals
        if flat:
            normals[at] = ways[k] / np.linalg.norm(ways[k])
        elif not out[k]:
            normals[at] = -normals[at]
        found.append(
            Facets(
                points=points[at],
                normals=normals[at],
                flat=np.full(len(net.nodes), flat),
                triangles=triangles[firsts[k] : lasts[k]],
            )
        )
    return found


def _net(face: TopoDS_Face) -> _Net:
    where = TopLoc_Location()
    net = BRep_Tool.Triangulation_s(face, where)
    if net is None or not net.NbTriangles():
        raise ValueError("the kernel could not mesh a face")
    flat = BRepAdaptor_Surface(face).GetType() == GeomAbs_SurfaceType.GeomAbs_Plane
    if not flat:
        BRepLib_ToolTriangulatedShape.ComputeNormals_s(face, net)
    numbers = range(1, net.NbNodes() + 1)
    return _Net(
        nodes=[net.Node(i).Coord() for i in numbers],
        normals=[] if flat else [net.Normal(i).Coord() for i in numbers],
        triangles=[net.Triangle(i).Get() for i in range(1, net.NbTriangles() + 1)],
        inward=face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED,
        turn=None if where.IsIdentity() else _turn(where),
    )


def _turn(where: TopLoc_Location) -> Points:
    """A location as 3 x 4."""
    there = where.Transformation()
    return np.array([[there.Value(row, column) for column in (1, 2, 3, 4)] for row in (1, 2, 3)])
