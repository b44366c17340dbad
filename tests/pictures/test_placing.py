"""Labels and close-ups placed on a panel with known things on it."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest

from model3d.pictures.paper import Box, Disc, Outline, Paper, Px, Ring, Stroke, crossing, drawn
from model3d.pictures.placing import CELL_PX, Spot, Worth, place_insets, place_label

PANEL = Box(left=0, top=100, width=1600, height=700)
PAPER = Paper(size=(1600, 1000))


def plain_worth() -> Worth:
    """A panel on which nothing is worth anything."""
    return Worth(cells=np.zeros((700 // CELL_PX, 1600 // CELL_PX)), panel=PANEL)


def barred_worth() -> Worth:
    """A panel with a strong piece right across its middle."""
    worth = plain_worth()
    worth.cells[80:100, 20:380] = 10.0
    return worth


@pytest.mark.parametrize(
    ("shape", "area"),
    [
        (Box(left=100, top=100, width=80, height=40), 3200),
        (Disc(at=(300, 300), radius=50), math.pi * 2500),
        (Ring(at=(300, 300), radius=80, width=12), 2 * math.pi * 80 * 12),
        (Outline(points=((100, 100), (300, 100), (300, 200))), 10_000),
        (Stroke(start=(100, 100), end=(500, 100), width=8), 3200),
    ],
)
def test_paper_taken_is_the_area(shape: Box | Disc | Ring | Outline | Stroke, area: float) -> None:
    """A shape takes as much paper as its area, within the grid's fineness."""
    assert float(drawn((1600, 1000), [shape]).sum()) * 4 == pytest.approx(area, rel=0.12)


def test_paper_outside_a_disc_is_taken() -> None:
    """A paper limited to a disc is free inside it only."""
    paper = PAPER.only_inside(Disc(at=(500, 500), radius=100))
    assert paper.free(Box(left=470, top=470, width=60, height=60))
    assert not paper.free(Box(left=570, top=560, width=60, height=60))


def test_labels_never_lie_over_one_another() -> None:
    """Twenty labels for one point all find places of their own, inside the panel."""
    paper, boxes = PAPER.only_inside(PANEL), []
    for _ in range(20):
        boxes.append(place_label((150, 40), (800, 400), plain_worth(), paper))
        paper = paper.with_shapes([boxes[-1]])
    assert all(PANEL.holds(box) for box in boxes)
    for a, b in combinations(boxes, 2):
        assert a.right <= b.left or b.right <= a.left or a.bottom <= b.top or b.bottom <= a.top


def test_a_label_leaves_the_work_free() -> None:
    """A label for a point at the rim of a strong piece goes to the free side."""
    worth = barred_worth()
    box = place_label((150, 40), (800, 422), worth, PAPER.only_inside(PANEL))
    assert worth.under(box) == 0.0
    assert box.bottom <= 422


def test_a_full_panel_is_refused() -> None:
    """Where no place is free the label is refused, not laid over something."""
    with pytest.raises(ValueError, match="no free place"):
        place_label((150, 40), (800, 400), plain_worth(), PAPER.with_shapes([PANEL]))


def test_close_ups_cover_nothing_of_the_work() -> None:
    """Three close-ups of a long piece lie apart, in the panel, off the piece, and their leaders do not cross."""
    worth = barred_worth()
    spots = [Spot(at=(x, 460), radius=30, title=(200, 40)) for x in (120, 800, 1480)]
    busy = [Disc(at=(800, 300), radius=60)]
    centres, _ = place_insets(spots, 130, worth, PAPER.with_shapes(busy))
    rows, columns = np.nonzero(worth.cells)
    for x, y in centres:
        assert 144 <= x <= 1456
        assert 244 <= y <= 656
        assert np.hypot(columns * 4 + 2 - x, rows * 4 + 102 - y).min() > 128
        assert math.dist((x, y), (800, 300)) > 185
    assert all(math.dist(a, b) > 2 * 130 for a, b in combinations(centres, 2))
    ties = [(spot.at, centre) for spot, centre in zip(spots, centres, strict=True)]
    assert not any(crossing(a, b) for a, b in combinations(ties, 2))


