"""From a piece of furniture in the plan to its elements in the room."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from types import MappingProxyType

from model3d.geometry.placement import Vec3
from model3d.plans.furniture import FurnitureKind
from model3d.rooms.furniture import Furniture
from model3d.scene.furniture.seating import armchair, chair, sofa
from model3d.scene.furniture.shapes import Element
from model3d.scene.furniture.small import lamp, picture, plant
from model3d.scene.furniture.soft import bed, rug
from model3d.scene.furniture.storage import bookcase, cabinet
from model3d.scene.furniture.tables import desk, low_table, table

Maker = Callable[[Vec3, Vec3], Iterator[Element]]
"""From size (mm) and colour (sRGB) to elements in the piece's own frame."""

MAKERS: MappingProxyType[FurnitureKind, tuple[Maker, Vec3]] = MappingProxyType(
    {
        "sofa": (sofa, (0.44, 0.53, 0.55)),
        "armchair": (armchair, (0.72, 0.47, 0.34)),
        "chair": (chair, (0.62, 0.60, 0.55)),
        "low-table": (low_table, (0.56, 0.40, 0.27)),
        "table": (table, (0.62, 0.46, 0.31)),
        "desk": (desk, (0.70, 0.55, 0.38)),
        "cabinet": (cabinet, (0.60, 0.44, 0.30)),
        "bookcase": (bookcase, (0.66, 0.51, 0.36)),
        "bed": (bed, (0.56, 0.58, 0.58)),
        "rug": (rug, (0.86, 0.82, 0.74)),
        "plant": (plant, (0.80, 0.76, 0.70)),
        "lamp": (lamp, (0.95, 0.90, 0.80)),
        "picture": (picture, (0.42, 0.31, 0.22)),
    }
)
"""What makes each kind, and its usual colour."""


def furniture_elements(piece: Furniture) -> tuple[Element, ...]:
    """The elements of a piece of furniture, placed in the room."""
    maker, usual = MAKERS[piece.kind]
    size = (piece.width_mm, piece.depth_mm, piece.height_mm)
    return tuple(e.within(piece.frame) for e in maker(size, piece.colour or usual))
