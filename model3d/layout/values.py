"""What a layout says: pieces, ends, joints and brackets, in numbers.

Positions are along a wall from its first corner, mm. Near is the end toward the valve, far the end toward the return.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from model3d.findings import Finding
from model3d.rooms import Corner, Wall

ClipFace = Literal["front", "back", "none"]
EndJoint = Literal["valve", "link", "elbow-long", "elbow-short", "return", "coupler", "turn-back", "none"]
JointKind = Literal["elbow", "link", "coupler"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """One named term of an allowance: its formula with figures put in, and its value."""

    name: str
    formula: str
    value_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """One end of a piece: what joins it, which face its clip takes, how far short of the corner (or run end) it is
    cut.

    ``insertion_mm`` is how deep the fitting's leg stands in it in the working position (0 where nothing enters);
    ``most_insertion_mm`` the deepest it ever stands (an elbow's long leg pushed home).
    """

    joint: EndJoint
    clip: ClipFace
    terms: tuple[Term, ...]
    insertion_mm: float
    most_insertion_mm: float

    @property
    def allowance_mm(self) -> float:
        """Sum of the terms."""
        return sum(t.value_mm for t in self.terms)


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketMark:
    """A bracket: the middle of its width, ``along_mm`` on the wall and ``from_near_mm`` from the piece's near cut
    face.
    """

    along_mm: float
    from_near_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One piece in place. ``near_mm`` and ``far_mm`` are where its cut faces stand along ``wall``.

    ``run`` is None for a dry piece. ``growth_gap_mm`` is left free beyond its far end. ``index`` counts from 1 in the
    run. ``planned_mm`` is the cut length as laid out, where the piece was cut otherwise; ``near_out_mm`` and
    ``far_out_mm`` are by how much its cut faces then stand outward of their places (negative: inward). ``fitted``
    says that it is up.
    """

    mark: str
    run: str | None
    index: int
    wall: Wall
    sense: Literal[1, -1]
    near_mm: float
    far_mm: float
    cut_length_mm: float
    growth_gap_mm: float
    start: End
    end: End
    brackets: tuple[BracketMark, ...]
    planned_mm: float | None = None
    near_out_mm: float = 0.0
    far_out_mm: float = 0.0
    fitted: bool = False

    @property
    def heated(self) -> bool:
        """False for a dry piece."""
        return self.run is not None

    @property
    def low_mm(self) -> float:
        """The cut face nearer the wall's first corner."""
        return min(self.near_mm, self.far_mm)

    @property
    def high_mm(self) -> float:
        """The cut face nearer the wall's last corner."""
        return max(self.near_mm, self.far_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class ElbowWork:
    """What is done with the elbows of a corner, all as insertion of the long leg: working, pushed home by, drawn out
    to, drawn by the press.
    """

    insertion_mm: float
    push_home_mm: float
    draw_out_to_mm: float
    press_draws_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """A joint between two pieces of a run, ``corner`` None when it is in-line.

    ``turn_deg`` is the corner's turn in the walls' own sense (positive internal), 0 in-line; ``run_turn_deg`` the
    turn of the run seen from above along it (positive to the left). ``middle_mm`` is the joint's middle along
    ``wall`` when in-line.
    """

    mark: str
    kind: JointKind
    earlier: str
    later: str
    wall: Wall
    corner: Corner | None
    turn_deg: float
    run_turn_deg: float
    straight_mm: float = 0.0
    middle_mm: float = 0.0
    elbow: ElbowWork | None = None
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceOnWall:
    """A piece on a wall that bows. ``packed`` says whether it is packed out at all, or follows the bare wall;
    ``packers_mm`` go behind its brackets, in their order, ``cradle_packers_mm`` behind its valve's cradle;
    ``stand_out_mm`` is how far its line stands out from the wall's; ``bend_mm`` how far it is bent, held so, against
    ``bend_limit_mm``; ``straight`` whether it is so over every length.
    """

    mark: str
    stand_out_mm: float
    packers_mm: tuple[float, ...]
    bend_mm: float
    bend_limit_mm: float
    straight: bool
    packed: bool
    cradle_packers_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceOverFloor:
    """A piece of a level run over a floor that is not. Gaps are from the floor to its underside, at its ends and the
    least and the most; ``holes_down_mm`` are its brackets' holes below the level line, the highest hole first, the
    same for all its brackets.
    """

    mark: str
    near_gap_mm: float
    far_gap_mm: float
    least_gap_mm: float
    most_gap_mm: float
    holes_down_mm: tuple[float, ...]


Fixing = Literal["masonry", "board", "stud", "between studs", "not said"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketSpot:
    """One bracket to mark and drill: ``number`` counts from the piece's near end; ``corner`` is the
    nearest corner of its wall, on the ``side`` as you face the wall, ``from_corner_mm`` away to the
    bracket's middle, measured along the wall.

    ``heights_mm`` are of the screws above the finished floor; where the floor was read, ``below_line_mm``
    are theirs below the level line, the highest first, and go before them. ``packers_mm`` go behind it on
    a wall that bows. ``cautions`` say where cables may run (BS 7671, 522.6), ``accessories`` those to or from
    which they run there.
    """

    piece: str
    number: int
    wall: str
    corner: str
    side: Literal["left", "right"]
    from_corner_mm: float
    along_mm: float
    heights_mm: tuple[float, ...]
    fixing: Fixing
    cautions: tuple[str, ...] = ()
    accessories: tuple[str, ...] = ()
    below_line_mm: tuple[float, ...] = ()
    packers_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class RunLayout:
    """A run laid out: pieces in order from the valve end, and the joint after each but the last."""

    id: str
    sense: Literal[1, -1]
    turns_back: bool
    return_fixed: bool
    pieces: tuple[Piece, ...]
    joints: tuple[Joint, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """All runs and dry pieces of a plan, with what the arithmetic had to say about them; ``on_walls`` and
    ``over_floor`` for the pieces whose wall or floor was read; ``spots`` are all brackets as a fitter marks them.
    """

    family_id: str
    runs: tuple[RunLayout, ...]
    dry_pieces: tuple[Piece, ...]
    findings: tuple[Finding, ...]
    on_walls: tuple[PieceOnWall, ...] = ()
    over_floor: tuple[PieceOverFloor, ...] = ()
    spots: tuple[BracketSpot, ...] = ()

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """Every piece, runs first, each in its order."""
        return tuple(p for run in self.runs for p in run.pieces) + self.dry_pieces

    @property
    def refused(self) -> tuple[Finding, ...]:
        """Findings that leave nothing to build."""
        return tuple(f for f in self.findings if f.severity == "error" and f.code in UNBUILDABLE)


UNBUILDABLE = frozenset(
    {"corner-too-acute", "corner-too-sharp", "elbow-past-play", "no-room-for-piece", "elbow-cannot-slide"}
)
