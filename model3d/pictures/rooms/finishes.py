"""How surfaces look in the customer's pictures: floor, walls, skirting, furniture, what stands on the walls."""

from __future__ import annotations

from types import MappingProxyType

from model3d.pictures.raytrace.surface import Boards, Kind, Rgb, Surface
from model3d.rooms.checked import Finish
from model3d.scene.furniture.shapes import Look

FLOOR_KINDS: MappingProxyType[str, Kind] = MappingProxyType(
    {"boards": "wood-floor", "herringbone": "herringbone", "tiles": "tiles", "carpet": "carpet"}
)
BOARD_MM, BOARD_WIDE_MM, TILE_MM = 1900.0, 160.0, 450.0
OUTSIDE: Rgb = (0.62, 0.61, 0.59)
CUT: Rgb = (0.075, 0.078, 0.085)
CUT_END: Rgb = (0.33, 0.33, 0.34)
_LEAF_GLOSS, _SHADE_GLOW = 0.3, 0.55


def linear(colour: Rgb) -> Rgb:
    """sRGB (0 to 1) as linear light (IEC 61966-2-1)."""
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour)
    return (r, g, b)


def floor_surface(finish: Finish) -> Surface:
    """The floor covering."""
    wide = TILE_MM if finish.flooring == "tiles" else BOARD_WIDE_MM
    boards = Boards(length_mm=BOARD_MM, width_mm=wide, turn_deg=finish.flooring_turn_deg)
    return Surface(colour=linear(finish.floor), kind=FLOOR_KINDS[finish.flooring], boards=boards)


def paint(colour: Rgb) -> Surface:
    """Matt wall paint."""
    return Surface(colour=linear(colour), kind="matt")


def enamel(colour: Rgb) -> Surface:
    """Satin paint, as on skirting and joinery."""
    return Surface(colour=linear(colour), kind="satin")


def look_surface(look: Look) -> Surface:
    """The surface of a piece of furniture."""
    colour = linear(look.colour)
    if look.material == "leaf":
        return Surface(colour=colour, kind="satin", gloss=_LEAF_GLOSS)
    if look.material == "glow":
        r, g, b = (_SHADE_GLOW * c for c in colour)
        return Surface(colour=colour, kind="matt", glow=(r, g, b))
    return Surface(colour=colour, kind=look.material)
