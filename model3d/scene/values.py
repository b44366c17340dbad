"""Placed parts, as numbers."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from model3d.geometry.placement import Placement, Vec3
from model3d.parts.kinds import Spec

Role = Literal[
    "piece", "dry-piece", "clip", "elbow", "bridge", "o-ring", "spigot", "hose", "coupler", "valve-end", "cradle",
    "return-end", "turn-back-end", "bracket", "packer", "trim", "end-cap",
    "floor", "wall", "casing", "sill", "window-frame", "glass", "door-leaf", "obstacle",
    "door-swing", "sash-swing", "cupboard-swing", "drawer-travel",
]
SWEPT_ROLES: frozenset[str] = frozenset({"door-swing", "sash-swing", "cupboard-swing", "drawer-travel"})
"""Room that something takes as it opens: it is shut while anything is fitted, and is no body."""
ROOM_ROLES: frozenset[str] = SWEPT_ROLES | {
    "floor", "wall", "casing", "sill", "window-frame", "glass", "door-leaf", "obstacle",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One part in its final place.

    ``id`` is unique, ``name`` is for people. ``run``, ``wall``, ``piece`` and ``joint`` say where it belongs;
    ``piece`` is the piece it is fitted with. ``face`` is the way a clip faces. ``presses_on`` names the parts it is
    meant to overlap (an O-ring its bore), as a layer ``presses_mm`` thick at most. ``end`` says which end of its
    piece a part serves. ``obstacle`` is the plan's id of what it stands for.
    """

    id: str
    name: str
    role: Role
    spec: Spec
    placement: Placement
    run: str | None = None
    wall: str | None = None
    piece: str | None = None
    joint: str | None = None
    face: Literal["front", "back"] | None = None
    end: Literal["start", "end"] | None = None
    presses_on: tuple[str, ...] = ()
    presses_mm: float = 0.0
    obstacle: str | None = None

    def moved(self, by_mm: Vec3) -> Part:
        """The same part shifted, room frame."""
        return replace(self, placement=self.placement.moved(by_mm))


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """All parts: the room first, then each run in fitting order."""

    parts: tuple[Part, ...]

    def part(self, part_id: str) -> Part:
        """The part of that id. Raises KeyError when there is none."""
        for part in self.parts:
            if part.id == part_id:
                return part
        raise KeyError(part_id)

    def of_piece(self, mark: str) -> tuple[Part, ...]:
        """The parts fitted with a piece."""
        return tuple(p for p in self.parts if p.piece == mark)

    @property
    def room(self) -> tuple[Part, ...]:
        """The room and what stands in it."""
        return tuple(p for p in self.parts if p.role in ROOM_ROLES)

    @property
    def fitted(self) -> tuple[Part, ...]:
        """Everything that is fitted."""
        return tuple(p for p in self.parts if p.role not in ROOM_ROLES)
