"""What is meant to touch while a piece goes on, and what is meant to bend: by role, owner and leg."""

from __future__ import annotations

from collections.abc import Callable, Collection

from model3d.families.family import Family
from model3d.motion import RIGID, Give
from model3d.moves.bending import catch_bend_mm
from model3d.moves.shapes import BENT, part_id
from model3d.scene import Part
from model3d.scene.values import SWEPT_ROLES

Find = Callable[[str], Part]
FLEXIBLE = frozenset({"o-ring", "hose"})  # squeezed in their bores; bent by hand: these move with nothing as they are
NOT_STANDING = SWEPT_ROLES
LATCH_LEGS = frozenset({"press"})
LIP_LEGS = frozenset({"raise", "press"})
PIECES = frozenset({"piece", "dry-piece"})


def bends(part: Part, leg: str, marks: Collection[str]) -> bool:
    """Whether a standing part gives way to the piece on this leg: its own bracket's latch, its valve's cradle."""
    if part.piece not in marks:
        return False
    return (part.role == "bracket" and leg in LATCH_LEGS) or (part.role == "cradle" and leg in LIP_LEGS)


def meant_on(family: Family, find: Find, leg: str, marks: Collection[str]) -> Callable[[str, str], Give | None]:
    """For a leg of the pieces of these marks: how far a mover and a standing body may stand in one another, None where
    the pair does not count because the bent body stands for it.
    """
    catch = catch_bend_mm(family)

    def meant(mover: str, standing: str) -> Give | None:
        a, b = find(part_id(mover)), find(part_id(standing))
        if b.role in ("bracket", "cradle") and bends(b, leg, marks):
            yields = (a.role in PIECES and a.piece == b.piece) if b.role == "bracket" else a.role == "valve-end"
            return RIGID if yields == (BENT in standing) else None
        if {a.role, b.role} == {"clip", "bridge"} and mated(a, b):
            return Give(mover_mm=catch) if a.role == "bridge" else Give(standing_mm=catch)
        return RIGID

    return meant


def mated(a: Part, b: Part) -> bool:
    """Whether two parts belong together: the same joint; a joint and a piece or clip it joins; a piece and what is
    fixed for it or fitted to it.
    """
    if a.joint is not None and b.joint is not None:
        return a.joint == b.joint
    if a.piece is not None and a.piece == b.piece:
        return True
    joined, other = (a, b) if a.joint is not None else (b, a)
    return joined.joint is not None and other.piece is not None and _joins(joined, other)


def _joins(part: Part, other: Part) -> bool:
    """Whether a joint's part reaches into another piece: the one after its own in the same run."""
    if part.piece is None or other.piece is None or part.run is None or part.run != other.run:
        return False
    return index_of(other.piece) == index_of(part.piece) + 1


def index_of(mark: str) -> int:
    """A piece's place in its run; 0 for a dry piece."""
    tail = mark.rsplit("-", 1)[-1]
    return int(tail) if tail.isdigit() else 0


def beside_the_point(a: Part, b: Part, walls: Collection[str]) -> bool:
    """Pairs whose distance says nothing of how hard a move is: what is mated, the floor over which everything is
    lifted, the walls that the piece is pressed to and that its near joint lies along.
    """
    return b.role == "floor" or mated(a, b) or (b.role == "wall" and b.wall in walls)
