"""Which wheels the package registry would give a person on another system, resolved but not installed."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name


@dataclass(frozen=True, kw_only=True)
class Target:
    """A system to install on: its platform tags, newest first, and what requirement markers see there."""

    name: str
    platforms: tuple[str, ...]
    markers: dict[str, str]


LINUX = Target(
    name="Linux x86-64",
    platforms=(
        *(f"manylinux_2_{minor}_x86_64" for minor in range(31, 4, -1)),
        "manylinux2014_x86_64", "manylinux2010_x86_64", "manylinux1_x86_64",
    ),
    markers={"sys_platform": "linux", "platform_system": "Linux", "platform_machine": "x86_64", "os_name": "posix"},
)  # fmt: skip
WINDOWS = Target(
    name="Windows x86-64",
    platforms=("win_amd64",),
    markers={"sys_platform": "win32", "platform_system": "Windows", "platform_machine": "AMD64", "os_name": "nt"},
)
MACOS = Target(
    name="macOS arm64",
    platforms=tuple(f"macosx_{major}_0_{arch}" for major in range(14, 10, -1) for arch in ("arm64", "universal2")),
    markers={"sys_platform": "darwin", "platform_system": "Darwin", "platform_machine": "arm64", "os_name": "posix"},
)
TARGETS = (LINUX, WINDOWS, MACOS)


def resolve(requirements: Iterable[str], target: Target, python: str, scratch: Path) -> dict[str, str]:
    """Resolve the requirements, and theirs, for a target and a Python such as ``3.11``, from wheels only.

    The wheel's file name by project name. pip judges markers by the system it runs on; so what the target's own
    markers ask for besides is added and all is resolved again until nothing is added.
    Raises RuntimeError with pip's reason when a wheel is missing.
    """
    asked = set(requirements)
    while True:
        items = _resolved(sorted(asked), target, python, scratch)
        found = {canonicalize_name(item["metadata"]["name"]): _file_name(item) for item in items}
        wanted = set[str]()
        for item in items:
            requires, extras = item["metadata"].get("requires_dist", ()), item.get("requested_extras", ())
            wanted |= wanted_by(requires, extras, target, python)
        more = {w for w in wanted if canonicalize_name(Requirement(w).name) not in found}
        if not more:
            return found
        asked |= more


def wanted_by(requires: Iterable[str], extras: Iterable[str], target: Target, python: str) -> set[str]:
    """The requirements, without their markers, that hold on the target."""
    environment = {**target.markers, "python_version": python, "python_full_version": f"{python}.0"}
    wanted = set()
    for requirement in map(Requirement, requires):
        marker, requirement.marker = requirement.marker, None
        if marker is None or any(marker.evaluate({**environment, "extra": extra}) for extra in ("", *extras)):
            wanted.add(str(requirement))
    return wanted


def _file_name(item: dict[str, dict[str, str]]) -> str:
    return item["download_info"]["url"].rsplit("/", 1)[-1]


def _resolved(requirements: list[str], target: Target, python: str, scratch: Path) -> list[dict[str, dict[str, str]]]:
    report = scratch / "report.json"
    command = [sys.executable, "-m", "pip", "install", "-qq", "--dry-run", "--ignore-installed", "--only-binary=:all:"]
    command += ["--target", str(scratch / "nowhere"), "--report", str(report)]
    command += ["--python-version", python, "--implementation", "cp"]
    command += [word for abi in (f"cp{python.replace('.', '')}", "abi3", "none") for word in ("--abi", abi)]
    command += [word for platform in target.platforms for word in ("--platform", platform)]
    ran = subprocess.run([*command, *requirements], capture_output=True, text=True)
    if ran.returncode:
        raise RuntimeError(f"{target.name}, Python {python}: {ran.stderr.strip()}")
    with report.open(encoding="utf-8") as file:
        items = json.load(file)["install"]
    assert isinstance(items, list)
    return items
