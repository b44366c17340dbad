"""What parts are called in a parts list; like parts, which are those of one shape, share one line."""

from __future__ import annotations

from collections.abc import Iterable

from model3d.illustrations.picture import Item
from model3d.parts.kinds import Spec
from model3d.scene import Part

ORDER = (
    "piece", "dry-piece", "clip", "valve-end", "return-end", "turn-back-end", "elbow", "spigot", "hose", "coupler",
    "bridge", "o-ring", "bracket", "cradle", "trim", "end-cap",
)  # fmt: skip
NAMES = {
    "elbow": "Elbow, long leg into the earlier piece", "bridge": "Bridge, its nib into the clip",
    "o-ring": "O-ring, greased", "spigot": "Link spigot, with its screw", "hose": "Link hose",
    "coupler": "Coupler", "valve-end": "Valve end", "return-end": "Return end", "turn-back-end": "Turn-back end",
    "bracket": "Bracket", "cradle": "Valve cradle", "trim": "Trim", "end-cap": "End cap",
}  # fmt: skip


def items(placed: Iterable[tuple[Part, str]]) -> tuple[Item, ...]:
    """Lines of a parts list for parts, each with a word for where it is; one balloon for each line and place."""
    kinds: dict[Spec, dict[str, list[Part]]] = {}
    for part, where in placed:
        kinds.setdefault(part.spec, {}).setdefault(where, []).append(part)
    found = []
    for places in sorted(kinds.values(), key=lambda k: ORDER.index(next(iter(k.values()))[0].role)):
        parts = [p for group in places.values() for p in group]
        ids = tuple(tuple(p.id for p in group) for group in places.values())
        found.append(Item(name=name_of(parts), places=ids))
    return tuple(found)


def name_of(parts: list[Part]) -> str:
    """What like parts are called together."""
    first = parts[0]
    if first.role == "piece":
        return " and ".join(f"Piece {p.piece}" for p in parts)
    if first.role != "clip":
        return NAMES.get(first.role, first.name)
    faces = {str(p.face).upper() for p in parts}
    if len(faces) == 1:
        return f"Joint clip, facing {faces.pop()}"
    toward = {"start": "toward the valve", "end": "toward the return", None: ""}
    one = len({p.piece for p in parts}) == 1
    return "Joint clip, " + ", ".join(
        f"{str(p.face).upper()} " + (toward[p.end] if one else f"in {p.piece}") for p in parts
    )
