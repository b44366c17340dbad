"""Arrows of the moves: shape, length, order, and keeping apart."""

from __future__ import annotations

import math

import numpy as np
import pytest

from model3d.geometry.placement import Vec3
from model3d.pictures.arrows import SIDES, NoteSide, drawn_arrow, drawn_swing, main_size, ribbon, spread
from model3d.pictures.paper import Box, Disc, Outline, Paper, drawn
from model3d.pictures.stage import Arrow, Points, Swing
from model3d.pictures.swings import arc, turned
from model3d.pictures.theme import THEME

SIZE = main_size(THEME)
PANEL = Box(left=0, top=0, width=1600, height=700)
HERE: Vec3 = (0.0, 0.0, 0.0)


def flat(points: Points) -> Points:
    """A projection that takes x as right, z as up, half a pixel a millimetre, from the middle of the panel."""
    return np.column_stack([800 + points[:, 0] / 2, 350 - points[:, 2] / 2, np.ones(len(points))])


def area(outline: tuple[tuple[float, float], ...]) -> float:
    """Area inside a polygon (shoelace)."""
    x, y = np.array(outline).T
    return abs(float(np.dot(x, np.roll(y, 1)) - np.dot(y, np.roll(x, 1)))) / 2


def test_a_straight_ribbon_is_shaft_and_head() -> None:
    """An arrow's area is its shaft's rectangle and its head's triangle, and its tip is its end."""
    outline = ribbon([(0, 0), (200, 0)], 10, 40)
    assert area(outline) == pytest.approx((200 - 0.82 * 40) * 10 + 40 * 0.82 * 40 / 2)
    assert (200.0, 0.0) in outline


@pytest.mark.parametrize(("long", "drawn_px"), [(8, SIZE.least), (300, 150), (4000, SIZE.most)])
def test_a_leg_is_drawn_long_enough_to_see(long: float, drawn_px: float) -> None:
    """A leg of a few millimetres is drawn at the least length, a long one no longer than the most."""
    arrow = Arrow(start_mm=(0, 0, 0), end_mm=(long, 0, 0), label="1", kind="slide")
    xs = [x for x, _ in drawn_arrow(arrow, HERE, flat, SIZE).outline]
    assert max(xs) - min(xs) == pytest.approx(drawn_px)


def test_a_press_pushes_on_its_face() -> None:
    """A press ends where it pushes, a slide starts where it takes hold."""
    press = drawn_arrow(Arrow(start_mm=(0, 0, 0), end_mm=(8, 0, 0), kind="press"), HERE, flat, SIZE)
    slide = drawn_arrow(Arrow(start_mm=(0, 0, 0), end_mm=(8, 0, 0), kind="slide"), HERE, flat, SIZE)
    assert max(x for x, _ in press.outline) == pytest.approx(800)
    assert min(x for x, _ in slide.outline) == pytest.approx(800)


def test_arrows_keep_apart_along_the_piece() -> None:
    """Four legs that start at one point are spread along the piece until no two share paper."""
    line = (-1200.0, 0.0, 0.0), (1200.0, 0.0, 0.0)
    ends = [(0, 0, 200), (0, 0, 5), (-26, 0, 0), (0, 0, -8)]
    legs = [Arrow(start_mm=HERE, end_mm=end, label=str(k), kind="slide", along_mm=line) for k, end in enumerate(ends)]
    together = [drawn(THEME.page_px, drawn_arrow(leg, HERE, flat, SIZE).shapes()) for leg in legs]
    assert (together[0] & together[1]).any()
    made = [
        drawn(THEME.page_px, arrow.shapes()) for arrow in spread(legs, flat, PANEL, SIZE, Paper(size=THEME.page_px))
    ]
    assert not any((a & b).any() for k, a in enumerate(made) for b in made[k + 1 :])


def test_an_arrow_without_a_line_stays() -> None:
    """An arrow that may not be shifted is drawn where it is."""
    arrow = Arrow(start_mm=(100, 0, 0), end_mm=(300, 0, 0), kind="offer")
    (made,) = spread([arrow], flat, PANEL, SIZE, Paper(size=THEME.page_px))
    assert made == drawn_arrow(arrow, HERE, flat, SIZE)


