"""A wheel of the checkout, built and looked into."""

from __future__ import annotations

import subprocess
import sys
import zipfile
from pathlib import Path


def built_wheel(checkout: Path, into: Path) -> Path:
    """Build the checkout's wheel into a folder, without the network; the wheel's path."""
    command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(into)]
    subprocess.run(command, cwd=checkout, check=True, capture_output=True)
    (wheel,) = into.glob("*.whl")
    return wheel


def unpacked(wheel: Path, into: Path) -> Path:
    """Unpack a wheel, as an installer lays it into site-packages; the folder."""
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(into)
    return into


def lacking(names: set[str], tracked: list[str]) -> list[str]:
    """What of the tracked files a wheel with these names ought to carry and does not.

    ``model3d/`` goes in as it is, ``profiles/`` as ``model3d/profiles/``.
    """
    wanted = [path for path in tracked if path.startswith("model3d/")]
    wanted += [f"model3d/{path}" for path in tracked if path.startswith("profiles/")]
    return sorted(set(wanted) - names)


def intruders(names: set[str]) -> list[str]:
    """What a wheel carries that is neither the package nor its metadata."""
    return sorted(n for n in names if not (n.startswith("model3d/") or n.split("/")[0].endswith(".dist-info")))
