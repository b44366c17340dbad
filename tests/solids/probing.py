"""Asking a solid where its metal is, by the kernel's own classifier."""

from __future__ import annotations

from itertools import pairwise

import cadquery as cq
from OCP.BRepClass3d import BRepClass3d_SolidClassifier
from OCP.gp import gp_Pnt
from OCP.TopAbs import TopAbs_IN

from model3d.geometry.placement import Vec3, length, scale, subtract
from model3d.solids.joining import overlap_mm3
from model3d.solids.simple_bodies import rod
from model3d.solids.sound import shells_in


def metal_at(solid: cq.Solid, point: Vec3) -> bool:
    """Whether a point lies inside the metal."""
    return bool(BRepClass3d_SolidClassifier(solid.wrapped, gp_Pnt(*point), 1e-7).State() == TopAbs_IN)


def way_is_free(solid: cq.Solid, *corners: Vec3) -> bool:
    """Whether a bar of 1 mm along every line of a broken line meets no metal."""
    for start, end in pairwise(corners):
        along = subtract(end, start)
        bar = rod(start, scale(along, 1.0 / length(along)), 0.5, length(along))
        if overlap_mm3(solid, bar) > 1e-6:
            return False
    return True


def extent(solid: cq.Solid) -> tuple[Vec3, Vec3]:
    """Least and greatest x, y, z."""
    box = solid.BoundingBox(1e-4)
    return (box.xmin, box.ymin, box.zmin), (box.xmax, box.ymax, box.zmax)


def shells(solid: cq.Solid) -> int:
    """How many closed skins bound the solid: more than one means a hollow that nothing reaches."""
    return len(shells_in(solid.wrapped))
