"""What holds for every test: how hypothesis searches, and where the checkout stands."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

settings.register_profile("everywhere", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("ci", settings.get_profile("everywhere"), derandomize=True, print_blob=True)
settings.load_profile("ci" if os.environ.get("CI") else "everywhere")


@pytest.fixture(scope="session")
def checkout() -> Path:
    """The top folder of the checkout that the tests run in."""
    return Path(__file__).resolve().parents[1]
