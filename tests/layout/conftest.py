"""The reference families, read once."""

from __future__ import annotations

import pytest

from model3d.families.family import Family
from model3d.families.reading import find_family, read_family


@pytest.fixture(scope="session")
def family_a() -> Family:
    return read_family(find_family("a-square"))
