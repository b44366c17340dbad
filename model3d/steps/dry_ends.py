"""The ends of a dry piece by where they go: it has no valve and no return, so a corner or a door names them."""

from __future__ import annotations

from model3d.layout import Piece
from model3d.parts.room import CasingSpec
from model3d.scene import Scene
from model3d.wording import Catalogue

CORNER_WITHIN_MM = 200.0


def dry_places(piece: Piece, scene: Scene, words: Catalogue) -> tuple[str, str]:
    """Names of the places its near and its far end go to."""
    return _place(piece, piece.near_mm, scene, words), _place(piece, piece.far_mm, scene, words)


def _place(piece: Piece, along_mm: float, scene: Scene, words: Catalogue) -> str:
    """The corner within a hand's reach of a cut face; else the door whose casing stands nearest; else the corner that
    lies that way.
    """
    wall = piece.wall
    first, last = along_mm, wall.length_mm - along_mm
    corner = wall.first_corner if first < last else wall.last_corner
    doors = [] if min(first, last) <= CORNER_WITHIN_MM else _doors(piece, along_mm, scene)
    if doors:
        return words.say("place.door", id=min(doors)[1])
    return words.say("place.corner", id=corner.id)


def _doors(piece: Piece, along_mm: float, scene: Scene) -> list[tuple[float, str]]:
    """How far the casings of the piece's wall stand from a cut face, and whose they are."""
    found = []
    for part in scene.room:
        if part.role == "casing" and part.wall == piece.wall.id and isinstance(part.spec, CasingSpec):
            at = piece.wall.frame.inverse().point(part.placement.origin_mm)[0]
            sides = at, at + part.spec.width_mm
            found.append((min(abs(along_mm - side) for side in sides), part.obstacle or part.id))
    return found
