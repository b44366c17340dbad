"""The room and its runs, checked, in numbers: what the layout is computed from."""

from model3d.rooms.checked import CheckedPlan, Finish, Temperatures
from model3d.rooms.drawers import CupboardDoor, Drawer, Opener
from model3d.rooms.obstacles import Obstacle, Pipe, PipeTail, Slab, SocketOutlet
from model3d.rooms.openings import Casement, Casing, Door, Opening, Sash, Window
from model3d.rooms.room import Corner, Ring, Room, Wall
from model3d.rooms.runs import CornerPass, CutLength, DryPlan, InLineJoint, RunPlan, RunSpan
from model3d.rooms.surfaces import FloorLevel, Packers, WallBow
from model3d.rooms.work import Cutting, Heat, InLineRules, OffCut, Studs, WallFixing

__all__ = [
    "Casement",
    "Casing",
    "CheckedPlan",
    "Corner",
    "CornerPass",
    "CupboardDoor",
    "CutLength",
    "Cutting",
    "Door",
    "Drawer",
    "DryPlan",
    "Finish",
    "FloorLevel",
    "Heat",
    "InLineJoint",
    "InLineRules",
    "Obstacle",
    "OffCut",
    "Opener",
    "Opening",
    "Packers",
    "Pipe",
    "PipeTail",
    "Ring",
    "Room",
    "RunPlan",
    "RunSpan",
    "Sash",
    "Slab",
    "SocketOutlet",
    "Studs",
    "Temperatures",
    "Wall",
    "WallBow",
    "WallFixing",
    "Window",
]
