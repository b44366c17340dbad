"""The plan once checked: everything the layout needs, frozen, in numbers."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from model3d.rooms.cuts import CutMade
from model3d.rooms.furniture import Before, Furniture, NamedView
from model3d.rooms.room import Room
from model3d.rooms.runs import DryPlan, RunPlan
from model3d.rooms.surfaces import FloorLevel, Packers, WallBow
from model3d.rooms.work import Cutting, Heat, InLineRules, WallFixing
from model3d.survey import SurveyReport

Colour = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Temperatures:
    """Degrees Celsius: water going out and coming back, at installation, and at the frost set-back."""

    flow_c: float
    return_c: float
    install_c: float
    frost_c: float

    @property
    def mean_c(self) -> float:
        """Arithmetic mean of the water."""
        return (self.flow_c + self.return_c) / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish:
    """Colours as red, green, blue from 0 to 1 (sRGB), and what the floor is covered with, turned by an angle."""

    floor: Colour
    walls: Colour
    skirting: Colour
    flooring: Literal["boards", "herringbone", "tiles", "carpet"] = "boards"
    flooring_turn_deg: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckedPlan:
    """A plan without faults: the room, the runs, the dry pieces, the file of their family, and the survey that the room
    comes from, None when it was not given by one. ``as_cut`` are lengths that pieces were cut to already, ``fitted``
    the marks of those that are up. ``furniture``, ``viewpoints`` and ``before`` serve the customer's pictures.
    """

    path: Path
    name: str
    family_path: Path
    room: Room
    runs: tuple[RunPlan, ...]
    dry_pieces: tuple[DryPlan, ...]
    temperatures: Temperatures
    finish: Finish
    survey: SurveyReport | None = None
    bows: tuple[WallBow, ...] = ()
    floor_levels: tuple[FloorLevel, ...] = ()
    packers: Packers = field(default_factory=Packers)
    as_cut: tuple[CutMade, ...] = ()
    fitted: tuple[str, ...] = ()
    heat: Heat = field(default_factory=Heat)
    cutting: Cutting = field(default_factory=Cutting)
    fixings: tuple[WallFixing, ...] = ()
    in_line: InLineRules = field(default_factory=InLineRules)
    furniture: tuple[Furniture, ...] = ()
    viewpoints: tuple[NamedView, ...] = ()
    before: Before = field(default_factory=Before)
