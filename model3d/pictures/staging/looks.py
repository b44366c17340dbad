"""Which look a part wears by its role."""

from __future__ import annotations

from collections.abc import Mapping

from model3d.pictures.stage import Look
from model3d.scene import Part

ROOM_LOOKS: Mapping[str, Look] = {
    "floor": "room-floor",
    "wall": "room-wall",
    "casing": "room-fixture",
    "sill": "room-fixture",
    "window-frame": "room-fixture",
    "glass": "room-fixture",
    "door-leaf": "room-fixture",
    "obstacle": "obstacle",
}
NEW_LOOKS: Mapping[str, Look] = {
    "piece": "new",
    "dry-piece": "new",
    "elbow": "fitting",
    "bridge": "fitting",
    "coupler": "fitting",
    "spigot": "fitting",
    "hose": "hose",
    "o-ring": "o-ring",
    "valve-end": "valve",
    "return-end": "valve",
    "turn-back-end": "valve",
    "cradle": "cradle",
    "bracket": "bracket",
    "packer": "bracket",
    "trim": "trim",
    "end-cap": "end-cap",
}


def new_look(part: Part) -> Look:
    """The look of a part that this step brings."""
    if part.face is not None:
        return "clip-front" if part.face == "front" else "clip-back"
    return NEW_LOOKS[part.role]


def brought_look(part: Part) -> Look:
    """The look of a part in the step that brings it for the whole run: brackets strong, the rest by role."""
    return "new" if part.role == "bracket" else new_look(part)


def waiting_look(part: Part) -> Look:
    """The look of a fitting that is in an earlier piece already and that this step's piece joins."""
    look = NEW_LOOKS[part.role]
    return "waiting" if look == "fitting" else look


def fitted_look(part: Part) -> Look:
    """The look of a part that is up already: muted, brackets and the cradle told apart."""
    return NEW_LOOKS[part.role] if part.role in ("bracket", "packer", "cradle") else "fitted"
