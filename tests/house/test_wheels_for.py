"""Every dependency comes as a wheel for the systems that the project is for."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from tests.house.wheels_for import LINUX, MACOS, TARGETS, WINDOWS, Target, resolve, wanted_by


@pytest.mark.slow
@pytest.mark.parametrize("python", ["3.11", "3.12", "3.13"])
@pytest.mark.parametrize("target", TARGETS, ids=lambda target: target.name)
def test_every_dependency_has_a_wheel(target: Target, python: str, checkout: Path, tmp_path: Path) -> None:
    """All that an installation needs, however far down, is there as a wheel for the target and each Python."""
    with (checkout / "pyproject.toml").open("rb") as file:
        dependencies = tomllib.load(file)["project"]["dependencies"]
    found = resolve(dependencies, target, python, tmp_path)
    assert {"cadquery-ocp", "vtk", "numpy"} <= set(found)
    assert all(name.endswith(".whl") for name in found.values())


@pytest.mark.slow
def test_a_missing_wheel_is_named(tmp_path: Path) -> None:
    """A package without a wheel for Windows is refused there, by name, and accepted on Linux."""
    assert "coal" in resolve(["coal==3.0.*"], LINUX, "3.11", tmp_path)
    with pytest.raises(RuntimeError, match=r"Windows x86-64, Python 3\.11: .*coal"):
        resolve(["coal==3.0.*"], WINDOWS, "3.11", tmp_path)


def test_markers_are_judged_by_the_target() -> None:
    """What only one system needs is asked for on that system alone."""
    requires = ['colorama; sys_platform == "win32"', "attrs>=20", 'pytest; extra == "test"', 'x; os_name != "nt"']
    assert wanted_by(requires, (), WINDOWS, "3.11") == {"colorama", "attrs>=20"}
    assert wanted_by(requires, (), MACOS, "3.11") == {"attrs>=20", "x"}
    assert wanted_by(requires, ("test",), LINUX, "3.11") == {"attrs>=20", "pytest", "x"}
