"""How flat walls and floors may be, and how straight a profile is."""

from __future__ import annotations

import pytest

from model3d.layout.flatness import (
    ROW_3_MM,
    ROW_6_MM,
    flatness_limit_mm,
    greatest_bend_mm,
    straight_within,
    worst_unevenness,
)


@pytest.mark.parametrize(
    ("metres", "limit_mm"), [(0.05, 3), (0.1, 3), (1, 5), (2, 7), (3, 8), (4, 10), (10, 20), (15, 25), (20, 25)]
)
def test_walls_by_din_18202_row_6(metres: float, limit_mm: float) -> None:
    """DIN 18202 table 3 row 6, finished walls: 3, 5, 10, 20, 25 mm over 0.1, 1, 4, 10, 15 m; between them 7 over 2 m,
    8 over 3 m.
    """
    assert flatness_limit_mm(ROW_6_MM, metres * 1000.0) == limit_mm


@pytest.mark.parametrize(("metres", "limit_mm"), [(0.1, 2), (1, 4), (4, 10), (10, 12), (15, 15)])
def test_floors_by_din_18202_row_3(metres: float, limit_mm: float) -> None:
    """DIN 18202 table 3 row 3, finished floors: 2, 4, 10, 12, 15 mm over 0.1, 1, 4, 10, 15 m."""
    assert flatness_limit_mm(ROW_3_MM, metres * 1000.0) == limit_mm


def test_the_worst_place_over_any_length() -> None:
    """A belly of 6 in the middle of 4 m is within 10; one of 5 within 0.4 m is past 4.
    """
    long = worst_unevenness([(0.0, 0.0), (2000.0, 6.0), (4000.0, 0.0)], ROW_6_MM)
    assert long is not None
    assert (long.gap_mm, long.over_mm, long.limit_mm, long.passes) == (6.0, 4000.0, 10.0, True)
    short = worst_unevenness([(0.0, 0.0), (2000.0, 2.0), (2200.0, 8.0), (2400.0, 4.0), (4000.0, 0.0)], ROW_6_MM)
    assert short is not None
    assert (short.gap_mm, short.at_mm, short.over_mm, short.limit_mm) == (5.0, 2200.0, 400.0, 4.0)
    assert worst_unevenness([(0.0, 0.0), (1.0, 9.0)], ROW_6_MM) is None


def test_a_profile_is_straight_over_every_length() -> None:
    """EN 755-9 (from memory): 1.5 mm in 1 m, so 3 mm over 2 m; over a part of it as much less, down to the 0.6 that
    passes over any 300 mm.
    """
    assert straight_within([(0.0, 0.0), (150.0, 0.6), (300.0, 0.0)], 1.5)
    assert not straight_within([(0.0, 0.0), (150.0, 0.61), (300.0, 0.0)], 1.5)
    assert straight_within([(0.0, 0.0), (1000.0, 3.0), (2000.0, 0.0)], 1.5)
    assert not straight_within([(0.0, 0.0), (1000.0, 3.1), (2000.0, 0.0)], 1.5)
    assert not straight_within([(0.0, 0.0), (900.0, 0.0), (1000.0, 1.0), (1100.0, 0.0), (2000.0, 0.0)], 1.5)
    assert straight_within([(0.0, 0.0), (500.0, 90.0)], 1.5)
    assert greatest_bend_mm([(0.0, 2.0), (1000.0, 5.0), (2000.0, 4.0)]) == 2.0
    assert greatest_bend_mm([(0.0, 2.0), (1000.0, 5.0)]) == 0.0
