"""The bench picture drawn."""

from __future__ import annotations

import io

from PIL import Image

from model3d.pictures.bench.draw import bench_picture
from model3d.pictures.theme import THEME
from tests.pictures.bench.benches import benches


def test_same_bytes() -> None:
    """The same bench gives the same PNG of 1600 x 1000, with ink where both ends stand."""
    made = benches("a-square")[0]
    first = bench_picture(made, THEME)
    assert first == bench_picture(made, THEME)
    with Image.open(io.BytesIO(first)) as image:
        assert image.size == (1600, 1000)
        for left in (44, 816):
            panel = image.crop((left, 430, left + 560, 760)).convert("L")
            low, high = panel.getextrema()
            assert isinstance(low, int)
            assert isinstance(high, int)
            assert high - low > 150
