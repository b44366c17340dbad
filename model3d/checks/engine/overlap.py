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
from OCP.TopTools import TopTools_ListOfShape, TopTools_MapOfShape

from model3d.checks.engine.bodies import Overlap
from model3d.checks.engine.depth import Region, widest_ball
from model3d.checks.engine.facets import facets
from model3d.checks.engine.moved_off import moved_off_mm
from model3d.checks.engine.part_overlap import ANGLE_RAD, LEAST_MM, part_overlap
from model3d.geometry.placement import Placement
from model3d.solids.placing import located

CLOSE = 0.02  # deflection as a share of the ball, where the way off is measured


def exact_overlap(a: cq.Solid, b: cq.Solid, b_in_a: Placement, *, slight_mm: float = 0.0) -> Overlap | None:
    """The overlap of ``a`` and ``b`` placed at ``b_in_a`` by the kernel; None when they share no volume. One
    in which no ball wider than ``slight_mm`` fits is as deep as the bodies have to be moved to be off one
    another, where they meet from one side.

    Raises RuntimeError when the kernel fails.
    """
    common = BRepAlgoAPI_Common()
    arguments, tools = TopTools_ListOfShape(), TopTools_ListOfShape()
    placed = located(b, b_in_a).wrapped
    arguments.Append(a.wrapped)
    tools.Append(placed)
    common.SetArguments(arguments)
    common.SetTools(tools)
    common.SetNonDestructive(True)
    common.Build()
    if not common.IsDone():
        raise RuntimeError("the boolean of two solids failed")
    found = []
    for solid in _solids(common.Shape()):
        part = part_overlap(solid)
        if part is not None and part.depth_mm <= slight_mm:
            off = _moved_off(solid, part.depth_mm, _left_of(common, a.wrapped), _left_of(common, placed))
            part = replace(part, depth_mm=max(part.depth_mm, off))
        if part is not None:
            found.append(part)
    return merged(found)


def _moved_off(part: TopoDS_Shape, ball_mm: float, of_a: TopTools_MapOfShape, of_b: TopTools_MapOfShape) -> float:
    """How far the two have to be moved to be off one another there; 0 where that cannot be said."""
    try:
        meshes = facets(part, deflection_mm=max(CLOSE * ball_mm, LEAST_MM), angle_rad=ANGLE_RAD)
    except ValueError:
        return 0.0
    faces = _of_kind(part, TopAbs_ShapeEnum.TopAbs_FACE)
    first = [mesh for mesh, face in zip(meshes, faces, strict=True) if of_a.Contains(face)]
    second = [mesh for mesh, face in zip(meshes, faces, strict=True) if of_b.Contains(face)]
    return moved_off_mm(first, second) or 0.0


def _left_of(common: BRepAlgoAPI_Common, solid: TopoDS_Shape) -> TopTools_MapOfShape:
    """What a boolean has left of the faces of one of its solids."""
    found = TopTools_MapOfShape()
    for face in _of_kind(solid, TopAbs_ShapeEnum.TopAbs_FACE):
        found.Add(face)
        for changed in common.Modified(face):
            found.Add(changed)
    return found


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
    return _of_kind(shape, TopAbs_ShapeEnum.TopAbs_SOLID)


def _of_kind(shape: TopoDS_Shape, kind: TopAbs_ShapeEnum) -> list[TopoDS_Shape]:
    found, explorer = [], TopExp_Explorer(shape, kind)
    while explorer.More():
        found.append(explorer.Current())
        explorer.Next()
    return found
