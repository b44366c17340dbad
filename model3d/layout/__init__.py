"""The layout: pieces, joints, clip faces and brackets as arithmetic, no solids."""

from model3d.layout.written import layout_data, layout_schema
from model3d.layout.lay_out import lay_out
from model3d.layout.values import BracketMark, ElbowWork, End, Joint, Layout, Piece, RunLayout, Term

__all__ = [
    "BracketMark", "ElbowWork", "End", "Joint", "Layout", "Piece", "RunLayout", "Term", "lay_out", "layout_data",
    "layout_schema",
]
