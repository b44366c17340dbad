"""Volume, depth and place of one connected overlap as the kernel's boolean leaves it.

The widest ball is found on a mesh of the overlap, and then, where the mesh is coarse beside it,
moved and widened between the true faces near it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeVertex
from OCP.BRepExtrema import BRepExtrema_DistShapeShape
from OCP.BRepGProp import BRepGProp
from OCP.gp import gp_Pnt
from OCP.GProp import GProp_GProps
from OCP.TopAbs import TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS_Shape

from model3d.checks.engine.bodies import Overlap
from model3d.checks.engine.depth import Ball, Points, Region, climbed, widest_ball
from model3d.checks.engine.facets import Facets, facets, joined, welded

ROUGH_SHARE, LEAST_MM, MOST_MM = (
    0.004,
    0.0005,
    0.05,
)  # deflection as a share of the overlap's size; its bounds
CLOSE_SHARE = 0.005  # deflection as a share of the depth, up to which the mesh's own ball will do
SHARE_OF_DEPTH = 0.2  # what the deflection may be of the depth that is to be found with it
ANGLE_RAD = 0.35
Feet = Callable[[Points, float], Points]
AS_MUCH = 1.02  # of the ball of its volume: no wider one fits in a solid
AS_WIDE = 0.98  # of the widest ball: where one of this share fits, it is as deep


def part_overlap(solid: TopoDS_Shape) -> Overlap | None:
    """The measures of one solid, in its own frame; None when it holds nothing."""
    held = GProp_GProps()
    BRepGProp.VolumeProperties_s(solid, held)
    if held.Mass() <= 0.0:
        return None
    try:
        meshes, region, deflection = _mesh(solid)
    except ValueError:
        return _unmeshed(solid, held)
    most = (6.0 * held.Mass() / np.pi) ** (1.0 / 3.0)
    ball = widest_ball(region)
    if deflection > SHARE_OF_DEPTH * ball.diameter_mm:
        meshes, region, deflection = _mesh(solid, max(SHARE_OF_DEPTH * ball.diameter_mm, LEAST_MM))
        ball = widest_ball(region)
    feet: Feet = region.feet
    if deflection > CLOSE_SHARE * ball.diameter_mm:
        feet = _true_feet(solid, meshes, deflection)
        ball = climbed(feet, ball, step_mm=2.0 * deflection)
    if ball.diameter_mm > most * AS_MUCH:  # more than it holds: its mesh is of no use
        return _unmeshed(solid, held)
    c = held.CentreOfMass()
    middle = Ball(diameter_mm=ball.diameter_mm, centre_mm=(c.X(), c.Y(), c.Z()))
    if _fits(feet, region, middle):
        ball = middle
    return Overlap(volume_mm3=float(held.Mass()), depth_mm=ball.diameter_mm, place_mm=ball.centre_mm)


def _unmeshed(solid: TopoDS_Shape, held: GProp_GProps) -> Overlap:
    """The measures of a solid that the kernel cannot mesh, as a rule a sliver of its own tolerance where two
    faces are one: its depth by its volume V and surface S, the least of 6 V/S (no convex body holds a wider
    ball) and that of the ball of its volume.
    """
    around = GProp_GProps()
    BRepGProp.SurfaceProperties_s(solid, around)
    volume, c = float(held.Mass()), held.CentreOfMass()
    depth = min(6.0 * volume / max(around.Mass(), 1e-12), (6.0 * volume / np.pi) ** (1.0 / 3.0))
    return Overlap(volume_mm3=volume, depth_mm=float(depth), place_mm=(c.X(), c.Y(), c.Z()))


def _fits(feet: Feet, region: Region, ball: Ball) -> bool:
    """Whether a ball all but as wide fits about a place."""
    place = np.array(ball.centre_mm)
    if not region.holds(place):
        return False
    clearance = float(np.linalg.norm(feet(place, 0.0) - place, axis=1).min())
    return clearance >= AS_WIDE * ball.diameter_mm / 2.0


def _mesh(solid: TopoDS_Shape, deflection_mm: float | None = None) -> tuple[tuple[Facets, ...], Region, float]:
    """The mesh of each face, all as a region, and the deflection: the one given, or by the size of the solid."""
    if deflection_mm is None:
        rough = joined(facets(solid, deflection_mm=MOST_MM, angle_rad=ANGLE_RAD))
        size = float(np.linalg.norm(np.ptp(rough.points, axis=0)))
        deflection_mm = min(max(size * ROUGH_SHARE, LEAST_MM), MOST_MM)
    meshes = facets(solid, deflection_mm=deflection_mm, angle_rad=ANGLE_RAD)
    whole_mesh = joined(meshes)
    kept, number, whole = welded(whole_mesh)
    region = Region(points=whole_mesh.points[kept], triangles=number[whole_mesh.triangles[whole]])
    return meshes, region, deflection_mm


def _true_feet(solid: TopoDS_Shape, meshes: Sequence[Facets], deflection_mm: float) -> Feet:
    """The nearest points of the true faces, one of each face within a distance of a place; those of the
    nearest always.
    """
    faces: list[TopoDS_Shape] = []
    explorer = TopExp_Explorer(solid, TopAbs_ShapeEnum.TopAbs_FACE)
    while explorer.More():
        faces.append(explorer.Current())
        explorer.Next()
    low = np.array([mesh.points.min(axis=0) for mesh in meshes]) - deflection_mm
    high = np.array([mesh.points.max(axis=0) for mesh in meshes]) + deflection_mm

    def feet(place: Points, within_mm: float) -> Points:
        vertex = BRepBuilderAPI_MakeVertex(gp_Pnt(*place)).Vertex()
        at_least = np.linalg.norm(np.maximum(np.maximum(low - place, place - high), 0.0), axis=1)
        found: list[tuple[float, tuple[float, float, float]]] = []
        for k in np.argsort(at_least, kind="stable"):
            nearest = min((far for far, _ in found), default=np.inf)
            if at_least[k] > max(within_mm, nearest):
                break
            found.append(_foot(vertex, faces[k]))
        nearest = min(far for far, _ in found)
        return np.array([foot for far, foot in found if far <= max(within_mm, nearest)])

    return feet


def _foot(vertex: TopoDS_Shape, face: TopoDS_Shape) -> tuple[float, tuple[float, float, float]]:
    found = BRepExtrema_DistShapeShape(vertex, face)
    point = found.PointOnShape2(1)
    return float(found.Value()), (point.X(), point.Y(), point.Z())
