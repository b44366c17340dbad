"""Whole pages in numbers: everything there, nothing over anything, the new piece seen."""

from __future__ import annotations

from dataclasses import replace

import pytest

from model3d.geometry.placement import Placement
from model3d.pictures.bands import bands, legend_of
from model3d.pictures.compose import composed, visible_share
from model3d.pictures.page import Page, crossed_leaders, overlaps
from model3d.pictures.stage import Actor, Camera, Caption, Stage
from model3d.pictures.theme import THEME


@pytest.fixture(scope="module")
def pages(corner_stage: Stage, long_stage: Stage, turning_stage: Stage) -> list[tuple[Stage, Page]]:
    """The three stages laid out."""
    return [(stage, composed(stage, THEME)) for stage in (corner_stage, long_stage, turning_stage)]


def test_no_label_lies_over_another(pages: list[tuple[Stage, Page]]) -> None:
    """No label lies over another or off the page."""
    assert [overlaps(page) for _, page in pages] == [(), (), ()]


def test_planted_overlaps_are_found(pages: list[tuple[Stage, Page]]) -> None:
    """A badge laid over an arrow's number, and one off the page, are both reported."""
    page = pages[0][1]
    disc = page.marks.arrows[0].disc
    over = replace(page.marks.badges[0], box=replace(page.marks.badges[0].box, left=disc[0] - 15, top=disc[1] - 15))
    off = replace(page.marks.badges[0], box=replace(page.marks.badges[0].box, left=-20.0))
    assert overlaps(replace(page, marks=replace(page.marks, badges=(over,)))) == ("arrow 1 lies over badge B",)
    assert overlaps(replace(page, marks=replace(page.marks, badges=(off,)))) == ("badge B leaves the page",)


def test_no_leaders_cross(pages: list[tuple[Stage, Page]]) -> None:
    """The lines that tie marks to their places do not cross; two that do are found."""
    assert [crossed_leaders(page) for _, page in pages] == [(), (), ()]
    page = pages[0][1]
    first, second = page.marks.badges
    crossing_pair = (
        replace(first, box=replace(first.box, left=81.0, top=81.0), tip=(300.0, 300.0)),
        replace(second, box=replace(second.box, left=281.0, top=81.0), tip=(100.0, 300.0)),
    )
    planted = replace(page, insets=(), marks=replace(page.marks, badges=crossing_pair, callouts=()))
    assert crossed_leaders(planted) == ("badge B crosses badge F",)


def test_everything_asked_for_is_on_the_page(pages: list[tuple[Stage, Page]]) -> None:
    """Every arrow, letter, callout and close-up of the stage is on the page, by list."""
    for stage, page in pages:
        legs = [swing.label for swing in stage.swings] + [arrow.label for arrow in stage.arrows]
        assert sorted(arrow.label for arrow in page.marks.arrows) == sorted(legs)
        assert [badge.letter for badge in page.marks.badges] == [badge.text for badge in stage.badges]
        assert [" ".join(c.text.block.lines) for c in page.marks.callouts] == [c.text for c in stage.callouts]
        assert [" ".join(i.title.block.lines) for i in page.insets] == [i.title for i in stage.insets]
        assert [label for label, _ in page.bands.discs] == [c.label for c in stage.frame.captions if c.label]


def test_the_new_piece_is_seen(pages: list[tuple[Stage, Page]]) -> None:
    """At least 60 % of the new piece's silhouette is seen; every close-up shows half of its subject or more."""
    for _, page in pages:
        assert page.view.share >= 0.6
        assert min(inset.view.share for inset in page.insets) >= 0.5


def test_close_ups_leave_the_new_piece_free(pages: list[tuple[Stage, Page]]) -> None:
    """No close-up covers a badge's tip or an arrow, and each lies in the panel."""
    for _, page in pages:
        for inset in page.insets:
            x, y = inset.centre
            tips = [badge.tip for badge in page.marks.badges] + [
                point for arrow in page.marks.arrows for point in arrow.outline
            ]
            assert all(((px - x) ** 2 + (py - y) ** 2) ** 0.5 > inset.radius for px, py in tips)
            assert page.bands.panel.top < y - inset.radius
            assert page.bands.panel.bottom > y + inset.radius


