"""How long the shapes of fittings take to build."""

from __future__ import annotations

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from model3d.parts.kinds import Spec
from model3d.solids.build import MAKERS

from .test_build import FITTINGS


@pytest.mark.benchmark
@pytest.mark.parametrize("spec", FITTINGS, ids=[type(spec).__name__ for spec in FITTINGS])
def test_a_shape_takes_under_a_tenth_of_a_second(benchmark: BenchmarkFixture, spec: Spec) -> None:
    """A room's sixty or so distinct shapes are built within seconds: each fitting in under .1 s at its best."""
    benchmark.pedantic(MAKERS[type(spec)], args=(spec,), rounds=5, warmup_rounds=1)
    assert benchmark.stats.stats.min < 0.1
