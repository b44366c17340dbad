"""Runs as asked for, resolved on the walls they pass: where they begin and end, which joints are forced."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from model3d.rooms.room import Corner, Wall

CornerUse = Literal["elbow", "link"]
InLineUse = Literal["link", "coupler"]


@dataclass(frozen=True, slots=True, kw_only=True)
class InLineJoint:
    """A joint asked for within a wall, its middle ``at_mm`` from the wall's first corner."""

    at_mm: float
    use: InLineUse


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLength:
    """A cut length asked for: ``piece`` counts from 1 within one span, in the run's order."""

    piece: int
    length_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RunSpan:
    """One wall of a run: it comes on at ``enters_mm`` and goes off at ``leaves_mm``, mm from the wall's first
    corner.

    ``enters_mm < leaves_mm`` when the run goes with the wall's sense, greater when against it. ``joints`` are
    in the run's order.
    """

    wall: Wall
    enters_mm: float
    leaves_mm: float
    joints: tuple[InLineJoint, ...] = ()
    cut_lengths: tuple[CutLength, ...] = ()

    @property
    def length_mm(self) -> float:
        """Length of wall between the run's ends on it."""
        return abs(self.leaves_mm - self.enters_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerPass:
    """A corner the run passes; ``use`` is the joint asked for, None to leave it to the rules."""

    corner: Corner
    use: CornerUse | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RunPlan:
    """A run as asked for: ``spans`` in order from the start fitting to the end one, ``corners[i]`` between
    spans i and i+1.

    ``sense`` is +1 when the run goes with the walls (room on its left), -1 when against them. The run starts
    at ``spans[0].enters_mm`` and ends at ``spans[-1].leaves_mm``. ``return_fixed`` says that the pipework at
    the return end is fixed and holds it.
    """

    id: str
    ring: str
    sense: Literal[1, -1]
    spans: tuple[RunSpan, ...]
    corners: tuple[CornerPass, ...]
    start_fitting: Literal["valve"]
    end_fitting: Literal["return", "turn-back"]
    return_fixed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class DryPlan:
    """A stretch of dry piece on one wall, ``from_mm < to_mm`` from the wall's first corner."""

    id: str
    wall: Wall
    from_mm: float
    to_mm: float
