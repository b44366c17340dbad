"""All specs under one name."""

from __future__ import annotations

from model3d.parts.ends import CradleSpec, ReturnEndSpec, TurnBackEndSpec, ValveEndSpec
from model3d.parts.fittings import BridgeSpec, ClipSpec, CouplerSpec, ElbowSpec, HoseSpec, OringSpec, SpigotSpec
from model3d.parts.fixings import BracketSpec, EndCapSpec, PackerSpec, TrimSpec
from model3d.parts.profile import PieceSpec
from model3d.parts.room import BoxSpec, CasingSpec, CylinderSpec, SectorSpec, SlabSpec, WallSpec

Spec = (
    PieceSpec | ClipSpec | ElbowSpec | BridgeSpec | OringSpec | SpigotSpec | HoseSpec | CouplerSpec
    | ValveEndSpec | CradleSpec | ReturnEndSpec | TurnBackEndSpec
    | BracketSpec | PackerSpec | TrimSpec | EndCapSpec
    | BoxSpec | CylinderSpec | SlabSpec | WallSpec | CasingSpec | SectorSpec
)
