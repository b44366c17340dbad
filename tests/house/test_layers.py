"""The layers' contracts hold, and see what breaks them."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest


def contracts_of(top: Path) -> subprocess.CompletedProcess[str]:
    """Check the contracts of the package that stands, with its pyproject.toml, in a folder."""
    program = "from importlinter.cli import lint_imports_command; lint_imports_command()"
    environment = {**os.environ, "PYTHONPATH": str(top), "PYTHONUTF8": "1", "COLUMNS": "200"}
    command = [sys.executable, "-c", program, "--no-cache"]
    return subprocess.run(command, cwd=top, env=environment, capture_output=True, text=True, encoding="utf-8")


@pytest.fixture
def copy(checkout: Path, tmp_path: Path) -> Path:
    """A copy of the package's modules and of its contracts."""
    shutil.copytree(checkout / "model3d", tmp_path / "model3d", ignore=shutil.ignore_patterns("__pycache__", "fonts"))
    shutil.copy(checkout / "pyproject.toml", tmp_path)
    return tmp_path


def test_contracts_hold(copy: Path) -> None:
    """Every layer imports only from those below it, and the layers of numbers know no kernel and no renderer."""
    checked = contracts_of(copy)
    assert checked.returncode == 0, checked.stdout
    assert "0 broken" in checked.stdout


@pytest.mark.parametrize(
    ("path", "text", "said"),
    [
        ("geometry/planted.py", "import model3d.layout\n", "model3d.geometry is not allowed to import model3d.layout"),
        ("checks/planted.py", "import model3d.pictures\n", "model3d.checks is not allowed to import model3d.pictures"),
        ("steps/planted.py", "def f():\n    import cadquery\n", "model3d.steps is not allowed to import cadquery"),
        ("drawings/planted.py", "import vtkmodules\n", "model3d.drawings is not allowed to import vtkmodules"),
        ("planted.py", "", "model3d.planted"),
    ],
    ids=["upward", "sideways", "kernel in a layer of numbers", "renderer in the drawings", "module of no layer"],
)
def test_a_planted_import_breaks_a_contract(copy: Path, path: str, text: str, said: str) -> None:
    """An upward, sideways or heavy import, or a module of no layer, breaks a contract and is named."""
    (copy / "model3d" / path).write_text(text, encoding="utf-8", newline="\n")
    checked = contracts_of(copy)
    assert checked.returncode == 1, checked.stdout
    assert said in checked.stdout
