"""What importing the package costs: the CAD kernel, the renderer and numpy stay out until they are needed."""

from __future__ import annotations

import json
import subprocess
import sys
import time
import tomllib
from pathlib import Path

import pytest

HEAVY = (
    "OCP", "cadquery", "vtk", "vtkmodules", "pyvista", "trimesh", "manifold3d", "embreex", "PIL", "resvg_py",
    "numpy", "scipy", "CoolProp", "fluids",
)  # fmt: skip
PROGRAM = """
import importlib, json, sys
first = {}
for name in json.loads(sys.argv[1]):
    importlib.import_module(name)
    for heavy in json.loads(sys.argv[2]):
        if heavy in sys.modules:
            first.setdefault(heavy, name)
print(json.dumps(first))
"""


def heavy_after(*modules: str) -> dict[str, str]:
    """In a fresh process, import the modules in turn: each heavy package loaded, with the module that first did."""
    command = [sys.executable, "-c", PROGRAM, json.dumps(modules), json.dumps(HEAVY)]
    ran = subprocess.run(command, capture_output=True, text=True)
    assert ran.returncode == 0, ran.stderr
    found = json.loads(ran.stdout)
    assert isinstance(found, dict)
    return found


def modules_of(layer: str, checkout: Path) -> list[str]:
    """Dotted names of all modules of a layer, the layer first."""
    names = []
    for path in sorted((checkout / "model3d" / layer).rglob("*.py")):
        parts = path.relative_to(checkout).with_suffix("").parts
        names.append(".".join(parts[:-1] if parts[-1] == "__init__" else parts))
    return names


def layers_below_solids(checkout: Path) -> list[str]:
    """The layers that deal in numbers only: those that the contract puts below the solids."""
    with (checkout / "pyproject.toml").open("rb") as file:
        contracts = tomllib.load(file)["tool"]["importlinter"]["contracts"]
    (layers,) = (c["layers"] for c in contracts if c["id"] == "one-way")
    lines = [[name.strip(" ()") for name in line.split("|")] for line in layers]
    (solids,) = (number for number, names in enumerate(lines) if "solids" in names)
    return [name for names in lines[solids + 1 :] for name in names]


@pytest.mark.parametrize("module", ["model3d", "model3d.steps", "model3d.drawings", "model3d.cli.explaining"])
def test_import_is_light(module: str) -> None:
    """Importing the package, the steps, the drawings or the command line loads no CAD kernel, renderer or numpy."""
    assert heavy_after(module) == {}


def test_numbers_only_layers_are_light_throughout(checkout: Path) -> None:
    """No module of a layer below the solids, of the drawings or of the command line loads anything heavy."""
    layers = [*layers_below_solids(checkout), "drawings", "cli"]
    modules = [m for layer in layers for m in modules_of(layer, checkout)] + ["model3d.findings"]
    assert len(modules) > 2 * len(layers)
    assert heavy_after(*modules) == {}


def test_a_heavy_import_is_seen() -> None:
    """A module that loads numpy is found out, by name."""
    assert heavy_after("json", "numpy", "model3d") == {"numpy": "numpy"}


@pytest.mark.parametrize("argument", ["--help", "--version"])
def test_command_line_answers_without_heavy_imports(argument: str) -> None:
    """``dryfit --help`` and ``dryfit --version`` load no CAD kernel, renderer or numpy."""
    program = (
        "import json, sys; from model3d.cli.explaining import app\n"
        f"app([{argument!r}], standalone_mode=False)\n"
        f"print(json.dumps([m for m in {HEAVY!r} if m in sys.modules]))"
    )
    ran = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert json.loads(ran.stdout.splitlines()[-1]) == []


@pytest.mark.benchmark
def test_command_line_starts_quickly() -> None:
    """``dryfit --version`` as a whole process answers within 0.3 s, the best of five."""
    command = [sys.executable, "-m", "model3d", "--version"]
    taken = []
    for _ in range(5):
        began = time.perf_counter()
        subprocess.run(command, check=True, capture_output=True)
        taken.append(time.perf_counter() - began)
    assert min(taken) < 0.3
