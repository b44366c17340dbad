"""The solids of an assembly, made ready for writing: each exactly one solid, standing in its own frame."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from typing import Any

import cadquery as cq
from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS_Shape

from model3d.exchange.assembly import Node, check_name, shape_keys


def bodies_of(
    root: Node, shapes: Mapping[Any, cq.Shape], shape_names: Mapping[Any, str]
) -> dict[Hashable, TopoDS_Shape]:
    """The body of each distinct shape under ``root``, in tree order; shapes that no leaf names are left out.

    A solid that was moved is written out where it stands, so that its frame is that of its datum. Raises
    ValueError when a shape or its name is missing, when two shapes have one name, when two keys hold the very
    same solid, or when a shape is not exactly one solid.
    """
    keys = shape_keys(root)
    for key in keys:
        if key not in shapes or key not in shape_names:
            missing = "solid" if key not in shapes else "name"
            raise ValueError(f"the shape {shape_names.get(key, key)!r} has no {missing}")
        check_name(shape_names[key])
    _refuse_twins("the name", [(shape_names[key], key) for key in keys])
    bodies = {key: _one_solid(shapes[key].wrapped, shape_names[key]) for key in keys}
    _refuse_twins("the solid", [(body.TShape(), shape_names[key]) for key, body in bodies.items()])
    return bodies


def _refuse_twins(what: str, owned: list[tuple[Hashable, Hashable]]) -> None:
    owners: dict[Hashable, Hashable] = {}
    for thing, owner in owned:
        if thing in owners:
            raise ValueError(f"{what} of {owner!r} is that of {owners[thing]!r} too: one shape has one key")
        owners[thing] = owner


def _one_solid(shape: TopoDS_Shape, name: str) -> TopoDS_Shape:
    solids = cq.Shape.cast(shape).Solids()
    if len(solids) != 1:
        raise ValueError(f"the shape {name!r} has {len(solids)} solids, not one")
    solid = solids[0].wrapped
    where = solid.Location()
    if where.IsIdentity():
        return solid
    at_rest = solid.Located(TopLoc_Location())
    return BRepBuilderAPI_Transform(at_rest, where.Transformation(), True).Shape()
