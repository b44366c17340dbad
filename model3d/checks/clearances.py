"""How far parts of a run and things beside it must stay apart, by what the two are; nothing is asked of those that are
meant to stand close.

Common practice is to keep warm metal off pipes, furniture and leaves, so that it neither rubs nor creaks as it grows;
no source says how far: the figures are ours. A run ends at casings and in corners, lies along walls, and is laid out
with room for its growth there: casings, walls, window frames and floors ask for nothing more. Nor do end caps and what
is built in, where a run may end as well, or the covers of two runs or dry pieces, which may meet.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from model3d.parts.room import CylinderSpec
from model3d.scene import Part
from model3d.scene.values import SWEPT_ROLES

Kind = Literal["heated", "cover", "end", "fixing", "leaf", "pipe", "built-in"]

CLEARANCE_MM: Mapping[tuple[Kind, Kind], float] = {
    ("heated", "leaf"): 3.0,
    ("cover", "leaf"): 3.0,
    ("end", "leaf"): 3.0,
    ("fixing", "leaf"): 3.0,
    ("heated", "pipe"): 5.0,
    ("cover", "pipe"): 2.0,
    ("end", "pipe"): 2.0,
    ("fixing", "pipe"): 2.0,
    ("heated", "built-in"): 2.0,
    ("cover", "built-in"): 1.0,
    ("fixing", "built-in"): 1.0,
    ("heated", "heated"): 5.0,
    ("heated", "cover"): 2.0,
    ("heated", "end"): 2.0,
    ("heated", "fixing"): 2.0,
}
"""Between a part of a run and a thing beside it, or a part of another run; mm."""
MOST_MM = max(CLEARANCE_MM.values())

WORDS: Mapping[Kind, str] = {
    "heated": "a heated part",
    "cover": "a trim or dry piece",
    "end": "an end cap",
    "fixing": "a bracket",
    "leaf": "what opens",
    "pipe": "a pipe",
    "built-in": "what stands beside it",
}
HEATED = frozenset(
    {"piece", "clip", "elbow", "bridge", "spigot", "hose", "coupler", "valve-end", "return-end", "turn-back-end"}
)
COVERS = frozenset({"trim", "dry-piece"})
FIXINGS = frozenset({"bracket", "cradle", "packer"})


def kind_of(part: Part) -> Kind | None:
    """What a part counts as; None for what no clearance is asked of."""
    if part.role in HEATED:
        return "heated"
    if part.role in COVERS:
        return "cover"
    if part.role == "end-cap":
        return "end"
    if part.role in FIXINGS:
        return "fixing"
    if part.role in SWEPT_ROLES:
        return "leaf"
    if part.role == "obstacle":
        return "pipe" if isinstance(part.spec, CylinderSpec) else "built-in"
    return "built-in" if part.role == "sill" else None


def clearance_mm(a: Part, b: Part) -> float:
    """How far two parts must stay apart; 0 when they may touch."""
    one, other = kind_of(a), kind_of(b)
    if one is None or other is None:
        return 0.0
    return CLEARANCE_MM.get((one, other), CLEARANCE_MM.get((other, one), 0.0))


def asked_between(a: Part, b: Part) -> str:
    """What the clearance of two parts is asked between, in words."""
    one, other = kind_of(a), kind_of(b)
    return f"{WORDS[one]} and {WORDS[other]}" if one is not None and other is not None else ""
