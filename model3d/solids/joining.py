"""Joining and cutting whole solids, where faces alone cannot be told beforehand."""

from __future__ import annotations

from collections.abc import Sequence

import cadquery as cq
from OCP.BRepAlgoAPI import (
    BRepAlgoAPI_BooleanOperation,
    BRepAlgoAPI_Common,
    BRepAlgoAPI_Cut,
    BRepAlgoAPI_Fuse,
)
from OCP.TopTools import TopTools_ListOfShape

from model3d.solids.sound import SolidError, one_solid


def fused(parts: Sequence[cq.Solid], what: str) -> cq.Solid:
    """One solid of several that touch or overlap. ``what`` names the part. Raises SolidError when they do not
    hang together."""
    if len(parts) == 1:
        return parts[0]
    return one_solid(_operated(BRepAlgoAPI_Fuse(), parts[:1], parts[1:], what), what)


def cut(body: cq.Solid, tools: Sequence[cq.Solid], what: str) -> cq.Solid:
    """The body less the tools, as one solid. ``what`` names the part. Raises SolidError when it falls apart
    or nothing is left."""
    return one_solid(_operated(BRepAlgoAPI_Cut(), [body], tools, what), what)


def overlap_mm3(one: cq.Solid, other: cq.Solid) -> float:
    """Volume that two solids share, mm3; 0 when they stand apart or only touch."""
    return float(_operated(BRepAlgoAPI_Common(), [one], [other], "overlap").Volume())


def _operated(
    operation: BRepAlgoAPI_BooleanOperation, bodies: Sequence[cq.Solid], tools: Sequence[cq.Solid], what: str
) -> cq.Shape:
    """Run one set operation between two groups of solids."""
    operation.SetArguments(_listed(bodies))
    operation.SetTools(_listed(tools))
    operation.Build()
    if not operation.IsDone():
        raise SolidError(f"{what}: the kernel could not join or cut the solids")
    return cq.Shape.cast(operation.Shape())


def _listed(solids: Sequence[cq.Solid]) -> TopTools_ListOfShape:
    """The kernel's own kind of list."""
    found = TopTools_ListOfShape()
    for solid in solids:
        found.Append(solid.wrapped)
    return found