def test_a_swing_follows_its_circle() -> None:
    """Every point of a swing keeps its distance from the axis, and the last stands at the whole turn."""
    swing = Swing(centre_mm=(100, 50, 20), start_mm=(1100, 50, 90), turn_deg=-90)
    path = np.array(arc(swing))
    np.testing.assert_allclose(np.hypot(path[:, 0] - 100, path[:, 1] - 50), 1000)
    np.testing.assert_allclose(path[-1], (100, -950, 90), atol=1e-9)


def test_turning_about_a_slanted_axis() -> None:
    """A third of a turn about (1, 1, 1) takes x to y to z."""
    np.testing.assert_allclose(turned((1, 0, 0), HERE, (1, 1, 1), 120), (0, 1, 0), atol=1e-12)


def test_a_small_swing_is_drawn_longer() -> None:
    """A swing too small to be seen begins earlier on its own circle and ends where it ends."""
    swing = Swing(centre_mm=HERE, start_mm=(300, 0, 0), turn_deg=4, axis=(0, -1, 0), label="1")
    made = drawn_swing(swing, flat, SIZE)
    tip = (800 + 150 * math.cos(math.radians(4)), 350 - 150 * math.sin(math.radians(4)))
    assert min(math.dist(tip, point) for point in made.outline) < 1e-6
    assert max(math.dist(tip, point) for point in made.outline) >= 0.9 * SIZE.least


@pytest.mark.parametrize("along", [100.0, -100.0])
@pytest.mark.parametrize("side", SIDES)
def test_the_length_stands_beside_the_number(along: float, side: NoteSide) -> None:
    """The millimetres of a leg stand by its number, off the arrow's shaft and head, wherever they are put; a snag has
    its sign there too, off both.
    """
    arrow = Arrow(start_mm=HERE, end_mm=(along, 0.0, 0.0), label="3", kind="slide", note="26 mm", snag=True)
    made = drawn_arrow(arrow, HERE, flat, SIZE, side)
    assert made.note is not None
    assert made.note.lines == ("26 mm",)
    assert made.note_box is not None
    assert made.snag is not None
    plain = drawn_arrow(Arrow(start_mm=HERE, end_mm=(along, 0.0, 0.0), label="3", kind="slide"), HERE, flat, SIZE)
    size = (1600, 1000)
    head = drawn(size, [Outline(points=plain.outline)])
    assert not (head & drawn(size, [made.note_box])).any()
    assert not (drawn(size, [Disc(at=made.snag, radius=10)]) & drawn(size, [made.note_box])).any()
    near = math.dist(made.note_box.middle, made.disc)
    assert near < made.note_box.width / 2 + SIZE.disc + 4


@pytest.mark.parametrize("way", [(-200, 0, 150), (200, 0, 150), (-200, 0, -150)])
def test_an_arrow_is_not_under_its_own_words(way: Vec3) -> None:
    """Where the usual place of its words is taken, they go to a side on which they do not hide the arrow."""
    arrow = Arrow(start_mm=HERE, end_mm=way, label="4", kind="press", note="9 mm")
    usual = drawn_arrow(arrow, HERE, flat, SIZE)
    assert usual.note_box is not None
    taken = Paper(size=THEME.page_px).with_shapes([usual.note_box])
    (made,) = spread([arrow], flat, PANEL, SIZE, taken)
    assert made.note_box is not None
    assert made.note_box != usual.note_box
    own = drawn(THEME.page_px, [Outline(points=made.outline)])
    assert float((own & drawn(THEME.page_px, [made.note_box])).sum()) * 4 < 40.0


def test_arrows_that_cannot_be_shifted_apart_are_drawn_smaller() -> None:
    """Two arrows side by side, too near for their heads, are both drawn slimmer; alone each has its usual size."""
    near = [Arrow(start_mm=(x, 0, 0), end_mm=(x, 0, 60), kind="offer") for x in (0.0, 66.0)]
    free = Paper(size=THEME.page_px)
    alone = [spread([arrow], flat, PANEL, SIZE, free)[0] for arrow in near]
    both = spread(near, flat, PANEL, SIZE, free)
    first, second = (drawn(THEME.page_px, arrow.shapes()) for arrow in alone)
    assert (first & second).any()
    first, second = (drawn(THEME.page_px, arrow.shapes()) for arrow in both)
    assert not (first & second).any()
    assert all(area(small.outline) < area(usual.outline) for small, usual in zip(both, alone, strict=True))
