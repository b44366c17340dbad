"""Solids cut to a box round where two of them meet, meshed there as finely as is asked.

The kernel's boolean of two round faces that all but touch cannot be relied on; one with a box, whose sides cross them,
can, and its volume is compared with that of the skin in the same box.
"""

from __future__ import annotations

from dataclasses import dataclass

import cadquery as cq
import manifold3d
import numpy as np
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox
from OCP.gp import gp_Pnt
from OCP.TopoDS import TopoDS_Shape

from model3d.checks.engine.bodies import matrix
from model3d.checks.engine.facets import Points
from model3d.checks.engine.skins import Skin, skin
from model3d.geometry.placement import Placement
from model3d.solids.placing import located

DEFLECTIONS_MM = (0.005, 0.0015, 0.0005)
MARGIN_MM, MARGIN_SHARE = 0.1, 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """A solid with its skin, not drawn in, and where it stands in the first one's frame."""

    solid: cq.Solid
    skin: Skin
    at: Placement


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A solid cut to a box: ``shape`` None where its faces are flat and its skin exact; and its first skin."""

    shape: TopoDS_Shape | None
    first: Skin
    at: Placement

    def count_at(self, deflection_mm: float) -> float:
        """About how many triangles its skin would have."""
        return self.first.count_at(range(len(self.first.bows_mm)), deflection_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """The skin of a solid cut to a box, in the first one's frame, and how far that stands off it."""

    mesh: manifold3d.Manifold
    slack_mm: float


def both_cut(a: Looked, b: Looked, box: Points) -> tuple[Cut, Cut] | None:
    """Both solids cut to a box of the first one's frame, the second a little beyond; None when it cannot be done."""
    first, second = _cut(a, box), _cut(b, beyond(box))
    return None if first is None or second is None else (first, second)


def both_held(cuts: tuple[Cut, Cut], deflection_mm: float, box: Points) -> tuple[Held, Held] | None:
    """Both by skins of a deflection; None when one does not close."""
    first, second = _held(cuts[0], deflection_mm, box), _held(cuts[1], deflection_mm, beyond(box))
    return None if first is None or second is None else (first, second)


def beyond(box: Points) -> Points:
    """The box that the second solid is cut to: no side of it in one plane with those of the first one's."""
    return grown(box, MARGIN_MM / 10.0)


def _cut(body: Looked, box: Points) -> Cut | None:
    """A solid cut to a box of the first one's frame; None when that cannot be done."""
    there = body.skin.manifold
    if there is None:
        return None
    if body.skin.slack_mm == 0.0:
        return Cut(shape=None, first=body.skin, at=body.at)
    rough = there.transform(matrix(body.at)) ^ block_of(box)
    spare = body.skin.slack_mm * rough.surface_area()
    for tried in (box, grown(box, 0.013), grown(box, 0.037)):
        shape = _kernel_cut(located(body.solid, body.at).wrapped, tried)
        if shape is None:
            continue
        try:
            first = skin(shape, inset_mm=0.0, deflection_mm=DEFLECTIONS_MM[0])
        except ValueError:  # nothing is left
            continue
        if first.manifold is not None and (first.manifold ^ block_of(box)).volume() >= rough.volume() - spare:
            return Cut(shape=shape, first=first, at=Placement())
    return None


def _held(cut: Cut, deflection_mm: float, box: Points) -> Held | None:
    """What stands in the box, by a skin of a deflection; None when that does not close."""
    if cut.shape is None or cut.first.slack_mm == 0.0 or deflection_mm == DEFLECTIONS_MM[0]:
        fine = cut.first
    else:
        fine = skin(cut.shape, inset_mm=0.0, deflection_mm=deflection_mm)
    if fine.manifold is None:
        return None
    return Held(mesh=fine.manifold.transform(matrix(cut.at)) ^ block_of(box), slack_mm=fine.slack_mm)


def _kernel_cut(solid: TopoDS_Shape, box: Points) -> TopoDS_Shape | None:
    common = BRepAlgoAPI_Common(solid, BRepPrimAPI_MakeBox(gp_Pnt(*box[0]), gp_Pnt(*box[1])).Shape())
    return common.Shape() if common.IsDone() else None


def block_of(box: Points) -> manifold3d.Manifold:
    """A box (2, 3) as a mesh."""
    low, high = box.tolist()
    return manifold3d.Manifold.cube([end - start for start, end in zip(low, high, strict=True)]).translate(low)


def box_of(part: manifold3d.Manifold) -> Points:
    """The box (2, 3) round a mesh."""
    return np.array(part.bounding_box()).reshape(2, 3)


def longest_mm(box: Points) -> float:
    """The longest side of a box."""
    return float((box[1] - box[0]).max())


def with_margin(box: Points) -> Points:
    """A box grown by what is to be seen round what is in it."""
    return grown(box, MARGIN_MM + MARGIN_SHARE * longest_mm(box))


def grown(box: Points, by_mm: float) -> Points:
    """A box grown on every side."""
    return np.asarray(box + np.array([[-by_mm], [by_mm]]))