def test_a_letter_outside_the_ring_is_left_out(pages: list[tuple[Stage, Page]], corner_stage: Stage) -> None:
    """A close-up shows the letters of the clips that lie in it, though more are offered."""
    far = replace(corner_stage.insets[1], badges=corner_stage.badges)
    page = composed(replace(corner_stage, insets=(far,)), THEME)
    assert [badge.letter for badge in page.insets[0].marks.badges] == ["F"]
    assert [[badge.letter for badge in inset.marks.badges] for inset in pages[0][1].insets] == [[], ["F"]]


def test_a_wall_in_front_hides_the_piece(corner_stage: Stage) -> None:
    """Seen through a wall from outside, nothing of the piece is visible; with the room opened up, all of it is."""
    outside = Camera(eye_mm=(3100, -4000, 1500), target_mm=(3100, 2400, 80))
    assert visible_share(corner_stage, {"A3"}, outside) < 0.05
    assert visible_share(corner_stage, {"A3"}) >= 0.95


def test_a_block_before_the_piece_lowers_its_share(corner_stage: Stage) -> None:
    """A cabinet before the left half of a piece takes that half from its share, seen square on."""
    square_on = Camera(eye_mm=(3074, -2000, 78), target_mm=(3074, 2400, 78))
    clear = replace(corner_stage, actors=tuple(a for a in corner_stage.actors if a.id == "A3"))
    cabinet = Actor(
        id="cabinet",
        mesh_key="wall-1",
        look="obstacle",
        placement=Placement(origin_mm=(3074, 2100, 0), x_axis=(-1, 0, 0), y_axis=(0, -1, 0)),
    )
    hidden = replace(clear, actors=(*clear.actors, cabinet))
    assert visible_share(clear, {"A3"}, square_on) == pytest.approx(1.0, abs=0.02)
    assert visible_share(hidden, {"A3"}, square_on) == pytest.approx(0.5, abs=0.08)


def test_longer_words_still_fit(corner_stage: Stage) -> None:
    """Words 40 % longer, as in another language, neither overlap nor leave the page."""

    def longer(text: str) -> str:
        return " ".join(word + "o" * max(1, round(0.4 * (len(word) + 1))) for word in text.split())

    frame = replace(
        corner_stage.frame,
        title=longer(corner_stage.frame.title),
        captions=tuple(replace(c, text=longer(c.text)) for c in corner_stage.frame.captions),
    )
    stage = replace(
        corner_stage,
        frame=frame,
        insets=tuple(replace(i, title=longer(i.title)) for i in corner_stage.insets),
        callouts=tuple(replace(c, text=longer(c.text)) for c in corner_stage.callouts),
    )
    page = composed(stage, THEME)
    assert overlaps(page) == ()
    for text in page.bands.texts:
        assert text.box().right <= THEME.page_px[0] - THEME.margin_px + 1


def with_lines(stage: Stage, often: int) -> Stage:
    """The stage with eight long lines."""
    many = tuple(Caption(label=str(k), text="Press it back until it clicks. " * often) for k in range(8))
    return replace(stage, frame=replace(stage.frame, captions=many))


def test_many_words_are_set_smaller(corner_stage: Stage) -> None:
    """Words that would leave the picture low are set in 9 point, no smaller."""
    usual = {text.block.size_px for text in bands(with_lines(corner_stage, 2), THEME).texts}
    small = {text.block.size_px for text in bands(with_lines(corner_stage, 12), THEME).texts}
    assert THEME.body_px in usual
    assert min(small) == pytest.approx(0.88 * THEME.legend_px)
    assert min(small) * 277 / 1600 / 25.4 * 72 >= 8.6


def test_too_many_words_are_refused(corner_stage: Stage) -> None:
    """A page whose words leave no room for the picture is refused."""
    with pytest.raises(ValueError, match="the words leave"):
        bands(with_lines(corner_stage, 20), THEME)


def test_the_legend_names_what_is_there(corner_stage: Stage) -> None:
    """The legend has one line for each look on the stage that is no room, and one for the moves."""
    looks = [entry.look for entry in legend_of(corner_stage)]
    assert looks == ["new", "fitting", "clip-back", "clip-front", "fitted", "bracket", "move"]
