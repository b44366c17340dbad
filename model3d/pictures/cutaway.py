"""The room opened up: walls cut to a view height, those between the viewer and the work cut to a stub."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

from model3d.geometry.placement import Vec3, dot
from model3d.pictures.solids import PlacedMesh, cut_away
from model3d.pictures.stage import ROOM_LOOKS, Cut, Look, Notch
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


def notched(solids: Sequence[PlacedMesh], notch: Notch) -> tuple[PlacedMesh, ...]:
    """The solids with a window cut into the named ones: they come back in two parts, the far one whole, the near one
    without its side toward ``notch.normal``.
    """
    kept: list[PlacedMesh] = []
    inward = (-notch.along[0], -notch.along[1], -notch.along[2])
    for solid in solids:
        if solid.id not in notch.actor_ids:
            kept.append(solid)
            continue
        whole = cut_away(solid, notch.from_mm, notch.along)
        end = cut_away(solid, notch.from_mm, inward)
        opened_end = None if end is None else cut_away(replace(end, cut=None), notch.at_mm, notch.normal)
        kept += [part for part in (whole, opened_end) if part is not None]
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
