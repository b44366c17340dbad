"""Whether every piece can be moved into place: legs, approaches, clearances, hoses, elbows, and what would free it."""

from model3d.moves.approaching import steps_as_moved
from model3d.moves.check import check_moves, proved
from model3d.moves.findings import moves_beyond, with_tried_remedies
from model3d.moves.remedies import goes_with
from model3d.moves.shapes import Shapes
from model3d.moves.sites import sites
from model3d.moves.values import MoveVerdict, Stop, Tried

__all__ = [
    "MoveVerdict",
    "Shapes",
    "Stop",
    "Tried",
    "check_moves",
    "goes_with",
    "moves_beyond",
    "proved",
    "sites",
    "steps_as_moved",
    "with_tried_remedies",
]
