"""Field types that family models share."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Positive = Annotated[float, Field(gt=0)]
NotNegative = Annotated[float, Field(ge=0)]
Point = tuple[float, float]

ClipFace = Literal["front", "back", "none"]
NibFace = Literal["front", "back"]
EndKind = Literal["valve", "link", "elbow-long", "elbow-short", "return", "coupler", "turn-back", "none"]
JointKind = Literal["elbow", "link", "coupler"]


class FamilyPart(BaseModel):
    """A block of a family file: strict, frozen, no unknown keys."""

    model_config = ConfigDict(strict=True, frozen=True, extra="forbid", ser_json_inf_nan="strings")
