"""Heat output in the form of EN 442-2, q = q50 (dT / 50)^n."""

from __future__ import annotations

import pytest

from model3d.water.output import arithmetic_mean_k, logarithmic_mean_k, output_factor

FACTORS = dict(
    zip(
        range(20, 80, 5),
        (0.3039, 0.4061, 0.5148, 0.6290, 0.7482, 0.8720, 1.0, 1.1319, 1.2675, 1.4065, 1.5487, 1.6940),
        strict=True,
    )
)


@pytest.mark.parametrize(("excess_k", "factor"), FACTORS.items())
def test_factor(excess_k: float, factor: float) -> None:
    """With n = 1.30 the share of the rated output at 20 to 75 K is .3039 to 1.6940 (computed; 60 K read:
    1.267).
    """
    assert output_factor(excess_k, 1.30) == pytest.approx(factor, abs=5e-5)


@pytest.mark.parametrize(
    ("flow", "back", "arithmetic", "logarithmic"),
    [(75, 65, 50.0, 49.833), (70, 40, 35.0, 32.741), (60, 60, 40.0, 40.0)],
)
def test_means(flow: float, back: float, arithmetic: float, logarithmic: float) -> None:
    """75/65/20 has means of 50 and 49.833 K, 70/40/20 of 35 and 32.741 K."""
    assert arithmetic_mean_k(flow, back, 20.0) == pytest.approx(arithmetic, abs=1e-3)
    assert logarithmic_mean_k(flow, back, 20.0) == pytest.approx(logarithmic, abs=1e-3)


def test_factor_by_either_mean() -> None:
    """70/40/20 gives .6290 of the rated output by the arithmetic mean, .5767 by the logarithmic."""
    assert output_factor(arithmetic_mean_k(70, 40, 20), 1.30) == pytest.approx(0.6290, abs=1e-4)
    assert output_factor(logarithmic_mean_k(70, 40, 20), 1.30) == pytest.approx(0.5767, abs=1e-4)


def test_water_no_warmer_than_the_room() -> None:
    """Water no warmer than the room gives nothing, and has no logarithmic mean."""
    assert output_factor(-3.0, 1.3) == 0.0
    with pytest.raises(ValueError, match="no logarithmic mean"):
        logarithmic_mean_k(40.0, 20.0, 20.0)
