"""The exact overlap of two solids by the kernel's boolean, in the first one's frame."""

from __future__ import annotations

from dataclasses import replace

import cadquery as cq
import manifold3d
import numpy as np
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
from OCP.TopAbs import TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS_Shape
from OCP.TopTools import TopTools_ListOfShape

from model3d.checks.engine.bodies import Overlap
from model3d.checks.engine.depth import Region, widest_ball
from model3d.checks.engine.part_overlap import part_overlap
from model3d.geometry.placement import Placement
from model3d.solids.placing import located


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
    return merged([part for solid in _solids(common.Shape()) if (part := part_overlap(solid)) is not None])


def mesh_overlap(shared: manifold3d.Manifold) -> Overlap | None:
    """The same of what two skins share; None when that is nothing."""
    parts = [
        Overlap(
            volume_mm3=part.volume(),
            depth_mm=ball.diameter_mm,
            place_mm=ball.centre_mm,
            exact=False,
        )
        for part in shared.decompose()
        if part.volume() > 0.0
        for region in (region_of(part),)
        for ball in (widest_ball(region),)
    ]
    return merged(parts)


def merged(parts: list[Overlap]) -> Overlap | None:
    """Separate overlaps of one pair as one: volumes added, the depth and place of the deepest; None of none."""
    if not parts:
        return None
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
