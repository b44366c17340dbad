"""The rules of a family as data: clip faces, joints of corners, allowances, moves, approaches, snags."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from model3d.families.fields import ClipFace, EndKind, FamilyPart, JointKind, NibFace

AllowanceTerm = Literal[
    "valve-length",
    "return-length",
    "turn-back-length",
    "slide-room",
    "bend-tangent",
    "elbow-stub",
    "arc-tangent",
    "hose-straight",
    "link-stub",
    "half-gap",
    "cap-plate",
]
MoveName = Literal["offer", "raise", "slide", "engage", "press"]

_TERM = re.compile(r"\s*([+-]?)\s*(\d+(?:\.\d+)?|[dpl])")


def move_terms(text: str) -> tuple[tuple[float, str], ...]:
    """Read a sum such as ``d - 15`` or ``p+142``: (factor, name) pairs, the name empty for a plain number.

    Raises ValueError when the text is not a sum of numbers and of d (depth of engagement + 2), p (press), l (lift).
    """
    terms: list[tuple[float, str]] = []
    rest = text.strip()
    while rest:
        found = _TERM.match(rest)
        if found is None or (terms and not found[1]):
            raise ValueError(f"{text!r} is not a sum of millimetres and of d, p, l")
        factor = -1.0 if found[1] == "-" else 1.0
        terms.append((factor, found[2]) if found[2] in "dpl" else (factor * float(found[2]), ""))
        rest = rest[found.end() :].strip()
    if not terms:
        raise ValueError("an empty sum")
    return tuple(terms)


def move_sum(text: str, names: Mapping[str, float]) -> float:
    """The value of a move's sum in mm."""
    return sum(factor * (names[name] if name else 1.0) for factor, name in move_terms(text))


def _checked_sum(text: str) -> str:
    move_terms(text)
    return text


Sum = Annotated[str, AfterValidator(_checked_sum)]


class LegData(FamilyPart):
    """One leg of a move: its name and where the piece stands after it, as seen from its final place."""

    leg: MoveName
    to: tuple[Sum, Sum, Sum]
    click: bool = False


class ApproachData(FamilyPart):
    """One way to the offer: from a point beside it, or turning about the upright line through the near end."""

    approach: Literal["straight", "slanted", "above", "along", "swing"]
    by: tuple[Sum, Sum, Sum] | None = None
    turn_deg: Annotated[float, Field(gt=0, le=15)] | None = None


class MovesData(FamilyPart):
    """The chain of moves by what the piece's near end meets."""

    first: tuple[LegData, ...]
    elbow_short: Annotated[tuple[LegData, ...] | None, Field(alias="elbow-short")] = None
    link: tuple[LegData, ...]


class ApproachesData(FamilyPart):
    """The approaches tried, in order; another list where the piece carries elbows at its far end."""

    any: Annotated[tuple[ApproachData, ...], Field(min_length=1)]
    far_elbow_long: Annotated[tuple[ApproachData, ...] | None, Field(alias="far-elbow-long")] = None


class SnagData(FamilyPart):
    """A known snag at a kind of end, and when it comes: with the bench work there, or with a leg of the move."""

    at: EndKind
    text: str
    during: Literal["bench", "offer", "raise", "slide", "engage", "press"] = "press"


class CornerJointsData(FamilyPart):
    """The joint a corner takes by default."""

    internal: Literal["elbow", "link"]
    external: Literal["link"]


ClipFaces = dict[EndKind, ClipFace]
NibFaces = dict[Literal["valve", "link", "elbow", "return", "coupler", "turn-back"], NibFace]
AllowanceOf = Literal["valve", "return", "turn-back", "elbow", "link", "coupler", "none"]
Allowances = dict[AllowanceOf, tuple[AllowanceTerm, ...]]
__all__ = [
    "Allowances",
    "ApproachesData",
    "ClipFaces",
    "CornerJointsData",
    "JointKind",
    "MovesData",
    "NibFaces",
    "SnagData",
]
