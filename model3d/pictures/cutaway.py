"""The room opened up: walls cut to a view height, those between the viewer and the work cut to a stub."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from model3d.geometry.placement import Vec3, dot
from model3d.pictures.solids import PlacedMesh, cut_away
from model3d.pictures.stage import ROOM_LOOKS, Cut, Look
from model3d.pictures.theme import Theme

_SIDEWAYS = 0.04
_UP: Vec3 = (0.0, 0.0, 1.0)


def opened(
    solids: Sequence[PlacedMesh], toward: Vec3, theme: Theme, low_ids: Collection[str] = ()
) -> tuple[PlacedMesh, ...]:
    """The stage as seen from direction ``toward`` (pointing to the viewer).

    A wall whose room side looks away from the viewer, or that is named in ``low_ids``, is cut to
    ``theme.stub_mm``; every other wall, and what hangs on it, to ``theme.wall_mm``. A fixture named in
    ``low_ids`` is left out.
    """
    kept: list[PlacedMesh] = []
    for solid in solids:
        if solid.look == "room-fixture" and solid.id in low_ids:
            continue
        if solid.look not in ("room-wall", "room-fixture"):
            kept.append(solid)
            continue
        away = solid.facing is not None and dot(solid.facing, toward) < _SIDEWAYS
        height = theme.stub_mm if away or solid.id in low_ids else theme.wall_mm
        rest = cut_away(solid, (0.0, 0.0, height), _UP)
        if rest is not None:
            kept.append(rest)
    return tuple(kept)


_INNER: frozenset[Look] = frozenset({"clip-front", "clip-back", "fitting", "hose", "o-ring"})


def cut_open(solids: Sequence[PlacedMesh], cut: Cut) -> tuple[PlacedMesh, ...]:
    """The solids with a cut made: the named ones, or all that are no clip, fitting, hose, O-ring or part of
    the room.
    """
    kept: list[PlacedMesh] = []
    for solid in solids:
        named = solid.id in cut.actor_ids
        outer = not cut.actor_ids and solid.look not in _INNER and solid.look not in ROOM_LOOKS
        rest = cut_away(solid, cut.at_mm, cut.normal) if named or outer else solid
        if rest is not None:
            kept.append(rest)
    return tuple(kept)
