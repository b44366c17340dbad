"""The nibs that enter a clip: tongues with a bevelled tip and a catch, shared by bridges and end fittings."""

from __future__ import annotations

import cadquery as cq
from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism
from OCP.gp import gp_Vec

from model3d.geometry.outline import Outline, polygon
from model3d.geometry.placement import Vec2, at
from model3d.parts.fittings import NibSpec
from model3d.solids.outlines import flat_face
from model3d.solids.sound import SolidError, one_solid


def nibs(nib: NibSpec, root_mm: float, sense: int = 1) -> list[cq.Solid]:
    """A solid for each nib height, in a fitting's frame at the cut face: x into the piece from ``root_mm`` to
    the reach, nibs at +y.

    With ``sense`` -1 the piece lies toward -x instead, the nibs still at +y. Raises SolidError when the catch
    does not fit between root and bevel.
    """
    outline = tongue(nib, root_mm, sense)
    found: list[cq.Solid] = []
    for height in nib.heights_mm:
        base = flat_face(outline, [], at(0.0, 0.0, height - nib.half_height_mm))
        raised = BRepPrimAPI_MakePrism(base, gp_Vec(0.0, 0.0, 2.0 * nib.half_height_mm)).Shape()
        found.append(one_solid(raised, "nib"))
    return found


def tongue(nib: NibSpec, root_mm: float, sense: int = 1) -> Outline:
    """A nib seen from above, in (x times sense, y): straight back to the root, both tip edges bevelled, the
    catch on the outer side."""
    inner, outer, tip, bevel = nib.inner_mm, nib.outer_mm, nib.reach_mm, nib.tip_chamfer_mm
    if not root_mm < nib.catch_start_mm < nib.catch_end_mm < tip - bevel:
        raise SolidError(
            f"nib: its catch, {nib.catch_start_mm} to {nib.catch_end_mm} mm, does not fit between "
            f"its root at {root_mm} mm and its bevel at {tip - bevel:g} mm"
        )
    points: list[Vec2] = [
        (root_mm, inner),
        (tip - bevel, inner),
        (tip, inner + bevel),
        (tip, outer - bevel),
        (tip - bevel, outer),
        (nib.catch_end_mm, outer),
    ]
    if nib.catch_mm > 0.0:
        points += [(nib.catch_start_mm, outer + nib.catch_mm)]
    points += [(nib.catch_start_mm, outer), (root_mm, outer)]
    return polygon(*((x_mm * sense, y_mm) for x_mm, y_mm in points))
