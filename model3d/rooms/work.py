"""What a plan says of heat, cutting, fixing and in-line joints, in numbers. All have usual values."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True, kw_only=True)
class Heat:
    """The room's temperature and heat loss (None when not given), whether vulnerable people live there,
    and the Kv of each run's valve.
    """

    room_c: float = 20.0
    loss_w: float | None = None
    vulnerable: bool = False
    valve_kv_m3_per_h: float = 0.6


@dataclass(frozen=True, slots=True, kw_only=True)
class OffCut:
    """``count`` off-cuts in hand of one length; ``dry`` when of the dry piece's section."""

    length_mm: float
    count: int = 1
    dry: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutting:
    """The saw's cut, what is cut off each end of a bar (the saw's cut included), how long a left-over is
    worth keeping, and the off-cuts in hand.
    """

    kerf_mm: float = 3.0
    end_trim_mm: float = 5.0
    worth_keeping_mm: float = 300.0
    off_cuts: tuple[OffCut, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Studs:
    """Upright studs behind a wall's board: the middle of one from the wall's first corner, their spacing,
    and the width of face that takes a screw.
    """

    first_mm: float
    spacing_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WallFixing:
    """What one wall offers a bracket; ``studs`` for the kind ``studs`` only."""

    wall_id: str
    kind: Literal["masonry", "board", "studs"]
    studs: Studs | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class InLineRules:
    """How far the middle of an in-line joint stays from the edges of things on its wall, where its place is
    chosen for it. Common practice, no source.
    """

    off_corner_mm: float = 300.0
    off_socket_mm: float = 150.0
    off_opening_mm: float = 150.0
    off_pipe_mm: float = 100.0
