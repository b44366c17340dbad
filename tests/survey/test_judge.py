"""What the report says of each reading."""

from __future__ import annotations

import math
import random

import pytest
from scipy.stats import chi2, norm

from model3d.survey import Reading, adjust, survey
from model3d.survey.judge import chi_square_limit, judged_readings, least_shift, w_limit

from . import chance

SQUARE = [(0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0), (0.0, 3000.0)]


def braced(*, diagonals: int = 2, angles: int = 0) -> list[Reading]:
    """Faultless readings of a room of 4 m by 3 m: its walls, diagonals and corner angles."""
    across = [chance.length(SQUARE, i, j) for i, j in ((0, 2), (1, 3))[:diagonals]]
    return [*(chance.wall(SQUARE, i) for i in range(4)), *across, *(chance.angle(SQUARE, i) for i in range(angles))]


def test_limits_are_those_of_the_distributions() -> None:
    """The w-test at alpha .001 is passed at 3.29; with a power of .95 it takes 3.29 + 1.64 = 4.94; chi-square at 5 %
    for 1 and 10 is 3.84 and 18.31.
    """
    assert (w_limit(), least_shift()) == pytest.approx((3.2905, 4.9354), abs=1e-4)
    assert w_limit() == pytest.approx(norm.ppf(1 - 0.0005), abs=1e-9)
    assert [chi_square_limit(r) for r in (1, 10)] == pytest.approx([3.8415, 18.3070], abs=1e-4)
    assert chi_square_limit(7) == pytest.approx(chi2.ppf(0.95, 7), abs=1e-9)
    assert chi_square_limit(0) == 0.0


@pytest.mark.parametrize("seed", range(6))
def test_redundancy_numbers_add_up(seed: int) -> None:
    """The redundancy numbers of all readings add up to the survey's redundancy: readings less unknowns."""
    rng = random.Random(seed)
    room = chance.skew_room(rng)
    readings = chance.faultless(rng, room)
    report = survey(room, readings)
    assert report.redundancy == len(readings) - (2 * len(room) - 3)
    assert sum(r.redundancy for r in report.readings) == pytest.approx(report.redundancy, abs=1e-6)


@pytest.mark.parametrize("seed", range(6))
def test_a_redundancy_number_is_the_share_of_an_error_that_shows(seed: int) -> None:
    """A reading wrong by 0.1 standard error shows its redundancy number's share of that in its own residual."""
    rng = random.Random(seed)
    room = chance.skew_room(rng)
    readings = chance.faultless(rng, room)
    for i, judged in enumerate(survey(room, readings).readings):
        wrong = [chance.shifted(r, 0.1 * r.sigma) if k == i else r for k, r in enumerate(readings)]
        assert survey(room, wrong).readings[i].residual == pytest.approx(
            -judged.redundancy * 0.1 * judged.reading.sigma, abs=1e-4
        )


def test_nothing_checks_a_reading_without_redundancy() -> None:
    """Four walls and one diagonal just fix a room: no reading is checked, no error would be found, and none is
    suspected.
    """
    report = survey(SQUARE, braced(diagonals=1))
    assert report.redundancy == 0
    assert all(r.unchecked and r.hardly_checked and math.isinf(r.least_error) for r in report.readings)
    assert report.accepted
    assert report.suspicion is None


def test_with_one_redundant_reading_all_tie() -> None:
    """With a redundancy of 1 an error is found but not placed: every reading ties with every other, and all are
    named.
    """
    wrong = braced()
    wrong[5] = chance.shifted(wrong[5], 40.0)
    report = survey(SQUARE, wrong)
    assert not report.accepted
    assert report.suspicion is not None
    assert set(report.suspicion.names) == {r.name for r in report.readings}
    assert not report.suspicion.others_agree


@pytest.mark.parametrize("off_mm", [-900.0, -40.0, 25.0, 1000.0, 36000.0])
@pytest.mark.parametrize("which", range(6))
def test_the_wrong_reading_is_named_and_put_right(which: int, off_mm: float) -> None:
    """A length read wrong, by 25 mm or by a slipped digit, is named, with what the others say, which agree without
    it.
    """
    readings = braced(angles=4)
    true = readings[which].value
    readings[which] = chance.shifted(readings[which], off_mm)
    report = survey(SQUARE, readings)
    assert not report.accepted
    assert report.suspicion is not None
    assert report.suspicion.name == readings[which].name
    assert report.suspicion.others_agree
    assert report.suspicion.should_read == pytest.approx(true, abs=0.01)


def test_two_wrong_readings_leave_the_others_at_odds() -> None:
    """With two readings wrong, the others do not agree when one of them is left out, and the report does not say so."""
    readings = braced(angles=4)
    readings[0], readings[5] = chance.shifted(readings[0], 60.0), chance.shifted(readings[5], -90.0)
    suspicion = survey(SQUARE, readings).suspicion
    assert suspicion is not None
    assert not suspicion.others_agree


def test_least_error_is_found_with_its_power() -> None:
    """A reading wrong by its least detectable error passes the w-test in 95 of 100 surveys, give or take 3 standard
    errors of 300.
    """
    rng = random.Random(5)
    readings = braced(angles=4)
    least = survey(SQUARE, readings).readings[4].least_error
    found = 0
    for _ in range(300):
        wrong = chance.with_errors(rng, readings, {readings[4].name: least})
        found += abs(judged_readings(adjust(SQUARE, wrong), wrong)[4].standardised) > w_limit()
    assert found / 300 == pytest.approx(0.95, abs=3 * math.sqrt(0.95 * 0.05 / 300))
