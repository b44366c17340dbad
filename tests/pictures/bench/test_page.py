"""Where everything stands on a bench page."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model3d.pictures.bench.judging import bench_faults
from model3d.pictures.bench.page import bench_page
from model3d.pictures.labelled.judging import over
from model3d.pictures.labelled.seats import seated
from model3d.pictures.paper import Box, Px, crossing
from model3d.pictures.theme import THEME
from tests.layout.every_joint import FAMILIES
from tests.pictures.bench.benches import benches

FRAME = Box(left=0, top=0, width=560, height=460)


@pytest.mark.parametrize("sense", [1, -1])
@pytest.mark.parametrize("family", FAMILIES)
def test_labels(family: str, sense: int) -> None:
    """Every tag of every piece of every family is drawn, apart from others, inside its picture, leaders uncrossed."""
    for made in benches(family, sense):
        assert bench_faults(bench_page(made, THEME), THEME) == (), made.mark


@pytest.mark.parametrize("family", FAMILIES)
def test_parts_in_picture(family: str) -> None:
    """All that stands apart lies inside the picture, between the rows of labels."""
    for made in benches(family):
        for end in bench_page(made, THEME).ends:
            inner = end.picture.frame.grown(-20.0)
            for solid in end.picture.solids:
                if solid.id != made.piece.id:
                    pixels = [end.picture.pixel(tuple(v)) for v in solid.vertices_mm[::7]]
                    assert all(inner.left <= x <= inner.right and inner.top <= y <= inner.bottom for x, y in pixels)


@given(
    tips=st.lists(st.tuples(st.floats(20, 540), st.floats(90, 370)), min_size=1, max_size=4),
    wide=st.lists(st.floats(90, 250), min_size=4, max_size=4),
)
def test_seats(tips: list[Px], wide: list[float]) -> None:
    """Labels of any width for tips anywhere stand inside, apart, whenever two rows can hold them."""
    sizes = [(w, 40.0) for w in wide[: len(tips)]]
    seats = seated(sizes, tips, FRAME)
    boxes = [seat.box for seat in seats]
    assert all(FRAME.grown(1e-6).holds(box) for box in boxes)
    assert not any(over(one, other) for one, other in itertools.combinations(boxes, 2))


def test_crossing_is_undone() -> None:
    """Two labels whose tips lie the other way round change places, so that their leaders do not cross."""
    tips = [(400.0, 100.0), (100.0, 100.0)]
    seats = seated([(120.0, 40.0), (120.0, 40.0)], tips, FRAME)
    lines = [(seat.foot, tip) for seat, tip in zip(seats, tips, strict=True)]
    assert not crossing(*lines)
    swapped = [(seats[1].foot, tips[0]), (seats[0].foot, tips[1])]
    assert seats[0].box.top != seats[1].box.top or crossing(*swapped)
