"""What the engine has worked out, kept for all tests here: solids are the same from room to room."""

from __future__ import annotations

import pytest

from model3d.checks.engine import Memory


@pytest.fixture(scope="session")
def memory() -> Memory:
    """One memory for every scene that is checked."""
    return Memory()
