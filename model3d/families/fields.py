"""Field types that family models share."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from model3d.sources import Distance, Entry, Length, Size

__all__ = [
    "ClipFace",
    "Coordinate",
    "EndKind",
    "FamilyPart",
    "JointKind",
    "NibFace",
    "NotNegative",
    "Number",
    "Point",
    "Positive",
    "PositiveNumber",
]

Positive = Size
"""A length that must be more than nothing, mm."""
NotNegative = Distance
"""A length that may be nothing, mm."""
Coordinate = Length
"""A length of either sign, mm."""
Point = tuple[Length, Length]
"""A point of a section, mm."""
Number = Annotated[float, Field(ge=0, allow_inf_nan=False)]
"""A plain number that may be nothing: degrees, kelvin."""
PositiveNumber = Annotated[float, Field(gt=0, allow_inf_nan=False)]
"""A plain number that must be more than nothing: watts, kilograms."""

ClipFace = Literal["front", "back", "none"]
NibFace = Literal["front", "back"]
EndKind = Literal["valve", "link", "elbow-long", "elbow-short", "return", "coupler", "turn-back", "none"]
JointKind = Literal["elbow", "link", "coupler"]


class FamilyPart(Entry):
    """A block of a family file: strict, frozen, no unknown keys, and it knows the line it stands on."""
