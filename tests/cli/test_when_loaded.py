"""Libraries of figures are loaded by the verbs, and for the plans, that need them, and by no others."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from tests.cli.running import GALLERY

OF_FIGURES = ("CoolProp", "cadquery", "fluids", "numpy", "scipy", "vtk")
LOADED = """
import json, sys
from model3d.cli.explaining import app
app({arguments!r}, standalone_mode=False)
print(json.dumps([m for m in {of_figures!r} if m in sys.modules]))
"""


def loaded_by(*arguments: str) -> list[str]:
    """Which of those libraries are loaded when a verb has run in a fresh process."""
    program = LOADED.format(arguments=list(arguments), of_figures=OF_FIGURES)
    ran = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    found = json.loads(ran.stdout.splitlines()[-1])
    assert isinstance(found, list)
    return found


@pytest.mark.parametrize(
    ("room", "arguments", "loaded"),
    [
        ("l-room", ("figures", "{}", "thermal"), []),
        ("l-room", ("figures", "{}", "seals"), []),
        ("l-room", ("figures", "{}", "as-cut"), []),
        ("l-room", ("figures", "{}", "survey"), []),
        ("l-room", ("changed", "{}", "{}"), []),
        ("l-room", ("figures", "{}", "nesting"), ["numpy", "scipy"]),
        ("l-room", ("figures", "{}", "water"), ["CoolProp", "fluids", "numpy"]),
        ("l-room", ("why", "{}", "A-4"), ["CoolProp", "fluids", "numpy"]),
        ("surveyed", ("layout", "{}"), ["numpy", "scipy"]),
    ],
    ids=lambda a: " ".join(a) if isinstance(a, tuple) else a if isinstance(a, str) else "",
)
def test_loaded_when_needed(room: str, arguments: tuple[str, ...], loaded: list[str]) -> None:
    """scipy adjusts a survey and nests cuts, CoolProp and fluids work out the water; nothing else brings them in."""
    plan = str(GALLERY / room / "plan.yaml")
    assert loaded_by(*(a.format(plan) for a in arguments)) == loaded
