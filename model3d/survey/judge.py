"""Judging an adjustment: redundancy numbers, w-tests, least detectable errors, and which reading is likely wrong.

Baarda's reliability theory with a given variance factor of 1: the standard errors of the readings are taken as known.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from model3d.geometry.placement import Vec2
from model3d.survey.adjust import Adjustment, NotFixed, adjust
from model3d.survey.network import computed
from model3d.survey.readings import Reading
from model3d.survey.report import NOTHING, JudgedReading, Suspicion

REFUSED_OF_HONEST = 0.05  # share of honest surveys that the chi-square test refuses
ALPHA = 0.001
POWER = 0.95
TIE_CORRELATION = 0.9
GROSS = 20.0  # standard errors


def chi_square_limit(redundancy: int, share: float = REFUSED_OF_HONEST) -> float:
    """What the sum of squares of ``redundancy`` standard normal values passes in this share of cases."""
    from scipy.special import chdtri

    return float(chdtri(redundancy, share)) if redundancy > 0 else 0.0


def w_limit() -> float:
    """What a standard normal value passes, up or down, with probability alpha: 3.29."""
    from scipy.special import ndtri

    return float(ndtri(1.0 - ALPHA / 2.0))


def least_shift() -> float:
    """By how many standard errors a w-test must be shifted to be passed with the power asked: 3.29 + 1.64 = 4.94."""
    from scipy.special import ndtri

    return w_limit() + float(ndtri(POWER))


def judged_readings(adjustment: Adjustment, readings: Sequence[Reading]) -> tuple[JudgedReading, ...]:
    """Every reading with its residual, redundancy number, w-test, least detectable error, and ties."""
    shift = least_shift()
    found = []
    for i, reading in enumerate(readings):
        share = max(float(adjustment.cofactor[i, i]), 0.0)
        checked = share >= NOTHING
        residual = float(adjustment.misfit[i]) * reading.sigma
        found.append(
            JudgedReading(
                reading=reading,
                adjusted=computed(adjustment.points, reading),
                residual=residual,
                standardised=float(adjustment.misfit[i]) / math.sqrt(share) if checked else 0.0,
                redundancy=share if checked else 0.0,
                least_error=shift * reading.sigma / math.sqrt(share) if checked else math.inf,
                ties=tuple(readings[j].name for j in _tied(adjustment, i)) if checked else (),
            )
        )
    return tuple(found)


def correlation(adjustment: Adjustment, one: int, other: int) -> float:
    """Correlation of two residuals; 0 where one of them is always nothing."""
    q = adjustment.cofactor
    product = float(q[one, one] * q[other, other])
    return float(q[one, other]) / math.sqrt(product) if product > NOTHING**2 else 0.0


def _tied(adjustment: Adjustment, one: int) -> list[int]:
    others = (j for j in range(len(adjustment.misfit)) if j != one)
    return [j for j in others if abs(correlation(adjustment, one, j)) >= TIE_CORRELATION]


def suspicion_of(
    start: Sequence[Vec2], adjustment: Adjustment, readings: Sequence[Reading], judged: Sequence[JudgedReading]
) -> Suspicion | None:
    """The reading likely wrong, None when the readings agree and no w-test is passed.

    It is the one without which the others agree best; for small errors that is the one with the greatest w-test.
    After a gross error the w-tests mislead, and every reading is tried.
    """
    worst = max(abs(j.standardised) for j in judged)
    if adjustment.squares <= chi_square_limit(adjustment.redundancy) and worst <= w_limit():
        return None
    least = 0.0 if worst > GROSS else worst / 2.0
    tried = [i for i, j in enumerate(judged) if not j.unchecked and abs(j.standardised) >= least]
    left = {i: without for i in tried if (without := _without(start, readings, i)) is not None}
    if not left:
        return None
    named = min(left, key=lambda i: (round(left[i].squares, 6), -abs(judged[i].standardised)))
    rest = left[named]
    return Suspicion(
        name=readings[named].name,
        ties=judged[named].ties,
        should_read=computed(rest.points, readings[named]),
        others_agree=rest.redundancy > 0 and rest.squares <= chi_square_limit(rest.redundancy),
    )


def _without(start: Sequence[Vec2], readings: Sequence[Reading], i: int) -> Adjustment | None:
    try:
        return adjust(start, [r for k, r in enumerate(readings) if k != i])
    except NotFixed:
        return None
