"""The judge of corner sheets finds each fault that is planted on a good one."""

from __future__ import annotations

from dataclasses import replace

import pytest

from model3d.pictures.corners.judging import corner_faults
from model3d.pictures.corners.page import CornerPage, corner_page
from model3d.pictures.corners.table import Row
from model3d.pictures.labelled.seats import Seat
from model3d.pictures.labelled.tags import DrawnTag
from model3d.pictures.labelled.words import words_in
from model3d.pictures.paper import Box, Px
from model3d.pictures.theme import THEME
from tests.pictures.corners.sheets import sheets


@pytest.fixture(scope="module")
def good() -> CornerPage:
    """A sheet without faults: an internal corner with elbows and three labels."""
    page = corner_page(next(s for s in sheets("a-square") if s.window is not None), THEME)
    assert corner_faults(page, THEME) == ()
    assert len(page.tags) == 3
    return page


def one_fault(page: CornerPage, said: str) -> None:
    """A fault that says so is found."""
    found = corner_faults(page, THEME)
    assert any(said in fault for fault in found), found


def seated_at(tag: DrawnTag, at: Px) -> DrawnTag:
    """A label with its top left corner at a point, its foot below it."""
    box = replace(tag.seat.box, left=at[0], top=at[1])
    return replace(tag, seat=Seat(box=box, foot=(box.middle[0], box.bottom)))


def test_a_label_over_another(good: CornerPage) -> None:
    """A label moved onto another is found."""
    one, other, *rest = good.tags
    there = seated_at(one, (other.seat.box.left + 10, other.seat.box.top + 10))
    one_fault(replace(good, tags=(there, other, *rest)), "lies over")


def test_a_label_off_its_picture(good: CornerPage) -> None:
    """A label that reaches over the edge of its picture is found."""
    one, *rest = good.tags
    one_fault(replace(good, tags=(seated_at(one, (10.0, 300.0)), *rest)), "leaves its picture")


def test_leaders_that_cross(good: CornerPage) -> None:
    """Two labels, one above and one below, that change seats with their dots where they are cross their leaders."""
    one, other, third = good.tags
    changed = (replace(one, seat=third.seat), other, replace(third, seat=one.seat))
    one_fault(replace(good, tags=changed), "crosses that of")


def test_a_lost_label_and_a_dot_astray(good: CornerPage) -> None:
    """A label that is not drawn, and one whose leader ends on the bare wall, are found."""
    one_fault(replace(good, tags=good.tags[1:]), "1 labels are lost")
    frame = good.from_room.frame
    astray = replace(good.tags[0], tip=(frame.left + 5, frame.top + 5))
    one_fault(replace(good, tags=(astray, *good.tags[1:])), "is not on its part")


def test_an_arrow_hidden(good: CornerPage) -> None:
    """A figure's box over a dimension's arrow, its own or the other's, and an arrow off the picture are found."""
    one, other = good.dimensions
    for arrow in (one, other):
        x, y = (arrow.start[0] + arrow.end[0]) / 2, (arrow.start[1] + arrow.end[1]) / 2
        box = Box(left=x - 30, top=y - 14, width=60, height=28)
        one_fault(replace(good, dimensions=(replace(one, box=box), other)), "the arrow of")
    off = replace(one, start=(one.start[0], 20.0), end=(one.end[0], 20.0))
    one_fault(replace(good, dimensions=(off, other)), "leaves its picture")


def test_two_figures_over_one_another(good: CornerPage) -> None:
    """The angle's box on that of an allowance is found."""
    one_fault(replace(good, angle=replace(good.angle, box=good.dimensions[1].box)), "lies over that of")


def test_lines_of_the_ruler_that_cross(good: CornerPage) -> None:
    """Two states of the ruler that change their words' places are found."""
    ruler = good.ruler
    assert ruler is not None
    a, b, *rest = ruler.ticks
    crossed = (replace(a, words=b.words), replace(b, words=a.words), *rest)
    one_fault(replace(good, ruler=replace(ruler, ticks=crossed)), "crosses that of")


def test_the_ruler_under_a_mark_or_off_its_picture(good: CornerPage) -> None:
    """A piece's mark over the ruler, and the ruler's bar off the picture, are found."""
    ruler = good.ruler
    assert ruler is not None
    over_it = replace(good.marks[0], box=ruler.bar)
    one_fault(replace(good, marks=(over_it, good.marks[1])), "the ruler lies under the mark")
    off = replace(ruler.bar, top=good.section.frame.bottom - 4)
    one_fault(replace(good, ruler=replace(ruler, bar=off)), "the ruler leaves its picture")


def test_words_too_long_for_the_table(good: CornerPage) -> None:
    """A cell whose words are too long even in the smallest type is found."""
    room = good.rows[2].words[0].room
    long = Row(words=(words_in(room, "pushed home " * 12, 18.0, THEME.ink),))
    one_fault(replace(good, rows=(*good.rows[:2], long, *good.rows[3:])), "overflows its room")
