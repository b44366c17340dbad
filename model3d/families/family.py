"""A whole family file."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import ConfigDict, Field

from model3d.families.ends import BracketData, EndCapData, ReturnEndData, TrimData, TurnBackEndData, ValveEndData
from model3d.families.fields import FamilyPart, Number, Positive, PositiveNumber
from model3d.families.fittings import (
    BridgeData,
    ClipData,
    CouplerData,
    ElbowData,
    LegData,
    LinkData,
    NibData,
    OringData,
)
from model3d.families.rules import (
    Allowances,
    ApproachesData,
    ClipFaces,
    CornerJointsData,
    MovesData,
    NibFaces,
    SnagData,
)
from model3d.families.section import SectionData
from model3d.sources import FormatOne


class MaterialData(FamilyPart):
    """The profile's alloy."""

    name: str
    expansion_per_k: Annotated[float, Field(gt=1e-6, lt=1e-4)]
    density_kg_per_m3: PositiveNumber
    elastic_modulus_mpa: PositiveNumber


class RatedOutputData(FamilyPart):
    """Rated output per metre at an excess of 50 K, and the exponent (EN 442-2 form)."""

    at_50_k_w_per_m: PositiveNumber
    exponent: Annotated[float, Field(ge=1.0, le=1.6)]


class HandlingData(FamilyPart):
    """Past this length or mass two people lift."""

    one_person_length_mm: Positive
    one_person_mass_kg: PositiveNumber


InLineJoint = Literal["link", "coupler"]


class Family(FamilyPart):
    """A profile family as its file says it. Lengths in mm, angles in degrees.

    ``in_line`` are the joints that may stand within a wall, ``inline_joint`` the one taken where a plan does not say.
    """

    model_config = ConfigDict(title="Profile family", json_schema_extra={"$id": "urn:dryfit:family:1"})

    version: FormatOne
    id: Annotated[str, Field(pattern=r"^[a-z0-9][a-z0-9-]*$")]
    name: str
    material: MaterialData
    rated_output: RatedOutputData
    stock_lengths_mm: Annotated[tuple[Positive, ...], Field(min_length=1)]
    handling: HandlingData
    section: SectionData
    oring: OringData
    leg: LegData
    clip: ClipData
    nib: NibData
    bridge: BridgeData
    elbow: ElbowData | None = None
    link: LinkData
    coupler: CouplerData
    valve_end: ValveEndData
    return_end: ReturnEndData
    turn_back_end: TurnBackEndData
    end_insertion_mm: Positive
    bracket: BracketData
    trim: TrimData
    end_cap: EndCapData
    dry_temperature_rise_k: Number = 15.0
    straightness_mm_per_m: PositiveNumber = 1.5  # EN 755-9, from memory
    clip_faces: ClipFaces
    nib_faces: NibFaces
    corner_joints: CornerJointsData
    inline_joint: InLineJoint
    in_line: Annotated[tuple[InLineJoint, ...], Field(min_length=1)] = ("link", "coupler")
    allowances: Allowances
    moves: MovesData
    approaches: ApproachesData
    snags: tuple[SnagData, ...] = ()
