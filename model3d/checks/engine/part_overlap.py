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
AS_WIDE = 0.98  # of the widest ball: where one of this share fits, it is as deep


def part_overlap(solid: TopoDS_Shape) -> Overlap | None:
    """The measures of one solid, in its own frame; None when it holds nothing."""
    held = GProp_GProps()
    BRepGProp.VolumeProperties_s(solid, held)
    if held.Mass() <= 0.0:
        return None
    meshes, region, deflection = _mesh(solid)
    ball = widest_ball(region)
    if deflection > SHARE_OF_DEPTH * ball.diameter_mm:
        meshes, region, deflection = _mesh(solid, max(SHARE_OF_DEPTH * ball.diameter_mm, LEAST_MM))
        ball = widest_ball(region)
    rough = deflection > CLOSE_SHARE * ball.diameter_mm
    if rough:
        ball = climbed(_faces_near(solid, meshes, ball, deflection), ball, step_mm=2.0 * deflection)
    c = held.CentreOfMass()
    middle = Ball(diameter_mm=ball.diameter_mm, centre_mm=(c.X(), c.Y(), c.Z()))
    if _fits(_faces_near(solid, meshes, middle, deflection) if rough else region.feet, region, middle):
        ball = middle
    return Overlap(volume_mm3=float(held.Mass()), depth_mm=ball.diameter_mm, place_mm=ball.centre_mm)


def _fits(feet: Feet, region: Region, ball: Ball) -> bool:
    """Whether a ball all but as wide fits about a place."""
    place = np.array(ball.centre_mm)
    if not region.holds(place):
        return False
    near = feet(place, 0.0)
    return (
        len(near) == 0
        or float(np.linalg.norm(near - place, axis=1).min()) >= AS_WIDE * ball.diameter_mm / 2.0
    )


def _mesh(
    solid: TopoDS_Shape, deflection_mm: float | None = None
) -> tuple[tuple[Facets, ...], Region, float]:
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


def _faces_near(solid: TopoDS_Shape, meshes: Sequence[Facets], ball: Ball, deflection_mm: float) -> Feet:
    """The nearest points of the true faces that a ball, or one a little aside, comes near."""
    centre, reach = np.array(ball.centre_mm), ball.diameter_mm / 2.0 + 10.0 * deflection_mm
    near: list[TopoDS_Shape] = []
    faces = TopExp_Explorer(solid, TopAbs_ShapeEnum.TopAbs_FACE)
    for mesh in meshes:
        low, high = mesh.points.min(axis=0), mesh.points.max(axis=0)
        if np.linalg.norm(np.maximum(np.maximum(low - centre, centre - high), 0.0)) <= reach:
            near.append(faces.Current())
        faces.Next()

    def feet(place: Points, within_mm: float) -> Points:
        vertex = BRepBuilderAPI_MakeVertex(gp_Pnt(*place)).Vertex()
        found = np.array([_foot(vertex, face) for face in near], dtype=np.float64).reshape(-1, 3)
        far = np.linalg.norm(found - place, axis=1)
        return np.asarray(found[far <= max(within_mm, float(far.min(initial=np.inf)))])

    return feet


def _foot(vertex: TopoDS_Shape, face: TopoDS_Shape) -> tuple[float, float, float]:
    point = BRepExtrema_DistShapeShape(vertex, face).PointOnShape2(1)
    return (point.X(), point.Y(), point.Z())
