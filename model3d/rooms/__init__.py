"""The room and its runs, checked, in numbers: what the layout is computed from."""

from model3d.rooms.checked import CheckedPlan, Finish, Temperatures
from model3d.rooms.obstacles import Obstacle, Pipe, PipeTail, Slab, SocketOutlet
from model3d.rooms.openings import Casing, Door, Opening, Window
from model3d.rooms.room import Corner, Ring, Room, Wall
from model3d.rooms.runs import CornerPass, CutLength, DryPlan, InLineJoint, RunPlan, RunSpan
from model3d.rooms.surfaces import FloorLevel, Packers, WallBow
from model3d.rooms.work import Cutting, Heat, InLineRules, OffCut, Studs, WallFixing

__all__ = [
    "Casing",
    "CheckedPlan",
    "Corner",
    "CornerPass",
    "CutLength",
    "Cutting",
    "Door",
    "DryPlan",
    "Finish",
    "FloorLevel",
    "Heat",
    "InLineJoint",
    "InLineRules",
    "Obstacle",
    "OffCut",
    "Opening",
    "Packers",
    "Pipe",
    "PipeTail",
    "Ring",
    "Room",
    "RunPlan",
    "RunSpan",
    "Slab",
    "SocketOutlet",
    "Studs",
    "Temperatures",
    "Wall",
    "WallBow",
    "WallFixing",
    "Window",
]
