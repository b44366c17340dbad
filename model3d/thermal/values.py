"""What a thermal report says of growth, long legs and hoses: figures that explain themselves.

Near is the end toward the valve, far the end toward the return. A movement is positive when an end moves
outward, beyond where it was cut; all at the temperatures of the plan.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from model3d.figures import Figure
from model3d.findings import Finding

Hold = Literal["near", "far", "both", "none"]


@dataclass(frozen=True, slots=True, kw_only=True)
class EndHold:
    """Whether an end is held in place along the run, and by what."""

    held: bool
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Growth:
    """How one piece, or several that couplers make one, moves as it warms and cools.

    ``mean`` is the growth of the whole at the mean water temperature, ``hot`` at the flow temperature,
    ``frost`` at the frost set-back. ``force`` is there for a piece that is held at both ends.
    """

    marks: tuple[str, ...]
    near: EndHold
    far: EndHold
    length: Figure
    mean: Figure
    hot: Figure
    frost: Figure
    force: Figure | None = None

    @property
    def hold(self) -> Hold:
        """Where it is held."""
        if self.near.held:
            return "both" if self.far.held else "near"
        return "far" if self.far.held else "none"

    @property
    def floats(self) -> bool:
        """Held nowhere: either end may take the whole growth, each is expected to take half."""
        return self.hold == "none"

    def taken_mm(self, end: Literal["near", "far"], grown: Figure) -> float:
        """The most that an end moves outward for a growth: the whole when it is free, else nothing."""
        held = self.near.held if end == "near" else self.far.held
        return 0.0 if held else grown.value

    @property
    def expected(self) -> Figure | None:
        """What each end of a floating piece is expected to take, hot; None for a piece that is held."""
        if not self.floats:
            return None
        return Figure(
            name="expected at each end, hot",
            formula=f"{self.hot.value:.2f} / 2",
            value=self.hot.value / 2.0,
            unit="mm",
            rule="held nowhere: half at each end; the whole is what is checked",
        )

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Its figures in the order a person would work them out, each once."""
        every = (self.length, self.mean, self.hot, self.frost, self.expected, self.force)
        return tuple(dict.fromkeys(f for f in every if f is not None))


@dataclass(frozen=True, slots=True, kw_only=True)
class LongLeg:
    """The long leg of an elbow in its four states, against its window. All are insertions from the cut
    face.
    """

    joint: str
    piece: str
    least: Figure
    most: Figure
    cold: Figure
    hot: Figure
    frost: Figure
    pushed_home: Figure
    work: tuple[Figure, ...] = ()

    @property
    def to_far_wall_mm(self) -> float:
        """How far the elbows pushed home stay off the far wall while the piece is offered; below 0 they
        hit it.
        """
        return next(f.value for f in self.work if f.name == "elbows off the far wall")

    @property
    def states(self) -> tuple[Figure, ...]:
        """The four states: cold, hot, frost, pushed home."""
        return (self.cold, self.hot, self.frost, self.pushed_home)

    @property
    def outside(self) -> tuple[Figure, ...]:
        """The states that leave the window by a thousandth or more."""
        return tuple(s for s in self.states if not self.least.value - 1e-3 <= s.value <= self.most.value + 1e-3)

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Its figures in order."""
        return (self.least, self.most, *self.states, *self.work)


@dataclass(frozen=True, slots=True, kw_only=True)
class HoseState:
    """A link's hose in one state: how far its ends stand apart, and its least bend radius.

    ``off_edge`` is how far its outside passes the wall's edge at an external corner. ``bend`` is None when
    the hose finds no shape between its ends; ``crossed`` says that one end stands beyond the other's line.
    """

    state: str
    apart: Figure
    bend: Figure | None
    off_edge: Figure | None = None
    crossed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkHose:
    """The hose of one link in every state. Its ends may stand ``most_apart_mm`` apart, and it may bend to
    ``least_bend_mm``.
    """

    joint: str
    states: tuple[HoseState, ...]
    most_apart_mm: float
    least_bend_mm: float

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Its figures in order."""
        return tuple(f for s in self.states for f in (s.apart, s.bend, s.off_edge) if f is not None)


@dataclass(frozen=True, slots=True, kw_only=True)
class ThermalReport:
    """All that warmth and cold do to a layout."""

    growths: tuple[Growth, ...]
    long_legs: tuple[LongLeg, ...]
    hoses: tuple[LinkHose, ...]
    findings: tuple[Finding, ...]

    def figures_of(self, mark: str) -> tuple[Figure, ...]:
        """Every figure that belongs to a piece or a joint."""
        of_pieces = tuple(f for g in self.growths if mark in g.marks for f in g.figures)
        of_legs = tuple(f for leg in self.long_legs if mark in (leg.joint, leg.piece) for f in leg.figures)
        of_hoses = tuple(f for h in self.hoses if h.joint == mark for f in h.figures)
        return of_pieces + of_legs + of_hoses
