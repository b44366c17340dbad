"""A STEP file as the CAD kernel reads it back: placed solids, and names and colours of the tree."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import cadquery as cq
from OCP.Quantity import Quantity_Color, Quantity_TypeOfColor
from OCP.STEPCAFControl import STEPCAFControl_Reader
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.TDF import TDF_Label, TDF_LabelSequence
from OCP.TDocStd import TDocStd_Document
from OCP.XCAFApp import XCAFApp_Application
from OCP.XCAFDoc import XCAFDoc_ColorTool, XCAFDoc_ColorType, XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

from model3d.exchange.assembly import Node, placed_leaves

RELATIVE_TOLERANCE = 1e-6
# Centres are integrated numerically: a turned body with rounded faces comes out some 5e-6 mm from where it was.
PLACE_TOLERANCE_MM = 1e-4


@dataclass(frozen=True)
class Read:
    """An occurrence as the kernel names and colours it: path of occurrence names, product name, colour."""

    path: tuple[str, ...]
    product: str
    colour: tuple[float, float, float] | None


def read_leaves(path: Path) -> list[Read]:
    """All leaves of the file in tree order, the root's own name first in each path."""
    document = TDocStd_Document(TCollection_ExtendedString("BinXCAF"))
    XCAFApp_Application.GetApplication_s().InitDocument(document)
    reader = STEPCAFControl_Reader()
    reader.SetNameMode(True)
    reader.SetColorMode(True)
    reader.ReadFile(str(path))
    reader.Transfer(document)
    tops = TDF_LabelSequence()
    XCAFDoc_DocumentTool.ShapeTool_s(document.Main()).GetFreeShapes(tops)
    return [leaf for number in range(1, tops.Length() + 1) for leaf in _below(tops.Value(number), ())]


def solid_faults(path: Path, root: Node, shapes: dict[str, cq.Shape]) -> list[str]:
    """How the placed solids of the file differ from the assembly's: count, place and volume."""
    wanted = []
    for leaf in placed_leaves(root):
        shape = shapes[str(leaf.shape_key)]
        wanted.append((leaf.placement.point(shape.Center().toTuple()), shape.Volume(), "/".join(leaf.path)))
    got = [(solid.Center().toTuple(), solid.Volume()) for solid in cq.importers.importStep(str(path)).solids().vals()]
    faults = [] if len(got) == len(wanted) else [f"{len(got)} solids for {len(wanted)}"]
    for centre, volume, name in wanted:
        near = [its for place, its in got if cq.Vector(place).sub(cq.Vector(centre)).Length <= PLACE_TOLERANCE_MM]
        if not near:
            faults.append(f"no solid where {name} is")
        elif not any(abs(its - volume) <= RELATIVE_TOLERANCE * volume for its in near):
            faults.append(f"volume of {name}: {near} for {volume}")
    return faults


def _below(label: TDF_Label, path: tuple[str, ...]) -> list[Read]:
    parts = TDF_LabelSequence()
    XCAFDoc_ShapeTool.GetComponents_s(label, parts)
    here = path or (_name(label),)
    leaves = []
    for number in range(1, parts.Length() + 1):
        part, product = parts.Value(number), TDF_Label()
        XCAFDoc_ShapeTool.GetReferredShape_s(part, product)
        if XCAFDoc_ShapeTool.IsAssembly_s(product):
            leaves += _below(product, (*here, _name(part)))
        else:
            leaves.append(Read((*here, _name(part)), _name(product), _colour(part) or _colour(product)))
    return leaves


def _name(label: TDF_Label) -> str:
    name = TDataStd_Name()
    return str(name.Get().ToExtString()) if label.FindAttribute(TDataStd_Name.GetID_s(), name) else ""


def _colour(label: TDF_Label) -> tuple[float, float, float] | None:
    colour = Quantity_Color()
    if not XCAFDoc_ColorTool.GetColor_s(label, XCAFDoc_ColorType.XCAFDoc_ColorSurf, colour):
        return None
    red, green, blue = colour.Values(Quantity_TypeOfColor.Quantity_TOC_sRGB)
    return red, green, blue
