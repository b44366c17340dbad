"""The numbers of an elbow corner against sums done by hand."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model3d.families.elbow_corner import (
    elbow_corner,
    pressed_together_below_mm,
    short_leg_slide_mm,
    shortest_piece_mm,
)
from model3d.families.family import Family
from model3d.families.reading import find_family, read_family

A, B, C = (read_family(find_family(name)) for name in ("a-square", "b-moulded", "c-low"))


def test_the_worked_example() -> None:
    """Family (a), a 3498 piece fitted at 18, hot 55, frost 5: window 19 to 52; 34.0 cold, 37.0 hot, 32.9 frost, 52
    pushed home.

    The slide needs 26 - 17 + 7.5 = 16.5, the stub of 20 allows 18, which leaves 1.5 to the wall; drawn to 42, the press
    draws 8.
    """
    growth = 23.4e-6 * 3498.0
    corner = elbow_corner(A, hot_growth_mm=growth * (55 - 18), frost_growth_mm=growth * (5 - 18))
    assert (corner.least_mm, corner.most_mm) == (19.0, 52.0)
    assert corner.cold_mm == 34.0
    assert corner.hot_mm == pytest.approx(37.03, abs=0.005)
    assert corner.frost_mm == pytest.approx(32.94, abs=0.005)
    assert corner.pushed_home_mm == 52.0
    assert corner.outside_window == ()
    assert short_leg_slide_mm(A) == 26.0
    assert (corner.push_needed_mm, corner.push_allowed_mm, corner.push_home_by_mm) == (16.5, 18.0, 18.0)
    assert corner.to_far_wall_mm == 1.5
    assert corner.draw_out_to_mm == 42.0
    assert corner.press_draws_mm == 8.0
    assert corner.draw_out_to_mm - corner.press_draws_mm == corner.cold_mm
    assert shortest_piece_mm(A) == 78.0
    assert pressed_together_below_mm(A) == pytest.approx(229.1, abs=0.05)


def test_the_moulded_family() -> None:
    """Family (b): legs 59 and 50, stub 23, rings 6.5 and 15.5: window 21.5 to 57, working 36, needed 29 - 21 + 9 = 17
    of 21."""
    corner = elbow_corner(B)
    assert (corner.least_mm, corner.most_mm, corner.cold_mm) == (21.5, 57.0, 36.0)
    assert (corner.push_needed_mm, corner.push_allowed_mm) == (17.0, 21.0)
    assert corner.to_far_wall_mm == 4.0
    assert (corner.draw_out_to_mm, corner.press_draws_mm) == (45.0, 9.0)
    assert shortest_piece_mm(B) == 57.0 + 27.0 + 2.0


@given(st.floats(-40.0, 40.0), st.floats(-40.0, 0.0))
def test_states_outside_the_window_are_named(hot_mm: float, frost_mm: float) -> None:
    """A state is named exactly when its insertion is less than 19 or more than 52."""
    corner = elbow_corner(A, hot_growth_mm=hot_mm, frost_growth_mm=frost_mm)
    expected = {"hot": not 19 <= 34 + hot_mm <= 52, "frost": not 19 <= 34 + frost_mm <= 52}
    near = any(abs(34 + by - edge) < 2e-3 for by in (hot_mm, frost_mm) for edge in (19, 52))
    assert near or set(corner.outside_window) == {name for name, out in expected.items() if out}


def test_a_first_piece_does_not_slide() -> None:
    """A run's first piece slides nowhere: nothing is needed, all the push-home stands between elbow and wall."""
    corner = elbow_corner(A, slide_mm=0.0)
    assert corner.push_needed_mm == 0.0
    assert corner.to_far_wall_mm == 17.0 + 18.0 - 7.5


def test_a_family_without_elbows_has_no_elbow_corner() -> None:
    """Asked of a family without elbows, every sum says so."""
    for asked in (elbow_corner, short_leg_slide_mm, shortest_piece_mm, pressed_together_below_mm):
        with pytest.raises(ValueError, match="family c-low has no elbow"):
            asked(C)


def test_an_elbow_without_play_is_always_pressed_at_both_ends() -> None:
    """p / tan 0: no length is long enough."""
    stiff = Family.model_validate(
        A.model_dump(by_alias=True, exclude_none=True) | {"elbow": A.elbow.model_dump() | {"play_deg": 0.0}}
    )
    assert pressed_together_below_mm(stiff) == math.inf
