"""Pieces as they were cut and as they are up: gaps, overlaps, whether joints hold, and the least change."""

from model3d.as_cut.cutting import with_cuts
from model3d.as_cut.said import change_text, cut_text
from model3d.as_cut.values import Change, CutLayout, EndAsCut, PieceAsCut

__all__ = ["Change", "CutLayout", "EndAsCut", "PieceAsCut", "change_text", "cut_text", "with_cuts"]