def test_cover_is_counted() -> None:
    """Where everything is strong, the worth of what a close-up covers is its disc's."""
    full = Worth(cells=np.full((700 // CELL_PX, 1600 // CELL_PX), 10.0), panel=PANEL)
    _, cover = place_insets([Spot(at=(800, 450), radius=20, title=(10, 0))], 130, full, PAPER)
    assert cover == pytest.approx(10 * math.pi * 136**2 / CELL_PX**2, rel=0.15)


@pytest.mark.parametrize(
    ("a", "b", "cross"),
    [
        (((0, 0), (10, 10)), ((0, 10), (10, 0)), True),
        (((0, 0), (10, 10)), ((5, 0), (15, 9)), False),
        (((0, 0), (4, 4)), ((0, 10), (10, 0)), False),
    ],
)
def test_crossing_lines(a: tuple[tuple[float, float], ...], b: tuple[tuple[float, float], ...], cross: bool) -> None:
    """Two lines cross when each has the other's ends on both its sides."""
    assert crossing((a[0], a[1]), (b[0], b[1])) is cross


def test_close_ups_stand_in_the_order_of_what_they_show() -> None:
    """Wherever there is room, the close-up of what is further left stands further left, and no leader runs through
    another close-up; with the right half of the panel taken too.
    """
    spots = [Spot(at=(1100, 460), radius=30, title=(220, 60)), Spot(at=(300, 460), radius=30, title=(220, 60))]
    busy = PAPER.with_shapes([Box(left=900, top=100, width=700, height=330)])
    for paper in (PAPER, busy):
        (right, left), _ = place_insets(spots, 130, barred_worth(), paper)
        assert left[0] < right[0]
        for spot, centre, other in ((spots[0], right, left), (spots[1], left, right)):
            line = [np.array(spot.at) + share * np.subtract(centre, spot.at) for share in np.linspace(0, 1, 100)]
            assert min(math.dist(point, other) for point in line) > 130


def test_a_panel_too_low_for_close_ups_costs_without_end() -> None:
    """Where no close-up fits, the worth is endless, so that another size is tried."""
    low = Box(left=0, top=100, width=1600, height=240)
    flat = Worth(cells=np.zeros((60, 400)), panel=low)
    assert place_insets([Spot(at=(800, 200), radius=30, title=(200, 40))], 130, flat, PAPER)[1] == math.inf


def test_a_leader_goes_round_another() -> None:
    """A label beyond a line would have the nearest free place; it is put on its own side of it, however far."""
    wall = Box(left=700, top=100, width=200, height=330)
    paper = PAPER.only_inside(PANEL).with_shapes([replace(wall, left=900), wall, replace(wall, left=500)])
    across = (200.0, 440.0), (1400.0, 440.0)
    tip = (800.0, 436.0)
    near = place_label((150, 40), tip, plain_worth(), paper)
    round_it = place_label((150, 40), tip, plain_worth(), paper, [across])
    assert crossing((near.middle, tip), across)
    assert not crossing((round_it.middle, tip), across)


@pytest.mark.parametrize(
    ("one", "other"),
    [((156.6, 539.2), (212.6, 505.0)), ((210.8, 670.9), (267.5, 642.4)), ((387.5, 503.0), (446.9, 475.7))],
)
def test_no_close_up_lies_on_the_place_of_another(one: Px, other: Px) -> None:
    """Two places side by side: neither close-up covers the other's place, though the nearest free paper is there."""
    spots = [Spot(at=one, radius=54, title=(250, 34)), Spot(at=other, radius=54, title=(180, 60))]
    left = PAPER.with_shapes([Box(left=560, top=100, width=1040, height=700)])
    centres, _ = place_insets(spots, 130, plain_worth(), left)
    for spot in spots:
        for centre in centres:
            assert math.dist(spot.at, centre) > 130 + spot.radius
