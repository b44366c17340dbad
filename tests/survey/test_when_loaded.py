"""SciPy and numpy are loaded when a plan has a survey, and not before."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

PROGRAM = """
import sys
from pathlib import Path
from model3d.build.project import load
load(Path(sys.argv[1])).layout
print(" ".join(m for m in ("scipy", "numpy") if m in sys.modules))
"""


@pytest.mark.parametrize(("room", "loaded"), [("l-room", []), ("surveyed", ["scipy", "numpy"])])
def test_scipy_is_loaded_for_a_survey_only(checkout: Path, room: str, loaded: list[str]) -> None:
    """Laying out a room given by its corners loads neither; a surveyed room needs both."""
    plan = checkout / "gallery" / room / "plan.yaml"
    ran = subprocess.run([sys.executable, "-c", PROGRAM, str(plan)], capture_output=True, text=True, encoding="utf-8")
    assert ran.returncode == 0, ran.stderr
    assert ran.stdout.split() == loaded
