"""Many surveys of random skew rooms: standard errors, the chi-square test and naming keep what they promise.

The small runs allow three standard errors of their own size about the true share; the slow ones are large enough for
plain bounds.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass

import pytest

from model3d.survey import survey

from . import chance


@dataclass(frozen=True, kw_only=True)
class Shares:
    """Shares of adjusted coordinates within one and two standard errors of the truth, and of surveys refused."""

    within_one: float
    within_two: float
    refused: float


def honest_surveys(count: int, seed: int) -> Shares:
    """``count`` rooms, each surveyed once with normal errors."""
    rng = random.Random(seed)
    off: list[float] = []
    refused = 0
    for _ in range(count):
        room = chance.skew_room(rng)
        report = survey(chance.roughly(rng, room), chance.with_errors(rng, chance.faultless(rng, room)))
        refused += not report.accepted
        for i, (corner, true) in enumerate(zip(report.corners, room, strict=True)):
            axes = range(2) if i > 1 else range(1) if i == 1 else ()
            off += [abs(corner.at_mm[a] - true[a]) / corner.sigma_mm[a] for a in axes]
    one, two = (sum(o < k for o in off) / len(off) for k in (1.0, 2.0))
    return Shares(within_one=one, within_two=two, refused=refused / count)


@dataclass(frozen=True, kw_only=True)
class Naming:
    """How often the wrong reading was named alone, where it can be told apart, and among those that tie, elsewhere."""

    alone: float
    alone_of: int
    tied: float
    tied_of: int


def wrong_surveys(count: int, seed: int) -> Naming:
    """``count`` rooms, each with one checked reading wrong by 1.5 times its least detectable error, half of itself at
    most.
    """
    rng = random.Random(seed)
    alone: list[bool] = []
    tied: list[bool] = []
    while len(alone) + len(tied) < count:
        room = chance.skew_room(rng)
        readings = chance.faultless(rng, room)
        honest = survey(room, readings)
        wrong = rng.choice(honest.readings)
        if wrong.unchecked or 1.5 * wrong.least_error > wrong.reading.value / 2.0:
            continue
        off = rng.choice((-1.5, 1.5)) * wrong.least_error
        named = survey(room, chance.with_errors(rng, readings, {wrong.name: off})).suspicion
        if honest.redundancy >= 3 and not wrong.ties:
            alone.append(named is not None and named.name == wrong.name)
        else:
            tied.append(named is not None and wrong.name in named.names)
    return Naming(alone=sum(alone) / len(alone), alone_of=len(alone), tied=sum(tied) / len(tied), tied_of=len(tied))


def allowed(share: float, count: int) -> float:
    """Three standard errors of a share found in so many independent cases."""
    return 3.0 * math.sqrt(share * (1.0 - share) / count)


def test_standard_errors_of_a_few_surveys() -> None:
    """Adjusted coordinates lie within one standard error of the truth in 68.3 %, within two in 95.4 %, and 5 % of
    honest surveys are refused; a survey's coordinates go together, so each survey counts once.
    """
    found = honest_surveys(150, seed=20)
    assert found.within_one == pytest.approx(0.683, abs=allowed(0.683, 150))
    assert found.within_two == pytest.approx(0.954, abs=allowed(0.954, 150))
    assert found.refused == pytest.approx(0.05, abs=allowed(0.05, 150))


def test_naming_in_a_few_surveys() -> None:
    """A reading wrong by 1.5 times its least detectable error is named in 95 % of surveys or more, alone where it can
    be told apart.
    """
    found = wrong_surveys(100, seed=21)
    assert found.alone >= 0.95 - allowed(0.95, found.alone_of)
    assert found.tied >= 0.95 - allowed(0.95, found.tied_of)


@pytest.mark.slow
def test_standard_errors_of_a_thousand_surveys() -> None:
    """In 1,000 surveys of random skew rooms 68 +- 3 % of coordinates lie within one standard error, 95 +- 1.5 %
    within two; 5 +- 2 % are refused.
    """
    found = honest_surveys(1000, seed=1)
    assert found.within_one == pytest.approx(0.68, abs=0.03)
    assert found.within_two == pytest.approx(0.95, abs=0.015)
    assert found.refused == pytest.approx(0.05, abs=0.02)


@pytest.mark.slow
def test_naming_in_a_thousand_surveys() -> None:
    """In 1,000 surveys with one wrong reading, redundancy 3 or more and correlations under .9: named in 95 % or more;
    elsewhere it is among those that tie in 95 % or more.
    """
    found = wrong_surveys(1000, seed=2)
    assert found.alone_of >= 300
    assert found.alone >= 0.95
    assert found.tied >= 0.95
