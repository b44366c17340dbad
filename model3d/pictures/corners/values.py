"""A corner sheet in numbers, before anything is drawn."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from model3d.geometry.placement import Vec3
from model3d.pictures.labelled.tags import Tag
from model3d.pictures.stage import Actor, Mesh
from model3d.wording import Language


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One piece at the corner: its wall's line from the corner along it, how far short of the corner it is cut, and how
    far it goes.

    ``along`` is the unit direction from the corner along the wall, ``to_room`` the one out of the wall.
    """

    mark: str
    along: Vec3
    to_room: Vec3
    allowance_mm: float
    face_mm: Vec3
    reach_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """One state of what moves at the corner, and whether it is within what is allowed."""

    name: str
    value_mm: float
    right: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """The long legs' insertions from the cut face of the earlier piece: least, most, and the states."""

    least_mm: float
    most_mm: float
    states: tuple[State, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HoseTable:
    """The hose in its states: ends apart and least bend radius, against what is allowed."""

    most_apart_mm: float
    least_bend_mm: float
    rows: tuple[tuple[str, float, float | None, bool], ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CornerSheet:
    """A corner close up. ``room`` are the floor and the two walls, ``parts`` what is fitted there in its final place,
    trims left off; ``near_mm`` are points round the pieces' ends to be seen, ``joint_mm`` round a shorter stretch;
    ``cut_at_mm`` is a point of the level plane through the upper waterways; ``language`` is that of its words.
    """

    meshes: Mapping[str, Mesh]
    title: str
    subtitle: str
    corner_mm: Vec3
    internal: bool
    angle_deg: float
    room: tuple[Actor, ...]
    parts: tuple[Actor, ...]
    near_mm: tuple[Vec3, ...]
    joint_mm: tuple[Vec3, ...]
    front_u_mm: float
    toward_viewer: Vec3
    cut_at_mm: Vec3
    sides: tuple[Side, Side]
    tags: tuple[Tag, ...]
    window: Window | None
    hoses: HoseTable | None
    language: Language = "en"


def key_of(state: str) -> str:
    """A state's name as the end of its key in the catalogue."""
    return state.replace(" ", "-")
