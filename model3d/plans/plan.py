"""The plan file as written: what a person says of a room and its runs."""

from __future__ import annotations

from typing import Literal

from pydantic import ConfigDict, Field

from model3d.plans.colours import Colour
from model3d.plans.cutting import WrittenCutting
from model3d.plans.fixing import WrittenFixing, WrittenInLine
from model3d.plans.furniture import WrittenBefore, WrittenFurniture, WrittenViewpoint
from model3d.plans.heat import WrittenHeat
from model3d.plans.obstacles import AnyObstacle
from model3d.plans.openings import AnyOpening
from model3d.plans.runs import WrittenDryPiece, WrittenRun
from model3d.plans.shape import WrittenRoom
from model3d.plans.surfaces import WrittenBow, WrittenLevel, WrittenPackers
from model3d.sources import Entry, FormatOne, Size


class WrittenWater(Entry):
    """Temperatures of the water, degrees C. Valves to EN 215 are made for 120 at most."""

    flow: float = Field(default=55.0, gt=0, le=120)
    return_: float = Field(default=45.0, gt=0, le=120, alias="return")


class WrittenFinish(Entry):
    """Colours of what is seen."""

    floor: Colour = "oak"
    walls: Colour = "ivory"
    skirting: Colour = "white"
    flooring: Literal["boards", "herringbone", "tiles", "carpet"] = Field(
        default="boards", description="What the floor is covered with, for the pictures."
    )
    flooring_turn: float = Field(default=0.0, ge=-360, le=360, description="Which way boards or tiles run, degrees.")


class PlanInPart(Entry):
    """A plan of which anything may be missing: what is kept of a faulty file."""

    version: FormatOne | None = Field(default=None, description="Version of this file's form: 1.")
    name: str | None = Field(default=None, max_length=80, description="What the room is called.")
    units: Literal["mm"] = Field(default="mm", description="Plain numbers are millimetres.")
    family: str | None = Field(
        default=None,
        min_length=1,
        description="Profile family: a packaged name, or the path of a family file.",
    )
    room: WrittenRoom | None = None
    openings: tuple[AnyOpening, ...] = ()
    obstacles: tuple[AnyObstacle, ...] = ()
    water: WrittenWater = Field(default_factory=WrittenWater)
    install: float = Field(default=18.0, ge=-40, le=60, description="Temperature at installation, degrees C.")
    frost: float = Field(default=5.0, ge=-40, le=60, description="Temperature at the frost set-back, degrees C.")
    finish: WrittenFinish = Field(default_factory=WrittenFinish)
    runs: tuple[WrittenRun, ...] = ()
    dry_pieces: tuple[WrittenDryPiece, ...] = ()
    heat: WrittenHeat = Field(default_factory=WrittenHeat)
    cutting: WrittenCutting = Field(default_factory=WrittenCutting)
    fixing: tuple[WrittenFixing, ...] = Field(default=(), description="What walls are made of; masonry when not given.")
    in_line: WrittenInLine = Field(default_factory=WrittenInLine)
    bows: tuple[WrittenBow, ...] = Field(default=(), description="Walls that bow: straightedge readings.")
    floor_level: tuple[WrittenLevel, ...] = Field(default=(), description="The floor below a level line.")
    packers: WrittenPackers = Field(default_factory=WrittenPackers)
    as_cut: dict[str, Size] = Field(
        default_factory=dict, description="Pieces that were cut already: mark and length, such as A-2: 3490."
    )
    fitted: tuple[str, ...] = Field(default=(), description="Marks of the pieces that are up already.")
    furniture: tuple[WrittenFurniture, ...] = Field(default=(), description="What stands in the room, for pictures.")
    viewpoints: tuple[WrittenViewpoint, ...] = Field(default=(), description="Named places to look from.")
    before: WrittenBefore = Field(default_factory=WrittenBefore)


class Plan(PlanInPart):
    """A room, its openings and obstacles, the family, and the runs that go round it."""

    model_config = ConfigDict(title="Run plan", json_schema_extra={"$id": "urn:dryfit:plan:1"})

    version: FormatOne
    family: str = Field(min_length=1, description="Profile family: a packaged name, or the path of a family file.")
    room: WrittenRoom
    runs: tuple[WrittenRun, ...]
