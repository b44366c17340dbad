"""What parts are called in a parts list; like parts, which are those of one shape, share one line."""

from __future__ import annotations

from collections.abc import Iterable

from model3d.illustrations.picture import Item
from model3d.parts.kinds import Spec
from model3d.scene import Part
from model3d.wording import Catalogue

ORDER = (
    "piece", "dry-piece", "clip", "valve-end", "return-end", "turn-back-end", "elbow", "spigot", "hose", "coupler",
    "bridge", "o-ring", "bracket", "packer", "cradle", "trim", "end-cap",
)  # fmt: skip


def items(placed: Iterable[tuple[Part, str]], words: Catalogue) -> tuple[Item, ...]:
    """Lines of a parts list for parts, each with a word for where it is; one balloon for each line and place."""
    kinds: dict[Spec, dict[str, list[Part]]] = {}
    for part, where in placed:
        kinds.setdefault(part.spec, {}).setdefault(where, []).append(part)
    found = []
    for places in sorted(kinds.values(), key=lambda k: ORDER.index(next(iter(k.values()))[0].role)):
        parts = [p for group in places.values() for p in group]
        ids = tuple(tuple(p.id for p in group) for group in places.values())
        faces = tuple(group[0].face for group in places.values())
        found.append(Item(name=name_of(parts, words), places=ids, faces=faces))
    return tuple(found)


def name_of(parts: list[Part], words: Catalogue) -> str:
    """What like parts are called together."""
    first = parts[0]
    if first.role in ("piece", "dry-piece"):
        return words.say(f"part.{first.role}", marks=", ".join(str(p.piece) for p in parts))
    if first.role != "clip":
        return words.say(f"part.{first.role}") if first.role in ORDER else first.name
    if len({p.face for p in parts}) == 1:
        return words.say("part.clip", where=words.say("part.clip-facing", face=words.say(f"face.{first.face}")))
    one = len({p.piece for p in parts}) == 1
    return words.say("part.clip", where=", ".join(_clip_place(p, words, one=one) for p in parts))


def _clip_place(part: Part, words: Catalogue, *, one: bool) -> str:
    """The face of a clip and where it sits: at which end of the only piece, or in which piece."""
    face = words.say(f"face.{part.face}")
    if one and part.end is not None:
        return words.say("part.clip-toward", face=face, toward=words.say(f"toward.{part.end}"))
    return words.say("part.clip-in", face=face, mark=str(part.piece))
