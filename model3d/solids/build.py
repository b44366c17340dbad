"""From a spec to its solid: one maker for each kind, each distinct spec built once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from typing import Any

import cadquery as cq

from model3d.parts.ends import CradleSpec, ReturnEndSpec, TurnBackEndSpec, ValveEndSpec
from model3d.parts.fittings import (
    BridgeSpec,
    ClipSpec,
    CouplerSpec,
    ElbowSpec,
    HoseSpec,
    OringSpec,
    SpigotSpec,
)
from model3d.parts.fixings import BracketSpec, EndCapSpec, PackerSpec, TrimSpec
from model3d.parts.kinds import Spec
from model3d.parts.profile import PieceSpec
from model3d.parts.room import BoxSpec, CasingSpec, CylinderSpec, SectorSpec, SlabSpec, WallSpec
from model3d.solids.bracket import bracket
from model3d.solids.bridge import bridge
from model3d.solids.clip import clip
from model3d.solids.coupler import coupler
from model3d.solids.cradle import cradle
from model3d.solids.elbow import elbow
from model3d.solids.end_cap import end_cap
from model3d.solids.hose import hose
from model3d.solids.oring import oring
from model3d.solids.packer import packer
from model3d.solids.piece import piece
from model3d.solids.return_end import return_end
from model3d.solids.room_casing import room_casing
from model3d.solids.room_sector import room_sector
from model3d.solids.room_slab import room_slab
from model3d.solids.room_wall import room_wall
from model3d.solids.simple_bodies import box_body, cylinder_body
from model3d.solids.sound import UNSOUND_NUMBERS, SolidError
from model3d.solids.spigot import spigot
from model3d.solids.trim import trim
from model3d.solids.turn_back_end import turn_back_end
from model3d.solids.valve_end import valve_end

Maker = Callable[[Any], cq.Solid]

MAKERS: Mapping[type, Maker] = {
    PieceSpec: piece,
    ClipSpec: clip,
    ElbowSpec: elbow,
    BridgeSpec: bridge,
    OringSpec: oring,
    SpigotSpec: spigot,
    HoseSpec: hose,
    CouplerSpec: coupler,
    ValveEndSpec: valve_end,
    CradleSpec: cradle,
    ReturnEndSpec: return_end,
    TurnBackEndSpec: turn_back_end,
    BracketSpec: bracket,
    PackerSpec: packer,
    TrimSpec: trim,
    EndCapSpec: end_cap,
    BoxSpec: box_body,
    CylinderSpec: cylinder_body,
    SlabSpec: room_slab,
    WallSpec: room_wall,
    CasingSpec: room_casing,
    SectorSpec: room_sector,
}
"""Which function makes which kind: spec -> one valid closed solid in the spec's own frame."""


@cache
def solid(spec: Spec) -> cq.Solid:
    """The solid of a part in its own frame, mm, built once for each distinct spec and shared.

    Never change what it returns: place moved copies (``model3d.solids.placing.located``). Raises SolidError
    when the spec's numbers give no single valid closed solid, or its kind has no maker.
    """
    maker = MAKERS.get(type(spec))
    if maker is None:
        raise SolidError(f"no maker for {type(spec).__name__}")
    try:
        return maker(spec)
    except SolidError:
        raise
    except UNSOUND_NUMBERS as failure:
        raise SolidError(f"{type(spec).__name__}: the kernel refuses its numbers ({failure})") from failure
