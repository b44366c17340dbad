"""What is measured on placed solids, and what it is measured from."""

from __future__ import annotations

from dataclasses import dataclass

import cadquery as cq

from model3d.geometry.placement import Placement, Vec2


@dataclass(frozen=True, slots=True, kw_only=True)
class WallLine:
    """A wall's line on the floor plan, by its corners in the walls' own sense, room frame, mm."""

    id: str
    first_mm: Vec2
    last_mm: Vec2


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedBody:
    """A solid of the scene where it stands: what it is (``role``), and by their ids where it belongs. None of
    its sizes.
    """

    id: str
    role: str
    solid: cq.Solid
    placement: Placement
    wall: str | None
    piece: str | None
    joint: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CutFaces:
    """Where the two cut faces of a piece stand along its wall: ``to_first_mm`` from the wall's first corner
    to the nearer one, ``to_last_mm`` from its last corner to the other; ``length_mm`` between them.
    """

    piece: str
    wall: str
    to_first_mm: float
    to_last_mm: float
    length_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Insertion:
    """How deep a leg of a fitting stands in a piece, from the cut face to the leg's tip. ``first_end`` says
    that it enters by the end nearer the wall's first corner; ``height_mm`` is where its middle stands above
    the floor.
    """

    part: str
    piece: str
    first_end: bool
    height_mm: float
    depth_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """What is left open at an end of a piece: from its cut face to the shoulder of an elbow, to the end of a
    hose, or to the next cut face.
    """

    piece: str
    first_end: bool
    joint: str | None
    to: str
    gap_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """Everything measured on a scene. ``unfound`` names pieces whose cut faces could not be found square to
    their wall.
    """

    cut_faces: tuple[CutFaces, ...]
    insertions: tuple[Insertion, ...]
    gaps: tuple[Gap, ...]
    unfound: tuple[str, ...]
