"""Stock bars, and what fits in one: pieces with the saw's cut between them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

FITS_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """Bars of one length: as many as are asked for, or ``count`` of them in hand (off-cuts, which cost
    nothing).
    """

    length_mm: float
    count: int | None = None

    @property
    def is_off_cut(self) -> bool:
        """In hand already."""
        return self.count is not None

    @property
    def price_mm(self) -> float:
        """What one costs, as length bought."""
        return 0.0 if self.is_off_cut else self.length_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Saw:
    """The width of a cut, and what is cut off each end of a bar, that cut included."""

    kerf_mm: float = 0.0
    end_trim_mm: float = 0.0

    def usable_mm(self, stock_mm: float) -> float:
        """A bar less its trimmed ends."""
        return stock_mm - 2.0 * self.end_trim_mm

    def room_mm(self, stock_mm: float) -> float:
        """What a bar offers to pieces that each take their length and one cut: n pieces need n - 1 cuts
        between them, so one cut more than its usable length.
        """
        return self.usable_mm(stock_mm) + self.kerf_mm

    def takes_mm(self, length_mm: float) -> float:
        """What a piece takes of that."""
        return length_mm + self.kerf_mm

    def fits(self, lengths_mm: Iterable[float], stock_mm: float) -> bool:
        """Whether pieces can be cut from one bar: their lengths and the cuts between them within its
        usable length.
        """
        return sum(self.takes_mm(x) for x in lengths_mm) <= self.room_mm(stock_mm) + FITS_MM

    def left_mm(self, lengths_mm: Iterable[float], stock_mm: float) -> float:
        """What is left at a bar's far end, untrimmed: less the first trim, the pieces and a cut after
        each.
        """
        return max(0.0, stock_mm - self.end_trim_mm - sum(self.takes_mm(x) for x in lengths_mm))
