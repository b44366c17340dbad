"""The judge of bench pages finds each fault that is planted on a good one."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from model3d.pictures.bench.judging import bench_faults
from model3d.pictures.bench.page import BenchPage, DrawnEnd, bench_page
from model3d.pictures.labelled.seats import Seat
from model3d.pictures.labelled.tags import DrawnTag
from model3d.pictures.labelled.words import words_in
from model3d.pictures.paper import Box, Px
from model3d.pictures.theme import THEME
from tests.pictures.bench.benches import benches


@pytest.fixture(scope="module")
def good() -> BenchPage:
    """A page without faults whose right end has four labels: the piece before an internal corner."""
    made = next(b for b in benches("a-square") if any(len(end.tags) == 4 for end in b.ends))
    page = bench_page(made, THEME)
    assert bench_faults(page, THEME) == ()
    return page


def busy(page: BenchPage) -> int:
    """Which end has four labels."""
    return max((0, 1), key=lambda k: len(page.ends[k].tags))


def with_end(page: BenchPage, **changes: Any) -> BenchPage:
    """The page with something else at its end of four labels."""
    ends = list(page.ends)
    ends[busy(page)] = replace(ends[busy(page)], **changes)
    return replace(page, ends=(ends[0], ends[1]))


def with_tag(page: BenchPage, k: int, tag: DrawnTag) -> BenchPage:
    """The page with one of the four labels replaced."""
    tags = list(page.ends[busy(page)].tags)
    tags[k] = tag
    return with_end(page, tags=tuple(tags))


def moved(tag: DrawnTag, by: Px) -> DrawnTag:
    """A label elsewhere, with the foot of its leader."""
    box, foot = tag.seat.box, tag.seat.foot
    there = replace(box, left=box.left + by[0], top=box.top + by[1])
    return replace(tag, seat=Seat(box=there, foot=(foot[0] + by[0], foot[1] + by[1])))


def end_of(page: BenchPage) -> DrawnEnd:
    """The end with four labels."""
    return page.ends[busy(page)]


def one_fault(page: BenchPage, said: str) -> None:
    """A fault that says so is found."""
    found = bench_faults(page, THEME)
    assert any(said in fault for fault in found), found


def test_a_label_over_another(good: BenchPage) -> None:
    """A label moved onto its neighbour is found."""
    one, other = end_of(good).tags[:2]
    away = other.seat.box.left - one.seat.box.left, other.seat.box.top - one.seat.box.top
    one_fault(with_tag(good, 0, moved(one, away)), "lies over")


@pytest.mark.parametrize("by", [(-900.0, 0.0), (900.0, 0.0), (0.0, -60.0), (0.0, 500.0)])
def test_a_label_off_its_picture(good: BenchPage, by: Px) -> None:
    """A label moved out of its picture, to any side, is found."""
    one_fault(with_tag(good, 0, moved(end_of(good).tags[0], by)), "leaves its picture")


def test_leaders_that_cross(good: BenchPage) -> None:
    """Of two labels the one that points to the left set down on the right, and the other on the left: found."""
    tags, frame = end_of(good).tags, end_of(good).picture.frame
    order = sorted(range(len(tags)), key=lambda k: tags[k].tip[0])
    left, right = tags[order[0]], tags[order[-1]]
    a = moved(left, (frame.right - 8 - left.seat.box.right, frame.top + 8 - left.seat.box.top))
    b = moved(right, (frame.left + 8 - right.seat.box.left, frame.top + 8 - right.seat.box.top))
    one_fault(with_tag(with_tag(good, order[0], a), order[-1], b), "crosses that of")


def test_a_leader_over_another_s_dot(good: BenchPage) -> None:
    """A leader that runs over the dot of another is found."""
    one, other = end_of(good).tags[:2]
    x, y = other.tip
    seat = replace(one.seat, foot=(2 * x - one.tip[0], 2 * y - one.tip[1]))
    one_fault(with_tag(good, 0, replace(one, seat=seat)), "runs over the dot")


def test_a_lost_label(good: BenchPage) -> None:
    """A label that is not drawn is found."""
    one_fault(with_end(good, tags=end_of(good).tags[1:]), "1 labels are lost")


def test_a_dot_astray(good: BenchPage) -> None:
    """A leader that ends beside its part, or on another part, is found."""
    first, second = end_of(good).tags[0], end_of(good).tags[1]
    frame = end_of(good).picture.frame
    one_fault(with_tag(good, 0, replace(first, tip=(frame.left + 3, frame.top + 3))), "is not on its part")
    one_fault(with_tag(good, 0, replace(first, tip=second.tip)), "is not on its part")


def test_a_label_over_what_another_points_at(good: BenchPage) -> None:
    """A label that lies on another's dot is found."""
    one, other = end_of(good).tags[:2]
    x, y = one.seat.box.middle
    page = with_tag(good, 0, moved(one, (other.tip[0] - x, other.tip[1] - y)))
    one_fault(page, "hides what")


