"""The exact overlap of two solids by the kernel's boolean, in the first one's frame."""

from __future__ import annotations

from dataclasses import dataclass, replace

import cadquery as cq
import manifold3d
import numpy as np
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps
from OCP.TopAbs import TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS_Shape
from OCP.TopTools import TopTools_ListOfShape

from model3d.checks.engine.depth import Ball, Points, Region, widest_ball
from model3d.checks.engine.facets import facets, joined, welded
from model3d.geometry.placement import Placement, Vec3
from model3d.solids.placing import located

# The mesh that an overlap's depth is measured on, as a share of its size and at the least and most.
FINE_SHARE, FINE_LEAST_MM, FINE_MOST_MM = 0.002, 0.0005, 0.02


@dataclass(frozen=True, slots=True, kw_only=True)
class Overlap:
    """What two solids share.

    ``volume_mm3``; ``depth_mm``, the diameter of the widest ball that fits in it; ``place_mm``, a point
    inside it where it is deepest, as near its middle as may be, in the first solid's frame. ``exact`` False
    says that the kernel's boolean failed and the meshes speak.
    """

    volume_mm3: float
    depth_mm: float
    place_mm: Vec3
    exact: bool = True


def exact_overlap(a: cq.Solid, b: cq.Solid, b_in_a: Placement) -> Overlap | None:
    """The overlap of ``a`` and ``b`` placed at ``b_in_a`` by the kernel; None when they share no volume.
    Raises RuntimeError when the kernel fails.
    """
    common = BRepAlgoAPI_Common()
    arguments, tools = TopTools_ListOfShape(), TopTools_ListOfShape()
    arguments.Append(a.wrapped)
    tools.Append(located(b, b_in_a).wrapped)
    common.SetArguments(arguments)
    common.SetTools(tools)
    common.SetNonDestructive(True)
    common.Build()
    if not common.IsDone():
        raise RuntimeError("the boolean of two solids failed")
    found = [_of_solid(part) for part in _solids(common.Shape())]
    real = [overlap for overlap in found if overlap is not None]
    return merged(real) if real else None


def mesh_overlap(shared: manifold3d.Manifold) -> Overlap | None:
    """The same of what two skins share; None when that is nothing."""
    parts = [
        Overlap(
            volume_mm3=part.volume(),
            depth_mm=ball.diameter_mm,
            place_mm=_place(region, ball, None),
            exact=False,
        )
        for part in shared.decompose()
        if part.volume() > 0.0
        for region in (region_of(part),)
        for ball in (widest_ball(region),)
    ]
    return merged(parts) if parts else None


def merged(parts: list[Overlap]) -> Overlap:
    """Separate overlaps of one pair as one: volumes added, the depth and place of the deepest."""
    deepest = max(parts, key=lambda part: part.depth_mm)
    return replace(deepest, volume_mm3=sum(part.volume_mm3 for part in parts))


def region_of(part: manifold3d.Manifold) -> Region:
    """A connected mesh as a region."""
    mesh = part.to_mesh64()
    return Region(
        points=np.asarray(mesh.vert_properties)[:, :3].copy(),
        triangles=np.asarray(mesh.tri_verts).astype(np.int64),
    )


def _solids(shape: TopoDS_Shape) -> list[TopoDS_Shape]:
    found, explorer = [], TopExp_Explorer(shape, TopAbs_ShapeEnum.TopAbs_SOLID)
    while explorer.More():
        found.append(explorer.Current())
        explorer.Next()
    return found


def _of_solid(shape: TopoDS_Shape) -> Overlap | None:
    volume = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, volume)
    if volume.Mass() <= 0.0:
        return None
    region = _region(shape)
    ball = widest_ball(region)
    c = volume.CentreOfMass()
    return Overlap(
        volume_mm3=volume.Mass(),
        depth_mm=ball.diameter_mm,
        place_mm=_place(region, ball, np.array((c.X(), c.Y(), c.Z()))),
    )


def _region(shape: TopoDS_Shape) -> Region:
    rough = joined(facets(shape, deflection_mm=FINE_MOST_MM, angle_rad=0.5))
    size = float(np.linalg.norm(np.ptp(rough.points, axis=0)))
    fine = min(max(size * FINE_SHARE, FINE_LEAST_MM), FINE_MOST_MM)
    mesh = joined(facets(shape, deflection_mm=fine, angle_rad=0.25))
    kept, number, whole = welded(mesh)
    return Region(points=mesh.points[kept], triangles=number[mesh.triangles[whole]])


def _place(region: Region, ball: Ball, middle: Points | None) -> Vec3:
    """The middle of the overlap when a ball as wide fits there too, else the ball's own."""
    least = 0.98 * ball.diameter_mm / 2.0
    if middle is not None and region.holds(middle) and region.clearance_mm(middle) >= least:
        return (float(middle[0]), float(middle[1]), float(middle[2]))
    return ball.centre_mm
