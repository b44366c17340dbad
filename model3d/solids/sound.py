"""What every solid must be before it leaves: one, closed, valid, with metal in it."""

from __future__ import annotations

import cadquery as cq
from OCP import Standard, StdFail, gp
from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.TopAbs import TopAbs_SHELL, TopAbs_SOLID
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS, TopoDS_Shape, TopoDS_Shell, TopoDS_Solid

UNSOUND_NUMBERS: tuple[type[Exception], ...] = (
    ValueError,
    *(
        kind
        for module in (Standard, StdFail, gp)
        for kind in vars(module).values()
        if isinstance(kind, type) and issubclass(kind, Exception)
    ),
)
"""What arithmetic and the kernel raise when numbers make no geometry; the kernel's have no base of their own."""


class SolidError(ValueError):
    """A spec whose numbers give no sound solid: none, several, open, crossing itself, or empty."""


def solids_in(shape: TopoDS_Shape) -> tuple[TopoDS_Solid, ...]:
    """Every solid within a kernel shape."""
    found: list[TopoDS_Solid] = []
    explorer = TopExp_Explorer(shape, TopAbs_SOLID)
    while explorer.More():
        found.append(TopoDS.Solid_s(explorer.Current()))
        explorer.Next()
    return tuple(found)


def shells_in(shape: TopoDS_Shape) -> tuple[TopoDS_Shell, ...]:
    """Every shell within a kernel shape."""
    found: list[TopoDS_Shell] = []
    explorer = TopExp_Explorer(shape, TopAbs_SHELL)
    while explorer.More():
        found.append(TopoDS.Shell_s(explorer.Current()))
        explorer.Next()
    return tuple(found)


def one_solid(shape: TopoDS_Shape | cq.Shape, what: str) -> cq.Solid:
    """The single solid in ``shape``, checked: exactly one, every shell closed, valid, volume above 0 (mm3).

    ``what`` names the part for the message. Raises SolidError otherwise.
    """
    kernel_shape = shape.wrapped if isinstance(shape, cq.Shape) else shape
    solids = solids_in(kernel_shape)
    if len(solids) != 1:
        raise SolidError(f"{what}: one solid expected, {len(solids)} found")
    if not all(shell.Closed() for shell in shells_in(solids[0])):
        raise SolidError(f"{what}: the solid is open")
    if not BRepCheck_Analyzer(solids[0]).IsValid():
        raise SolidError(f"{what}: the solid is not valid (faces cross or do not meet)")
    solid = cq.Solid(solids[0])
    volume = solid.Volume()
    if not volume > 0.0:
        raise SolidError(f"{what}: the solid's volume is {volume:.6g} mm3")
    return solid
