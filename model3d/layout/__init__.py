"""The layout: pieces, joints, clip faces and brackets as arithmetic, no solids."""

from model3d.layout.bracket_spots import bracket_spots, cable_cautions
from model3d.layout.lay_out import lay_out
from model3d.layout.values import (
    BracketMark,
    BracketSpot,
    ElbowWork,
    End,
    EndJoint,
    Joint,
    JointKind,
    Layout,
    Piece,
    PieceOnWall,
    RunLayout,
    Term,
)
from model3d.layout.written import layout_data, layout_schema

__all__ = [
    "BracketMark",
    "BracketSpot",
    "ElbowWork",
    "End",
    "EndJoint",
    "Joint",
    "JointKind",
    "Layout",
    "Piece",
    "PieceOnWall",
    "RunLayout",
    "Term",
    "bracket_spots",
    "cable_cautions",
    "lay_out",
    "layout_data",
    "layout_schema",
]