def test_words_too_long_for_a_label(good: BenchPage) -> None:
    """Words wider than their label are found."""
    tag = end_of(good).tags[0]
    block = replace(tag.block, width_px=tag.block.width_px + 40.0)
    one_fault(with_tag(good, 0, replace(tag, block=block)), "overflows its box")


def test_words_too_long_for_their_room(good: BenchPage) -> None:
    """A title too long even in the smallest type, and words that leave the page, are found."""
    room = good.head[0].room
    long = words_in(room, "Piece " * 60, THEME.title_px, THEME.ink)
    one_fault(replace(good, head=(long, *good.head[1:])), "overflows its room")
    off = replace(good.head[0].text, left=-20.0)
    one_fault(replace(good, head=(replace(good.head[0], text=off), *good.head[1:])), "leaves the page")


def test_an_arrow_hidden(good: BenchPage) -> None:
    """An arrow out of the piece that lies under words is found, also one that points into it or leaves its picture."""
    way, other = good.ways
    x, y = way.words.text.box().middle
    one_fault(replace(good, ways=(replace(way, start=(x + 33, y), end=(x - 33, y)), other)), "the arrow")
    one_fault(replace(good, ways=(replace(way, start=way.end, end=way.start), other)), "does not point out")
    lost = replace(way, start=(way.start[0] - 200, way.start[1]), end=(way.end[0] - 200, way.end[1]))
    one_fault(replace(good, ways=(lost, other)), "leaves its picture")


def test_an_arrow_in_the_piece(good: BenchPage) -> None:
    """An arrow that starts within the piece is found."""
    way, other = good.ways
    inside = good.near_px[0][0] + 80.0
    shifted = replace(way, start=(inside, way.start[1]), end=(inside - 66, way.end[1]))
    one_fault(replace(good, ways=(shifted, other)), "does not point out")


def test_numbers_of_things_to_do(good: BenchPage) -> None:
    """A number that is lost, one away from its words, and one under other words are found."""
    end = end_of(good)
    one_fault(with_end(good, numbers=end.numbers[1:]), "something to do is lost")
    away = (end.numbers[0][0], (end.numbers[0][1][0], end.numbers[0][1][1] - 60.0))
    one_fault(with_end(good, numbers=(away, *end.numbers[1:])), "is not beside")
    x, y = end.todo[0].text.box().middle
    one_fault(with_end(good, numbers=(("1", (x, y)), *end.numbers[1:])), "lies under")


def test_flags(good: BenchPage) -> None:
    """A flag off the whole piece's picture, and two whose leaders cross, are found."""
    one, other = good.flags
    box = Box(left=one.box.left, top=one.box.top - 60, width=one.box.width, height=one.box.height)
    one_fault(replace(good, flags=(replace(one, box=box), other)), "leaves its box")
    one_fault(replace(good, flags=(replace(one, tip=other.tip), replace(other, tip=one.tip))), "crosses that of")
