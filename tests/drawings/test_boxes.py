"""Whether boxes on paper overlap, against shapely; how wide words are, against the font."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageFont
from shapely.geometry import Polygon

from model3d.drawings.boxes import boxes_meet, line_box, turned_box, within
from model3d.drawings.sheet import length_words, number, words_width_mm, wrapped

FONTS = Path(__file__).parents[2] / "model3d" / "pictures" / "fonts"
boxes = st.builds(
    turned_box,
    st.tuples(st.floats(-20, 20), st.floats(-20, 20)),
    st.floats(0.5, 30),
    st.floats(0.5, 30),
    st.floats(-180, 180),
)


@given(one=boxes, other=boxes)
def test_boxes_overlap_as_their_polygons_do(one: object, other: object) -> None:
    """Two turned boxes meet where their polygons share an area, and not where they are apart."""
    a, b = Polygon(one.corners), Polygon(other.corners)
    shared = a.intersection(b).area
    if shared > 1e-6:
        assert boxes_meet(one, other)
    if a.distance(b) > 1e-6:
        assert not boxes_meet(one, other)
    assert boxes_meet(one, other) == boxes_meet(other, one)


def test_boxes_that_touch_do_not_overlap() -> None:
    """Boxes with a side in common do not overlap; a hundredth of a millimetre more and they do."""
    left = turned_box((0.0, 0.0), 10.0, 4.0)
    assert not boxes_meet(left, turned_box((10.0, 0.0), 10.0, 4.0))
    assert boxes_meet(left, turned_box((9.99, 0.0), 10.0, 4.0))


def test_a_line_has_a_box_of_its_width() -> None:
    """A drawn line is a thin box along it."""
    box = line_box((0.0, 0.0), (3.0, 4.0), 0.2)
    assert Polygon(box.corners).area == pytest.approx(1.0)
    assert boxes_meet(box, turned_box((1.5, 2.0), 0.1, 0.1))
    assert not boxes_meet(box, turned_box((1.5, 2.4), 0.1, 0.1))


def test_within() -> None:
    """A box is within another when no corner of it is outside."""
    page = turned_box((50.0, 50.0), 100.0, 100.0)
    assert within(turned_box((50.0, 50.0), 100.0, 100.0), page)
    assert not within(turned_box((50.0, 50.1), 100.0, 100.0), page)


@pytest.mark.parametrize(
    "words", ["A-10 1348.7", "w10 919.2", "column.w2 400", "hall-door", "c11 225°", "plinth", "B-1 278.0"]
)
@pytest.mark.parametrize("bold", [False, True])
def test_words_are_no_wider_than_thought(words: str, bold: bool) -> None:
    """The width reckoned for words is at least that of the font, and not a quarter more."""
    font = ImageFont.truetype(str(FONTS / f"DejaVuSans{'-Bold' if bold else ''}.ttf"), 1000)
    real = font.getlength(words) / 1000.0 * 3.0
    assert real <= words_width_mm(words, size_mm=3.0, bold=bold) <= 1.25 * real


def test_numbers_on_the_page() -> None:
    """Coordinates are written to a thousandth of a millimetre, lengths to a tenth, without trailing noughts."""
    assert [number(x) for x in (1.0, -0.0001, 2.5004, 1234.5678)] == ["1", "0", "2.5", "1234.568"]
    assert [length_words(x) for x in (3600.0, 848.53, 99.96)] == ["3600", "848.5", "100"]


def test_wrapped_words() -> None:
    """Words are broken into lines within the width, none lost; a word wider than the line stands alone."""
    words = "Square-edged, two obround waterways, and so on"
    lines = wrapped(words, 40.0, size_mm=2.8)
    assert " ".join(lines) == words
    assert all(words_width_mm(line, size_mm=2.8) <= 40.0 for line in lines)
    assert wrapped("Donaudampfschifffahrt a", 5.0, size_mm=2.8) == ["Donaudampfschifffahrt", "a"]
