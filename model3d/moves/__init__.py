"""Whether every piece can be moved into place: legs, approaches, clearances, hoses, elbows, and what would free it."""

from model3d.moves.approaching import steps_as_moved
from model3d.moves.check import check_moves, proved
from model3d.moves.findings import moves_beyond
from model3d.moves.shapes import Shapes
from model3d.moves.values import MoveVerdict, Stop, Tried

__all__ = ["MoveVerdict", "Shapes", "Stop", "Tried", "check_moves", "moves_beyond", "proved", "steps_as_moved"]
