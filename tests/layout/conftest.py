"""The reference families, read once."""

from __future__ import annotations

from pathlib import Path

import pytest

from model3d.families.family import Family
from model3d.sources import read_typed

PROFILES = Path(__file__).parents[2] / "profiles"


@pytest.fixture(scope="session")
def family_a() -> Family:
    """Reference family (a)."""
    return read_typed(PROFILES / "a-square.yaml", Family)
