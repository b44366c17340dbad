"""What of a long solid comes near a small one, told so that two places which look alike from the small one
are known to be alike: an O-ring is pressed the same anywhere in a plain bore, whatever the length of the
piece.

Told are the plane and cylindrical faces near, by their surfaces, and their edges, each with the side on which
its face lies: straight ones cut to the box round the small one, arcs whole. Where anything else comes near,
nothing is told.
"""

from __future__ import annotations

from dataclasses import dataclass, field

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
    """``places``: of a straight edge its start and end as its face has it on the left, (2, 3); of an arc two more
    between them, (4, 3), so that a whole circle has a sense as well; None of any other. ``box`` (2, 3) holds it.
    """

    places: Points | None
    box: Points


@dataclass(frozen=True, slots=True, kw_only=True)
class _Surface:
    """``round_mm`` 0 for a plane, else the cylinder's radius, negative where its outside is toward the axis;
    ``place`` a point of the plane or the axis; ``way`` the plane's outward normal or the axis. None of it for
    other surfaces.
    """

    round_mm: float
    place: Points
    way: Points


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Boundary:
    """The faces of a solid in its own frame and the boxes round them, (f, 2, 3); surfaces and edges are read
    when first asked for.
    """

    faces: tuple[TopoDS_Face, ...]
    boxes: Points
    _read: dict[int, tuple[_Surface | None, tuple[_Edge, ...]]] = field(default_factory=dict)

    def face(self, number: int) -> tuple[_Surface | None, tuple[_Edge, ...]]:
        """The surface of a face, None for a kind that is not told, and its edges."""
        if number not in self._read:
            surface = _surface(self.faces[number])
            self._read[number] = surface, () if surface is None else _edges(self.faces[number])
        return self._read[number]


def boundary(solid: TopoDS_Shape) -> Boundary:
    """The faces of a solid."""
    found: list[TopoDS_Face] = []
    faces = TopExp_Explorer(solid, TopAbs_ShapeEnum.TopAbs_FACE)
    while faces.More():
        found.append(TopoDS.Face_s(faces.Current()))
        faces.Next()
    return Boundary(faces=tuple(found), boxes=np.array([_box(face) for face in found]).reshape(-1, 2, 3))


def _box(shape: TopoDS_Shape) -> Points:
    """A box that holds a face or an edge, by the bounds of its own surface or curve."""
    box = Bnd_Box()
    BRepBndLib.Add_s(shape, box, False)
    return np.array(box.Get()).reshape(2, 3)


def told(whole: Boundary, box: Points, to_small: Points) -> Told | None:
    """What comes into a box (2, 3) of the solid's frame, seen from the small one by ``to_small`` (3, 4); None
    when it cannot be told, or nothing does.
    """
    near = np.flatnonzero(np.all((whole.boxes[:, 0] <= box[1]) & (whole.boxes[:, 1] >= box[0]), axis=1))
    if not len(near) or len(near) > MOST_FACES:
        return None
    found: list[tuple[float, ...]] = []
    for k in near.tolist():
        surface, edges = whole.face(k)
        cut = None if surface is None else _cut_edges(edges, box)
        if surface is None or cut is None:
            return None
        if not cut:
            if _misses(surface, box):
                continue
            return None
        seen = sorted((len(edge), *_rounded((edge @ to_small[:, :3].T + to_small[:, 3]).ravel())) for edge in cut)
        found.append((*_seen(surface, to_small), *(value for edge in seen for value in edge)))
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
        places = _places(BRepAdaptor_Curve(edge))
        if places is not None and edge.Orientation() == TopAbs_Orientation.TopAbs_REVERSED:
            places = places[::-1]
        found.append(_Edge(places=places, box=_box(edge)))
    return tuple(found)


def _places(curve: BRepAdaptor_Curve) -> Points | None:
    """What tells a straight edge or an arc from others of its kind; None for another."""
    kind, span = curve.GetType(), (curve.FirstParameter(), curve.LastParameter())
    arc = kind == GeomAbs_CurveType.GeomAbs_Circle
    plain = arc or kind == GeomAbs_CurveType.GeomAbs_Line
    count = (4 if arc else 2) if plain else CURVE_SAMPLES + 1
    points = np.array([_vector(curve.Value(float(at))) for at in np.linspace(*span, count)])
    if plain:
        return points
    return points[[0, -1]] if _in_line(points) else None


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
    """The edges that come into a box: straight ones cut to it, (2, 3), arcs whole, (4, 3); None when another
    kind does.
    """
    found: list[Points] = []
    for edge in edges:
        if (edge.box[0] > box[1]).any() or (edge.box[1] < box[0]).any():
            continue
        if edge.places is None:
            return None
        if len(edge.places) > 2:
            found.append(edge.places)
            continue
        start, way = edge.places[0], edge.places[1] - edge.places[0]
        with np.errstate(divide="ignore", invalid="ignore"):
            shares = np.sort((box - start) / way, axis=0)
        level = np.abs(way) < 1e-12
        low = float(np.where(level, 0.0, shares[0]).max(initial=0.0))
        high = float(np.where(level, 1.0, shares[1]).min(initial=1.0))
        if low < high:
            found.append(np.array([start + low * way, start + high * way]))
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
