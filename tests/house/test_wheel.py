"""The wheel: what it carries, and that it works outside the checkout."""

from __future__ import annotations

import os
import subprocess
import sys
import venv
import zipfile
from pathlib import Path

import pytest

from tests.house.wheel import built_wheel, intruders, lacking, unpacked


@pytest.fixture(scope="module")
def wheel(checkout: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The checkout's wheel."""
    return built_wheel(checkout, tmp_path_factory.mktemp("wheel"))


@pytest.fixture(scope="module")
def names(wheel: Path) -> set[str]:
    """The names in the wheel."""
    with zipfile.ZipFile(wheel) as archive:
        return set(archive.namelist())


@pytest.fixture(scope="module")
def tracked(checkout: Path) -> list[str]:
    """The files that git tracks."""
    listed = subprocess.run(["git", "ls-files"], cwd=checkout, capture_output=True, text=True, check=True)
    return listed.stdout.splitlines()


def test_wheel_carries_the_package_and_the_families(names: set[str], tracked: list[str]) -> None:
    """The wheel carries every file of the package, fonts included, and every family file as package data."""
    assert lacking(names, tracked) == []
    assert any(n.startswith("model3d/profiles/") and n.endswith(".yaml") for n in names)
    assert any(n.endswith(".ttf") for n in names)


def test_wheel_carries_nothing_else(names: set[str]) -> None:
    """Neither tests nor the gallery go into the wheel."""
    assert intruders(names) == []


def test_wheel_states_its_licence(wheel: Path, names: set[str]) -> None:
    """The wheel's metadata say MIT and hold the licence's text."""
    (metadata,) = (n for n in names if n.endswith(".dist-info/METADATA"))
    with zipfile.ZipFile(wheel) as archive:
        text = archive.read(metadata).decode()
        (licence,) = (n for n in names if ".dist-info/licenses/" in n)
        assert "Permission is hereby granted" in archive.read(licence).decode()
    assert "\nLicense-Expression: MIT\n" in text


def test_a_poor_wheel_is_seen() -> None:
    """A family file left out of a wheel is named, and so is a test that slipped in."""
    tracked = ["model3d/a.py", "profiles/x.yaml", "tests/test_a.py"]
    assert lacking({"model3d/a.py", "model3d/profiles/x.yaml"}, tracked) == []
    assert lacking({"model3d/a.py"}, tracked) == ["model3d/profiles/x.yaml"]
    assert intruders({"model3d/a.py", "model3d-1.dist-info/RECORD", "tests/a.py"}) == ["tests/a.py"]


def test_unpacked_wheel_works_outside_the_checkout(wheel: Path, checkout: Path, tmp_path: Path) -> None:
    """The package from the wheel, with no checkout in reach, lays out the gallery's L-shaped room."""
    home = unpacked(wheel, tmp_path / "site")
    plan = tmp_path / "plan.yaml"
    plan.write_bytes((checkout / "gallery" / "l-room" / "plan.yaml").read_bytes())
    program = (
        "import sys, model3d, model3d.cli as c; print(model3d.__file__);"
        f"sys.argv = ['dryfit', 'layout', {str(plan)!r}, '--json']; c.main()"
    )
    environment = {**os.environ, "PYTHONPATH": str(home), "PYTHONSAFEPATH": "1"}
    command = [sys.executable, "-c", program]
    ran = subprocess.run(command, cwd=tmp_path, env=environment, capture_output=True, text=True)
    assert ran.returncode == 0, ran.stderr
    assert Path(ran.stdout.splitlines()[0]).is_relative_to(home)
    assert '"cut_length_mm"' in ran.stdout


@pytest.mark.slow
def test_installed_wheel_builds_in_an_empty_environment(wheel: Path, checkout: Path, tmp_path: Path) -> None:
    """The wheel, installed with its dependencies alone into a new environment, builds the gallery's L-shaped room."""
    venv.create(tmp_path / "venv", with_pip=True)
    scripts = tmp_path / "venv" / ("Scripts" if os.name == "nt" else "bin")
    subprocess.run([scripts / "python", "-m", "pip", "install", "-qq", str(wheel)], check=True)
    plan = tmp_path / "plan.yaml"
    plan.write_bytes((checkout / "gallery" / "l-room" / "plan.yaml").read_bytes())
    subprocess.run([scripts / "dryfit", "build", plan, "--out", tmp_path / "out"], cwd=tmp_path, check=True)
    assert {"model.step", "layout.json", "room.png", "plan.svg"} <= {p.name for p in (tmp_path / "out").iterdir()}
