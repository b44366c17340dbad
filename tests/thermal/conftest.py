"""The square-edged family, and a run round three walls with elbows between."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from model3d.families.family import Family
from model3d.families.reading import read_family
from model3d.layout import lay_out
from model3d.rooms import CheckedPlan
from model3d.thermal import ThermalReport, thermal_report
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over

PROFILES = Path(__file__).parents[2] / "profiles"
SQUARE = [(0.0, 0.0), (3600.0, 0.0), (3600.0, 3000.0), (0.0, 3000.0)]


@pytest.fixture(scope="session")
def family_a() -> Family:
    """The square-edged family."""
    return read_family(PROFILES / "a-square.yaml")


@pytest.fixture
def three_walls() -> CheckedPlan:
    """A run from wall 4 over the 3600 wall w1 to wall 2, elbows at both its corners."""
    ring = ring_of(SQUARE)
    return plan_of(ring, run_over(ring, 4, 3))


@pytest.fixture
def report_of(family_a: Family) -> Callable[..., ThermalReport]:
    """Lays a plan out at the given temperatures and reports on it."""

    def made(plan: CheckedPlan, **temperatures: float) -> ThermalReport:
        plan = replace(plan, temperatures=replace(plan.temperatures, **temperatures))
        return thermal_report(plan, lay_out(plan, family_a), family_a)

    return made
