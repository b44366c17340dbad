"""What of a long solid comes near a small one, told so that two places which look alike from the small one
are known to be alike: an O-ring is pressed the same anywhere in a plain bore, whatever the length of the
piece.

Told are the plane and cylindrical faces near, by their surfaces, and their straight edges cut to the box
round the small one, each with the side on which its face lies. Where anything else comes near, nothing is
told.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from OCP.Bnd import Bnd_Box
from OCP.BRepAdaptor import BRepAdaptor_Curve, BRepAdaptor_Surface
from OCP.BRepBndLib import BRepBndLib
from OCP.GeomAbs import GeomAbs_CurveType, GeomAbs_SurfaceType
from OCP.gp import gp_Dir, gp_Pnt
from OCP.TopAbs import TopAbs_Orientation, TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS, TopoDS_Face, TopoDS_Shape

Points = npt.NDArray[np.float64]
Told = tuple[tuple[float, ...], ...]

DIGITS = 6
MOST_FACES = 12
CURVE_SAMPLES = 8
IN_LINE_MM = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class _Edge:
    """``ends`` (2, 3), start and end as its face has it on the left; ``box`` (2, 3); ``straight`` or not."""

    ends: Points
    box: Points
    straight: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _Surface:
    """``round_mm`` 0 for a plane, else the cylinder's radius, negative where its outside is toward the axis;
    ``place`` a point of the plane or the axis; ``way`` the plane's outward normal or the axis. None of it for
    other surfaces.
    """

    round_mm: float
    place: Points
    way: Points


@dataclass(frozen=True, slots=True, kw_only=True)
class Boundary:
    """The faces of a solid in its own frame: surfaces (None for kinds that are not told), edges, and boxes
    (f, 2, 3).
    """

    surfaces: tuple[_Surface | None, ...]
    edges: tuple[tuple[_Edge, ...], ...]
    boxes: Points


def boundary(solid: TopoDS_Shape) -> Boundary:
    """The faces of a solid."""
    surfaces: list[_Surface | None] = []
    edges: list[tuple[_Edge, ...]] = []
    boxes: list[Points] = []
    faces = TopExp_Explorer(solid, TopAbs_ShapeEnum.TopAbs_FACE)
    while faces.More():
        face = TopoDS.Face_s(faces.Current())
        surfaces.append(_surface(face))
        edges.append(_edges(face))
        boxes.append(_box(face))
        faces.Next()
    return Boundary(surfaces=tuple(surfaces), edges=tuple(edges), boxes=np.array(boxes).reshape(-1, 2, 3))


def _box(face: TopoDS_Face) -> Points:
    """A box that holds a face, by its surface's own bounds."""
    box = Bnd_Box()
    BRepBndLib.Add_s(face, box, False)
    return np.array(box.Get()).reshape(2, 3)


def told(whole: Boundary, box: Points, to_small: Points) -> Told | None:
    """What comes into a box (2, 3) of the solid's frame, seen from the small one by ``to_small`` (3, 4); None
    when it cannot be told, or nothing does.
    """
    near = np.flatnonzero(np.all((whole.boxes[:, 0] <= box[1]) & (whole.boxes[:, 1] >= box[0]), axis=1))
    if not len(near) or len(near) > MOST_FACES:
        return None
    found: list[tuple[float, ...]] = []
    for k in near:
        surface = whole.surfaces[k]
        cut = _cut_edges(whole.edges[k], box)
        if surface is None or cut is None:
            return None
        if not cut:
            if _misses(surface, box):
                continue
            return None
        seen = sorted(_rounded((edge @ to_small[:, :3].T + to_small[:, 3]).ravel()) for edge in cut)
        found.append((*_seen(surface, to_small), *(value for ends in seen for value in ends)))
    return tuple(sorted(found)) if found else None


