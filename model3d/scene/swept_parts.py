"""The room that things take as they open: door leaves, sashes, doors and drawers of furniture."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from model3d.geometry.placement import at
from model3d.parts.room import BoxSpec, SectorSpec
from model3d.rooms import Door, Drawer, Slab, Wall, Window
from model3d.scene.frames import in_wall
from model3d.scene.values import Part

LEAF_GAP_MM = 8.0  # under a door leaf


def door_swing(wall: Wall, door: Door) -> Iterator[Part]:
    """What the leaf of a door that opens in sweeps, from its gap above the floor up."""
    if door.swing == "in":
        yield Part(
            id=f"room/{door.id}/swing", name=f"Swing of door {door.id}", role="door-swing", wall=wall.id,
            obstacle=door.id, placement=in_wall(wall, door.hinge_mm, 0.0, LEAF_GAP_MM),
            spec=_sector(door.width_mm, door.hinge, door.opens_deg, door.height_mm - LEAF_GAP_MM),
        )


def sash_swings(wall: Wall, window: Window) -> Iterator[Part]:
    """What each sash that opens into the room sweeps, from the sill up."""
    if window.casement is None:
        return
    for sash in window.sashes:
        one = len(window.sashes) == 1
        yield Part(
            id=f"room/{window.id}/swing{'' if one else '-' + sash.hinge}",
            name=f"{'Sash' if one else sash.hinge.capitalize() + ' sash'} of {window.id}", role="sash-swing",
            wall=wall.id, obstacle=window.id, placement=in_wall(wall, sash.hinge_mm, 0.0, window.sill_mm),
            spec=_sector(sash.width_mm, sash.hinge, window.casement.opens_deg, window.height_mm),
        )


def openers(thing: Slab) -> Iterator[Part]:
    """What the drawers and doors of a box take in front of it, each counted among its kind."""
    counts = {"drawer": 0, "door": 0}
    for opener in thing.openers:
        kind = "drawer" if isinstance(opener, Drawer) else "door"
        counts[kind] += 1
        high = opener.high_mm - opener.low_mm
        if isinstance(opener, Drawer):
            spec: BoxSpec | SectorSpec = BoxSpec(size_mm=(opener.to_mm - opener.from_mm, opener.out_mm, high))
            along = opener.from_mm
        else:
            spec = _sector(opener.to_mm - opener.from_mm, opener.hinge, opener.opens_deg, high)
            along = opener.hinge_mm
        yield Part(
            id=f"room/{thing.id}/{kind}-{counts[kind]}", name=f"{kind.capitalize()} {counts[kind]} of {thing.id}",
            role="drawer-travel" if kind == "drawer" else "cupboard-swing", wall=thing.wall_id, obstacle=thing.id,
            placement=thing.frame @ opener.front @ at(along, 0.0, opener.low_mm), spec=spec,
        )


def _sector(radius_mm: float, hinge: Literal["left", "right"], opens_deg: float, height_mm: float) -> SectorSpec:
    """A leaf about its hinge; x goes from right to left as one faces it, y toward the one who does."""
    right = hinge == "right"
    return SectorSpec(
        radius_mm=radius_mm,
        start_deg=0.0 if right else 180.0,
        sweep_deg=opens_deg if right else -opens_deg,
        height_mm=height_mm,
    )
