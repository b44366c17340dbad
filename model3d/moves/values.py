"""What comes of asking whether pieces can be moved into place."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from model3d.geometry.placement import Vec3
from model3d.motion import Nearest


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """What stops a step: on which leg, how far along it, which part meets which, where (room frame), and how deep it
    would stand in it ``deepest`` at the leg's end, or on the way when it would have passed through: the widest ball in
    what they would share; of a hose, how far it would reach in under the outside.
    """

    leg: str
    done_mm: float
    mover: str
    standing: str
    place_mm: Vec3
    depth_mm: float
    deepest: Literal["at the end", "on the way"] = "at the end"
    lasting: bool
    """Whether it stands in the piece's final place as well."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """One approach of a step, and what stops it or a leg after it; None when it is free."""

    approach: str
    stop: Stop | None


@dataclass(frozen=True, slots=True, kw_only=True)
class HosePose:
    """A link's hose in one pose of a leg: where the moving piece, or the spigot pushed in by hand, stands, seen from
    its place in its run frame; where the hose ends, seen from its beginning (x along it there, y toward the room, z
    up); its least bend radius, 0 when it finds no shape there.
    """

    joint: str
    leg: str
    at_mm: Vec3
    end_mm: Vec3
    radius_mm: float

    @property
    def apart_mm(self) -> float:
        """How far apart the ends are."""
        return math.hypot(*self.end_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class ElbowSlide:
    """How deep the long legs of an elbow corner stand in a piece, pose by pose, against their window."""

    joint: str
    piece: str
    least_mm: float
    most_mm: float
    poses: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveVerdict:
    """What came of a step that moves something: the approaches tried, up to the first that is free; how near the piece
    comes to anything that it is not meant to touch on that way, and on which leg (None: nothing within reach); what
    stops the work by hand (elbows pushed home and drawn out, links pushed in); what a bent hose meets; the hose of the
    link it is pushed onto, or that is pushed in by hand, and its far elbows, in every pose.
    """

    step: int
    tried: tuple[Tried, ...]
    clearance: Nearest | None = None
    clearance_leg: str | None = None
    by_hand: Stop | None = None
    bent: Stop | None = None
    hoses: tuple[HosePose, ...] = ()
    elbows: ElbowSlide | None = None
    stops: tuple[Stop, ...] = ()
    """All that has to change before it is free: the first stop, and what would stop it once those before are gone."""

    @property
    def approach(self) -> str | None:
        """The approach that is free, None when none is."""
        return next((t.approach for t in self.tried if t.stop is None), None)

    @property
    def free(self) -> bool:
        """Whether everything in the step goes."""
        return self.approach is not None and self.by_hand is None and self.bent is None