def _surface(face: TopoDS_Face) -> _Surface | None:
    kind = BRepAdaptor_Surface(face)
    turned = face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED
    if kind.GetType() == GeomAbs_SurfaceType.GeomAbs_Plane:
        plane = kind.Plane()
        way = _vector(plane.Axis().Direction()) * (-1.0 if turned == plane.Direct() else 1.0)
        return _Surface(round_mm=0.0, place=_vector(plane.Location()), way=way)
    if kind.GetType() == GeomAbs_SurfaceType.GeomAbs_Cylinder:
        cylinder = kind.Cylinder()
        sign = -1.0 if turned == cylinder.Direct() else 1.0
        return _Surface(
            round_mm=sign * cylinder.Radius(),
            place=_vector(cylinder.Axis().Location()),
            way=_vector(cylinder.Axis().Direction()),
        )
    return None


def _edges(face: TopoDS_Face) -> tuple[_Edge, ...]:
    """The edges of a face, each from its start to its end as the face has it."""
    found: list[_Edge] = []
    edges = TopExp_Explorer(face, TopAbs_ShapeEnum.TopAbs_EDGE)
    while edges.More():
        edge = TopoDS.Edge_s(edges.Current())
        edges.Next()
        curve = BRepAdaptor_Curve(edge)
        first, last = curve.FirstParameter(), curve.LastParameter()
        points = np.array(
            [_vector(curve.Value(float(at))) for at in np.linspace(first, last, CURVE_SAMPLES + 1)]
        )
        straight = curve.GetType() == GeomAbs_CurveType.GeomAbs_Line or _in_line(points)
        if edge.Orientation() == TopAbs_Orientation.TopAbs_REVERSED:
            points = points[::-1]
        spare = 0.0 if straight else float(np.linalg.norm(np.diff(points, axis=0), axis=1).max())
        box = np.array([points.min(axis=0) - spare, points.max(axis=0) + spare])
        found.append(_Edge(ends=points[[0, -1]], box=box, straight=straight))
    return tuple(found)


def _in_line(points: Points) -> bool:
    """Whether points stand on the straight line from the first to the last: a spline of one stretch is told
    from it by nine.
    """
    way = points[-1] - points[0]
    length = float(np.linalg.norm(way))
    if length < 1e-9:
        return False
    off = np.cross(points - points[0], way / length)
    return bool(np.abs(off).max() < IN_LINE_MM)


def _cut_edges(edges: tuple[_Edge, ...], box: Points) -> list[Points] | None:
    """The straight edges cut to a box, each (2, 3); None when another edge comes into it."""
    found: list[Points] = []
    for edge in edges:
        if np.any(edge.box[0] > box[1]) or np.any(edge.box[1] < box[0]):
            continue
        if not edge.straight:
            return None
        way = edge.ends[1] - edge.ends[0]
        with np.errstate(divide="ignore", invalid="ignore"):
            shares = np.sort((box - edge.ends[0]) / way, axis=0)
        level = np.abs(way) < 1e-12
        low = float(np.where(level, 0.0, shares[0]).max(initial=0.0))
        high = float(np.where(level, 1.0, shares[1]).min(initial=1.0))
        if low < high:
            found.append(np.array([edge.ends[0] + low * way, edge.ends[0] + high * way]))
    return found


def _misses(surface: _Surface, box: Points) -> bool:
    """Whether a whole plane or cylinder surely passes a box by."""
    middle, reach = box.mean(axis=0) - surface.place, float(np.linalg.norm(box[1] - box[0])) / 2.0
    along = float(middle @ surface.way)
    if surface.round_mm == 0.0:
        return abs(along) > reach
    return abs(float(np.linalg.norm(middle - along * surface.way)) - abs(surface.round_mm)) > reach


def _seen(surface: _Surface, to_small: Points) -> tuple[float, ...]:
    """A surface's numbers in the small one's frame, the same for equal surfaces."""
    way, place = to_small[:, :3] @ surface.way, to_small[:, :3] @ surface.place + to_small[:, 3]
    if surface.round_mm == 0.0:
        return _rounded(np.array([0.0, *way, float(way @ place)]))
    leading = next(value for value in way if abs(value) > 1e-6)
    way = way if leading > 0.0 else -way
    return _rounded(np.array([surface.round_mm, *way, *(place - float(place @ way) * way)]))


def _rounded(values: Points) -> tuple[float, ...]:
    return tuple(round(float(value), DIGITS) + 0.0 for value in values)


def _vector(found: gp_Pnt | gp_Dir) -> Points:
    return np.array([found.X(), found.Y(), found.Z()])
