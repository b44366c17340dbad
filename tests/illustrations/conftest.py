"""A plain room laid out, once for all tests of illustrations in a process."""

from __future__ import annotations

from pathlib import Path

import pytest

from model3d.build.project import load
from model3d.illustrations.picture import Job
from model3d.themes import Theme, find_theme, read_theme
from tests.cli.running import written


@pytest.fixture(scope="session")
def job(tmp_path_factory: pytest.TempPathFactory) -> Job:
    """A room with one run round three internal corners."""
    project = load(written(tmp_path_factory.mktemp("illustrations")))
    return Job(
        room=project.plan.room, layout=project.layout, scene=project.scene, steps=project.steps, family=project.family
    )


@pytest.fixture(scope="session")
def theme() -> Theme:
    """The packaged theme in colour."""
    return read_theme(find_theme("colour"))


@pytest.fixture
def theme_file(tmp_path: Path) -> Path:
    """Where a theme may be written."""
    return tmp_path / "theme.yaml"
