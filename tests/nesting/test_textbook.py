"""Two cutting-stock examples of the literature, with what is known of them."""

from __future__ import annotations

import pytest

from model3d.nesting import Saw, Solution, Stock, least_stock
from model3d.nesting.first_fit import first_fit_decreasing

REELS = dict(
    zip(
        (1380, 1520, 1560, 1710, 1820, 1880, 1930, 2000, 2050, 2100, 2140, 2150, 2200),
        (22, 25, 12, 14, 18, 18, 20, 10, 12, 14, 16, 18, 20),
        strict=True,
    )
)
CHVATAL = {45: 97, 36: 610, 31: 395, 14: 211}


def listed(demand: dict[int, int]) -> list[float]:
    """Every piece of a demand by its length."""
    return [float(length) for length, count in demand.items() for _ in range(count)]


def solved(
    demand: dict[int, int], stock_mm: float, kerf_mm: float = 0.0, all_patterns: int = 20_000
) -> Solution:
    """The least stock of one length."""
    stock = [Stock(length_mm=stock_mm)]
    return least_stock(listed(demand), stock, Saw(kerf_mm=kerf_mm), all_patterns=all_patterns)


def test_the_demand_of_the_reels() -> None:
    """The paper-mill example has 219 pieces of 407160 in all (demand from memory, confirmed by its total)."""
    assert (sum(REELS.values()), sum(listed(REELS))) == (219, 407160)


@pytest.mark.parametrize("all_patterns", [20_000, 50])
def test_reels(all_patterns: int) -> None:
    """From reels of 5600 it takes 73, proven, with .4012 % of waste and 72.917 by the linear programme
    (textbook).
    """
    found = solved(REELS, 5600, all_patterns=all_patterns)
    assert len(found.bars) == 73
    assert found.cost_mm == 73 * 5600
    assert found.bound_mm == 73 * 5600
    assert found.proven
    assert 100 * (1 - 407160 / found.cost_mm) == pytest.approx(0.4012, abs=5e-5)
    assert found.linear_mm / 5600 == pytest.approx(72.917, abs=5e-4)


@pytest.mark.parametrize("kerf_mm", [3.0, 4.0, 5.0])
def test_reels_with_a_saw(kerf_mm: float) -> None:
    """With a cut of 3 to 5 between pieces it takes 74."""
    found = solved(REELS, 5600, kerf_mm)
    assert (len(found.bars), found.proven) == (74, True)


@pytest.mark.parametrize("all_patterns", [20_000, 0])
def test_chvatal(all_patterns: int) -> None:
    """97 of 45, 610 of 36, 395 of 31 and 211 of 14 from 100 take 453, 452.25 by the linear programme
    (Chvatal).
    """
    found = solved(CHVATAL, 100, all_patterns=all_patterns)
    assert (len(found.bars), found.proven) == (453, True)
    assert found.linear_mm / 100 == pytest.approx(452.25, abs=5e-4)


@pytest.mark.parametrize(("demand", "stock_mm", "bars"), [(REELS, 5600, 82), (CHVATAL, 100, 485)])
def test_first_fit_decreasing(demand: dict[int, int], stock_mm: float, bars: int) -> None:
    """First-fit decreasing takes 82 and 485."""
    assert len(first_fit_decreasing(listed(demand), [Stock(length_mm=stock_mm)], Saw())) == bars
