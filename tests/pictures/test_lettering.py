"""Words measured with the shipped font and broken into lines."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model3d.pictures.lettering import balanced, font_paths, set_text, width_px
from model3d.pictures.markup import element, words
from model3d.pictures.overlay import rasterised

WORDS = st.lists(st.text(alphabet="abcdefghijklmnopqrstuvwxyzWM0123456789,.-", min_size=1, max_size=24), max_size=30)


@given(WORDS, st.floats(60.0, 600.0), st.booleans())
def test_no_line_is_wider_than_asked(text: list[str], most: float, bold: bool) -> None:
    """A block never grows wider than the width it was given, and loses no letter."""
    block = set_text(" ".join(text), 23.0, most, bold)
    assert all(width_px(line, 23.0, bold) <= most for line in block.lines)
    assert "".join(block.lines).replace(" ", "") == "".join(text)


@given(WORDS, st.floats(120.0, 600.0))
def test_evened_lines_are_as_many(text: list[str], most: float) -> None:
    """Making lines even adds no line and widens none."""
    plain, even = set_text(" ".join(text), 21.0, most), balanced(" ".join(text), 21.0, most)
    assert len(even.lines) == len(plain.lines)
    assert even.width_px <= plain.width_px


@pytest.mark.parametrize("bold", [False, True])
def test_measured_width_is_the_drawn_width(bold: bool) -> None:
    """What is measured is what is drawn: ink is at most the measure and at least .93 of it."""
    text = "Slide 26 mm toward the valve, WAVY"
    measure = width_px(text, 40.0, bold)
    mark = element(
        "text", words(text), x=20.0, y=60.0, font_size=40.0, fill="#000000", font_weight="bold" if bold else "normal"
    )
    picture = element(
        "svg", mark, xmlns="http://www.w3.org/2000/svg", width=1400, height=100, font_family="DejaVu Sans"
    )
    columns = np.flatnonzero(rasterised(picture)[:, :, 3].max(axis=0) > 40)
    ink = columns[-1] - columns[0]
    assert 0.93 * measure <= ink <= measure


def test_font_travels_with_its_licence() -> None:
    """The font files and the licence text lie in the package."""
    regular, bold = font_paths()
    assert regular.is_file()
    assert bold.is_file()
    licence = regular.with_name("LICENSE_DEJAVU.txt").read_text(encoding="utf-8")
    assert "Bitstream Vera Fonts Copyright" in licence


def test_a_length_keeps_to_its_unit() -> None:
    """No line ends between a number and its mm, however narrow, so long as both fit on one; the words stay as they
    were.
    """
    text = "then pushed right home (21 mm past working) by 12.5 mm, or 9 mmol"
    for wide in range(130, 700, 10):
        lines = set_text(text, 20.0, float(wide)).lines
        assert " ".join(lines) == text
        pairs = [(line[-1], after.split()[0].rstrip(",")) for line, after in itertools.pairwise(lines)]
        assert not any(last.isdigit() and first == "mm" for last, first in pairs)
    assert any(line.endswith("9") for wide in range(130, 700, 10) for line in set_text(text, 20.0, float(wide)).lines)
