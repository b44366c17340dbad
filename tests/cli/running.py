"""``dryfit`` run in this process, and as a process of its own."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from typer.testing import CliRunner, Result

from model3d.cli.verbs import app

GALLERY = Path(__file__).parents[2] / "gallery"
PLAN = """\
version: 1
family: a-square
room:
  corners: [[0, 0], [4200, 0], [4200, 3400], [0, 3400]]
openings:
  - {id: door, kind: door, wall: w1, at: 3150, width: 800}
runs:
  - id: A
    start: {wall: w2, at: 200}
    end: {wall: w1, at: 2900}
"""


def dryfit(*arguments: str | Path) -> Result:
    """Run ``dryfit`` with these arguments in this process."""
    return CliRunner().invoke(app, [str(a) for a in arguments])


def process(*arguments: str | Path) -> subprocess.CompletedProcess[str]:
    """Run ``dryfit`` with these arguments as a process of its own."""
    command = [sys.executable, "-m", "model3d", *(str(a) for a in arguments)]
    return subprocess.run(command, capture_output=True, text=True, check=False)


def written(folder: Path, text: str = PLAN, name: str = "plan.yaml") -> Path:
    """A plan written into a folder."""
    path = folder / name
    path.write_text(text, encoding="utf-8", newline="\n")
    return path


def changed(folder: Path, old: str, new: str) -> Path:
    """The plan above with one thing put otherwise."""
    assert PLAN.count(old) == 1
    return written(folder, PLAN.replace(old, new))
