"""STEP AP242 files (ISO 10303-242): a product for each shape and each assembly, placed by occurrences.

Written through the kernel's document of labels (XCAF) rather than as one compound, so that the tree, the
names and the shared shapes survive. Lengths are millimetres.
"""

from __future__ import annotations

import io
from collections.abc import Hashable, Iterator, Mapping
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import cadquery as cq
from OCP.APIHeaderSection import APIHeaderSection_MakeHeader
from OCP.gp import gp_Ax3, gp_Dir, gp_Pnt, gp_Trsf
from OCP.IFSelect import IFSelect_ReturnStatus
from OCP.Interface import Interface_Static
from OCP.STEPCAFControl import STEPCAFControl_Writer
from OCP.STEPControl import STEPControl_StepModelType
from OCP.TCollection import TCollection_ExtendedString, TCollection_HAsciiString
from OCP.TDataStd import TDataStd_Name
from OCP.TDF import TDF_Label
from OCP.TDocStd import TDocStd_Document
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS_Shape
from OCP.XCAFApp import XCAFApp_Application
from OCP.XCAFDoc import XCAFDoc_DocumentTool

from model3d import __version__
from model3d.exchange.assembly import Node, shape_colours
from model3d.exchange.bodies import bodies_of
from model3d.exchange.step_colours import Override, with_colours
from model3d.exchange.step_text import distinct_ids, mark, with_names
from model3d.geometry.placement import Placement

_TEXT_SETTINGS = {"write.step.schema": "AP242DIS", "write.step.unit": "MM"}
# Curves on surfaces are worked out anew by every reader from the edges; leaving them out halves the file.
_NUMBER_SETTINGS = {"write.surfacecurve.mode": 0, "write.precision.mode": 0, "write.step.nonmanifold": 0}


class StepWriteError(RuntimeError):
    """The kernel could not turn the assembly into a STEP file."""


def write_step(
    path: Path,
    root: Node,
    shapes: Mapping[Any, cq.Shape],
    shape_names: Mapping[Any, str],
    *,
    time_stamp: str | None,
) -> None:
    """Write the assembly under ``root`` to ``path``.

    Each shape named by a leaf becomes one product under its name from ``shape_names`` and is written once,
    in its own frame; each assembly node becomes a product of its own. Occurrences carry the names of the
    nodes. A shape has the colour most of its leaves have; a leaf of another colour carries that on its
    occurrence. ``time_stamp`` (ISO 8601) goes into the header: with one given, two files of one assembly
    are equal byte for byte; with None it is the time of writing.

    Raises ValueError for a root that is a leaf or is not at its own frame's origin, for a time stamp that
    is no time, and for shapes as in ``bodies_of``; StepWriteError when the kernel fails; OSError when the
    file cannot be written.
    """
    if root.is_leaf or root.placement != Placement():
        raise ValueError(f"the root {root.name!r} must be an assembly that stands at its own origin")
    stamp = _stamp(time_stamp)
    document = _Document(root, bodies_of(root, shapes, shape_names), shape_names)
    text = _step_text(document, title=document.marked(root.name), stamp=stamp)
    text = with_colours(text, document.shape_colours, document.overrides)
    ids = distinct_ids(document.products) | distinct_ids(document.occurrences)
    path.write_bytes(with_names(text, document.names, ids).encode("ascii"))


def _stamp(time_stamp: str | None) -> str:
    if time_stamp is None:
        return datetime.now(UTC).isoformat(timespec="seconds")
    return datetime.fromisoformat(time_stamp).isoformat(timespec="seconds")


