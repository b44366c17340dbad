"""Lengths in feet and inches."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model3d.figures import feet_inches, in_units, plain, shown
from model3d.sources import length_mm


@pytest.mark.parametrize(
    ("mm", "text"),
    [
        (0.0, "0 in"),
        (25.4, "1 in"),
        (304.8, "1 ft 0 in"),
        (31.0, "1 7/32 in"),
        (3498.0, "11 ft 5 23/32 in"),
        (12.7, "1/2 in"),
        (-12.7, "-1/2 in"),
        (304.8 - 0.2, "1 ft 0 in"),
        (311.15, "1 ft 1/4 in"),
    ],
)
def test_feet_and_inches(mm: float, text: str) -> None:
    """A length is shown in feet, inches and the nearest 32nd in its lowest terms."""
    assert feet_inches(mm) == text


@given(mm=st.floats(0, 20000), parts=st.sampled_from([8, 16, 32, 64]))
def test_read_back(mm: float, parts: int) -> None:
    """A length in feet and inches, read as a plan reads it, is within half a part of an inch."""
    assert abs(length_mm(feet_inches(mm, parts)) - mm) <= 25.4 / parts / 2 + 1e-9


def test_numbers_in_a_sum() -> None:
    """A number in a sum has two decimals at most and no empty ones; a result says its unit."""
    assert [plain(v) for v in (51.0, 8.576, -0.001, 0.5)] == ["51", "8.58", "0", "0.5"]
    assert shown(3498.0, "mm", "mm") == "3498.00 mm"
    assert shown(3498.0, "mm", "ft-in") == "11 ft 5 23/32 in (3498.00 mm)"
    assert shown(90.0, "deg", "ft-in") == "90.00 deg"


@pytest.mark.parametrize(
    ("text", "imperial"),
    [
        ("cut to 3498.0 mm, 8 mm shorter", "cut to 11 ft 5 23/32 in, 5/16 in shorter"),
        ("its elbows stand 10.5 mm into the far wall", "its elbows stand 13/32 in into the far wall"),
        ("stand 62.8 to 74.7 mm apart", "stand 2 15/32 in to 2 15/16 in apart"),
        ("brackets 120.0, 629.3 mm -> none", "brackets 4 23/32 in, 2 ft 25/32 in -> none"),
        ("8504.8 mm3 shared, at (12, 3225, 43)", "8504.8 mm3 shared, at (12, 3225, 43)"),
        ("1.5 mm per m, at 45 degrees", "1.5 mm per m, at 45 degrees"),
        ("", ""),
    ],
)
def test_lengths_in_a_sentence(text: str, imperial: str) -> None:
    """Lengths in a sentence, ranges and lists of them as well, are put in feet and inches; areas, volumes, slopes and
    numbers without a unit stay; in millimetres nothing changes.
    """
    assert in_units(text, "ft-in") == imperial
    assert in_units(text, "mm") == text
