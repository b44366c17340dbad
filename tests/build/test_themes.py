"""Shaded pictures of a build by a theme."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from tests.cli.running import GALLERY, dryfit

SMALL = GALLERY.parent / "tests" / "cli" / "small.yaml"


@pytest.mark.parametrize(("theme", "grey"), [("print", True), ("colour", False)])
def test_the_theme_of_a_build_is_that_of_its_pictures(tmp_path: Path, theme: str, grey: bool) -> None:
    """By the theme for printers without colour every pixel of a bench picture is grey; by the other one not."""
    out = tmp_path / "out"
    assert dryfit("build", SMALL, "--out", out, "--only", "bench", "--theme", theme).exit_code == 0
    with Image.open(out / "bench" / "bench-A-1.png") as image:
        pixels = np.asarray(image.convert("RGB")).astype(int)
    assert (int(np.ptp(pixels, axis=2).max()) <= 2) is grey


def test_a_theme_that_is_not_there_builds_nothing(tmp_path: Path) -> None:
    """An unknown theme is refused with exit code 2 before anything is built."""
    done = dryfit("build", SMALL, "--out", tmp_path / "out", "--theme", "prnt")
    assert done.exit_code == 2
    assert "unknown theme 'prnt'" in done.stderr
    assert not (tmp_path / "out").exists()
