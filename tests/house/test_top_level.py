"""The checkout's top level."""

from __future__ import annotations

import subprocess
from collections.abc import Iterable
from pathlib import Path

AGREED = {"README.md", "DEVELOPERS.md", "pyproject.toml", "model3d", "profiles", "tests", "gallery"}


def top_level(tracked: Iterable[str]) -> set[str]:
    """First parts of the tracked paths, dot-files aside."""
    return {name for path in tracked if not (name := path.split("/")[0]).startswith(".")}


def test_top_level_is_as_agreed(checkout: Path) -> None:
    """The top level holds the agreed files and folders, and nothing else but dot-files."""
    listed = subprocess.run(["git", "ls-files"], cwd=checkout, capture_output=True, text=True, check=True)
    assert top_level(listed.stdout.splitlines()) == AGREED


def test_a_stray_file_is_seen() -> None:
    """A file put at the top, or a folder left out, makes the listing differ; a dot-file does not."""
    tracked = [f"{name}/x" for name in AGREED]
    assert top_level([*tracked, ".ci/run"]) == AGREED
    assert top_level([*tracked, "scratch.py"]) == AGREED | {"scratch.py"}
    assert top_level(tracked[1:]) != AGREED