class _Document:
    """The labels of one file, and what is kept beside them by the number of each name's mark."""

    def __init__(self, root: Node, bodies: Mapping[Hashable, TopoDS_Shape], shape_names: Mapping[Any, str]) -> None:
        self.names: list[str] = []
        self.products: dict[int, tuple[str, str]] = {}
        self.occurrences: dict[int, tuple[str, str]] = {}
        self.overrides: list[Override] = []
        self.handle = TDocStd_Document(TCollection_ExtendedString("BinXCAF"))
        XCAFApp_Application.GetApplication_s().InitDocument(self.handle)
        self._tool = XCAFDoc_DocumentTool.ShapeTool_s(self.handle.Main())
        self._colours = shape_colours(root)
        self._marks: dict[Hashable, int] = {}
        self._labels: dict[Hashable, TDF_Label] = {}
        for key, body in bodies.items():
            self._labels[key] = self._tool.AddShape(body, False)
            self._marks[key] = self._product(self._labels[key], shape_names[key], (shape_names[key],))
        self.shape_colours = {self._marks[key]: colour for key, colour in self._colours.items()}
        self._assembly(root, ())
        self._tool.UpdateAssemblies()

    def marked(self, name: str) -> str:
        """The mark that stands for ``name`` until the text is finished."""
        self.names.append(name)
        return mark(len(self.names) - 1)

    def _assembly(self, node: Node, path: tuple[str, ...]) -> TDF_Label:
        label = self._tool.NewShape()
        self._product(label, node.name, path or (node.name,))
        for child in node.children:
            key, below = child.shape_key, (*path, child.name)
            inner = self._labels[key] if key is not None else self._assembly(child, below)
            component = self._tool.AddComponent(label, inner, _location(child.placement))
            occurrence = self._named(component, child.name)
            self.occurrences[occurrence] = (child.name, " / ".join(below))
            if child.colour is not None and child.colour != self._colours[key]:
                self.overrides.append(Override(occurrence=occurrence, shape=self._marks[key], colour=child.colour))
        return label

    def _product(self, label: TDF_Label, name: str, path: tuple[str, ...]) -> int:
        number = self._named(label, name)
        self.products[number] = (name, " / ".join(path))
        return number

    def _named(self, label: TDF_Label, name: str) -> int:
        TDataStd_Name.Set_s(label, TCollection_ExtendedString(self.marked(name)))
        return len(self.names) - 1


def _location(placement: Placement) -> TopLoc_Location:
    axes = gp_Ax3(gp_Pnt(*placement.origin_mm), gp_Dir(*placement.z_axis), gp_Dir(*placement.x_axis))
    turn = gp_Trsf()
    turn.SetDisplacement(gp_Ax3(), axes)
    return TopLoc_Location(turn)


def _step_text(document: _Document, *, title: str, stamp: str) -> str:
    """The exchange structure as the kernel writes it, marks still in place of names."""
    writer = STEPCAFControl_Writer()  # before the settings: the first writer of a process resets them
    writer.SetColorMode(False)
    writer.SetNameMode(True)
    with _settings():
        if not writer.Transfer(document.handle, STEPControl_StepModelType.STEPControl_AsIs):
            raise StepWriteError("the kernel could not turn the assembly into STEP entities")
        header = APIHeaderSection_MakeHeader(writer.ChangeWriter().Model())
        header.SetName(TCollection_HAsciiString(title))
        header.SetTimeStamp(TCollection_HAsciiString(stamp))
        header.SetDescriptionValue(1, TCollection_HAsciiString("Heated skirting, dry fit"))
        header.SetAuthorValue(1, TCollection_HAsciiString(""))
        header.SetOrganizationValue(1, TCollection_HAsciiString(""))
        header.SetOriginatingSystem(TCollection_HAsciiString(f"dryfit {__version__}"))
        header.SetAuthorisation(TCollection_HAsciiString(""))
        stream = io.BytesIO()
        status = writer.WriteStream(stream)
    if status != IFSelect_ReturnStatus.IFSelect_RetDone:
        raise StepWriteError(f"the kernel could not write the STEP text: {status.name}")
    return stream.getvalue().decode("utf-8")


@contextmanager
def _settings() -> Iterator[None]:
    """The writer's settings, which the kernel keeps for the whole process: set, and put back afterwards."""
    texts = {name: Interface_Static.CVal_s(name) for name in _TEXT_SETTINGS}
    numbers = {name: Interface_Static.IVal_s(name) for name in _NUMBER_SETTINGS}
    try:
        _set(_TEXT_SETTINGS, _NUMBER_SETTINGS)
        yield
    finally:
        _set(texts, numbers)


def _set(texts: Mapping[str, str], numbers: Mapping[str, int]) -> None:
    done = [Interface_Static.SetCVal_s(name, text) for name, text in texts.items()]
    done += [Interface_Static.SetIVal_s(name, number) for name, number in numbers.items()]
    if not all(done):
        raise StepWriteError(f"the kernel refused one of its settings {[*texts, *numbers]}")
