"""Triangle meshes of solids: closed, welded, seen from outside, in the solid's own frame."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from OCP.BRep import BRep_Tool
from OCP.BRepBuilderAPI import BRepBuilderAPI_Copy
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.TopAbs import TopAbs_Orientation, TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS, TopoDS_Shape

from model3d.geometry.placement import Placement

if TYPE_CHECKING:
    from numpy import float64, intp
    from numpy.typing import NDArray

# Faces that meet at an edge share its points; what differs is rounding, far under this.
_WELD_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class TriangleMesh:
    """``vertices_mm`` (n, 3) and ``triangles`` (m, 3), each counter-clockwise seen from outside."""

    vertices_mm: NDArray[float64]
    triangles: NDArray[intp]

    @property
    def volume_mm3(self) -> float:
        """Enclosed volume, by the divergence theorem; negative when the triangles are seen from inside."""
        import numpy as np

        a, b, c = (self.vertices_mm[self.triangles[:, corner]] for corner in range(3))
        return float(np.einsum("ij,ij->", a, np.cross(b, c))) / 6.0

    def open_edges(self) -> int:
        """How many directed edges lack a partner run the other way; none in a closed mesh."""
        import numpy as np

        edges = np.concatenate([self.triangles[:, pair] for pair in ((0, 1), (1, 2), (2, 0))]).astype(np.int64)
        ends = int(edges.max(initial=0)) + 1
        forth, back = edges[:, 0] * ends + edges[:, 1], edges[:, 1] * ends + edges[:, 0]
        _, number = np.unique(np.concatenate([forth, back]), return_inverse=True)
        sides = np.bincount(number, weights=np.repeat((1, -1), len(edges)))
        return int(np.abs(sides).sum()) // 2

    def placed(self, placement: Placement) -> TriangleMesh:
        """The mesh turned and moved to where ``placement`` puts it."""
        import numpy as np

        axes = np.array([placement.x_axis, placement.y_axis, placement.z_axis])
        moved = self.vertices_mm @ axes + np.array(placement.origin_mm)
        return TriangleMesh(vertices_mm=moved, triangles=self.triangles)


def fresh_copy(body: TopoDS_Shape) -> TopoDS_Shape:
    """A copy that shares nothing with ``body`` and has no mesh: meshing it leaves ``body`` as it was."""
    return BRepBuilderAPI_Copy(body, True, False).Shape()


def solid_mesh(body: TopoDS_Shape, name: str, *, deflection_mm: float, angle_deg: float) -> TriangleMesh:
    """A closed mesh of one solid; ``body`` itself is left without a mesh.

    No triangle stands off the true surface by more than about ``deflection_mm``, and neighbours along a
    curve turn by at most ``angle_deg``. Raises ValueError, naming the solid by ``name``, when the mesh is
    not closed or is inside out, or when a limit is not positive.
    """
    if not (deflection_mm > 0.0 and angle_deg > 0.0):
        raise ValueError(f"a mesh needs a positive deflection and angle, not {deflection_mm} mm, {angle_deg} deg")
    copy = fresh_copy(body)
    BRepMesh_IncrementalMesh(copy, deflection_mm, False, math.radians(angle_deg), False)
    mesh = _welded(*_face_triangles(copy, name))
    if (gaps := mesh.open_edges()) or not mesh.volume_mm3 > 0.0:
        state = f"is not closed ({gaps} open edges)" if gaps else "is inside out or holds nothing"
        raise ValueError(f"the mesh of {name!r} {state}")
    return mesh


def _face_triangles(
    shape: TopoDS_Shape, name: str
) -> tuple[list[tuple[float, float, float]], list[tuple[int, int, int]]]:
    points: list[tuple[float, float, float]] = []
    triangles: list[tuple[int, int, int]] = []
    faces = TopExp_Explorer(shape, TopAbs_ShapeEnum.TopAbs_FACE)
    while faces.More():
        face = TopoDS.Face_s(faces.Current())
        faces.Next()
        where = TopLoc_Location()
        net = BRep_Tool.Triangulation_s(face, where)
        if net is None:
            raise ValueError(f"the kernel could not mesh a face of {name!r}")
        first, turn = len(points) - 1, where.Transformation()
        for number in range(1, net.NbNodes() + 1):
            node = net.Node(number).Transformed(turn)
            points.append((node.X(), node.Y(), node.Z()))
        seen_from_inside = face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED
        for number in range(1, net.NbTriangles() + 1):
            a, b, c = net.Triangle(number).Get()
            if seen_from_inside:
                b, c = c, b
            triangles.append((first + a, first + b, first + c))
    return points, triangles


def _welded(points: list[tuple[float, float, float]], triangles: list[tuple[int, int, int]]) -> TriangleMesh:
    """One vertex for each distinct point; triangles that thereby lose a side are left out."""
    import numpy as np

    grid = np.rint(np.array(points, dtype=float).reshape(-1, 3) / _WELD_MM).astype(np.int64)
    _, kept, number = np.unique(grid, axis=0, return_index=True, return_inverse=True)
    welded = number.reshape(-1)[np.array(triangles, dtype=np.intp).reshape(-1, 3)]
    a, b, c = welded.T
    whole = (a != b) & (b != c) & (c != a)
    return TriangleMesh(vertices_mm=np.array(points, dtype=float).reshape(-1, 3)[kept], triangles=welded[whole])
