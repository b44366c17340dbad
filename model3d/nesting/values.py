"""What the saw is told: bars, what is cut from each, what is left."""

from __future__ import annotations

from dataclasses import dataclass

from model3d.figures import Figure
from model3d.findings import Finding


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One piece out of a bar: its mark, its length, and where it begins from the bar's first end."""

    mark: str
    length_mm: float
    from_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CutBar:
    """One bar: its length, whether it is an off-cut in hand, its cuts in order, and what is left at its
    far end.
    """

    length_mm: float
    off_cut: bool
    cuts: tuple[Cut, ...]
    left_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionNesting:
    """The cuts of one section, heated or dry.

    ``bought`` is the length of the new bars; ``bound`` the least that any nesting buys; ``proven`` whether
    they meet. ``waste`` is in per cent of all stock used, what is kept of it not counted. ``kept_mm`` are
    the left-overs worth keeping, longest first, ``unused_mm`` the off-cuts in hand that nothing is cut from.
    """

    heated: bool
    bars: tuple[CutBar, ...]
    bought: Figure
    bound: Figure
    proven: bool
    cut: Figure
    waste: Figure
    kept_mm: tuple[float, ...]
    unused_mm: tuple[float, ...] = ()

    @property
    def new_bars(self) -> tuple[CutBar, ...]:
        """The bars to buy."""
        return tuple(b for b in self.bars if not b.off_cut)

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Its figures in order."""
        return (self.cut, self.bought, self.bound, self.waste)


@dataclass(frozen=True, slots=True, kw_only=True)
class Nesting:
    """All cuts of a layout, by section."""

    sections: tuple[SectionNesting, ...]
    findings: tuple[Finding, ...]

    def bar_of(self, mark: str) -> CutBar:
        """The bar a piece is cut from. Raises KeyError when there is none."""
        for section in self.sections:
            for bar in section.bars:
                if any(c.mark == mark for c in bar.cuts):
                    return bar
        raise KeyError(mark)
