"""Every fault that is looked for on a page is found where it was planted."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from model3d.pictures.compose import composed
from model3d.pictures.judging import page_faults
from model3d.pictures.page import DrawnInset, Page
from model3d.pictures.paper import Box
from model3d.pictures.stage import Stage
from model3d.pictures.theme import THEME
from tests.pictures.pages import project_of, stages_of

Made = tuple[Stage, Page]


@pytest.fixture(scope="module")
def made() -> Made:
    """The page of a piece between an elbow and a link."""
    stage = stages_of(project_of("bay")).stage(8)
    return stage, composed(stage, THEME)


def with_inset(page: Page, number: int, **changes: Any) -> Page:
    """The page with one close-up changed."""
    insets = list(page.insets)
    insets[number] = replace(insets[number], **changes)
    return replace(page, insets=tuple(insets))


def with_marks(page: Page, number: int, **changes: Any) -> Page:
    """The page with the marks of one close-up changed."""
    marks = replace(page.insets[number].marks, **changes)
    return with_inset(page, number, marks=marks)


def has(faults: tuple[str, ...], words: str) -> bool:
    """Whether a fault says so."""
    return any(words in fault for fault in faults)


def test_the_page_itself_is_clean(made: Made) -> None:
    """What is planted below is found, and nothing else: the page has no fault of its own."""
    assert page_faults(*made) == ()


def test_a_hidden_piece_is_found(made: Made) -> None:
    """Less than 60 % of the new piece's silhouette is a fault, 60 % is not."""
    stage, page = made
    assert has(page_faults(stage, replace(page, view=replace(page.view, share=0.59))), "59% of the new part")
    assert page_faults(stage, replace(page, view=replace(page.view, share=0.6))) == ()


def test_a_joint_too_small_is_found(made: Made) -> None:
    """A joint seen from so far that it takes less than 400 pixels."""
    stage, page = made
    far = page.insets[0]
    camera = replace(far.view.camera, field_deg=170.0)
    found = page_faults(stage, with_inset(page, 0, view=replace(far.view, camera=camera)))
    assert has(found, "pixels of the joint are seen")


def test_a_closed_joint_is_found(made: Made) -> None:
    """A snapped joint that is neither cut open nor drawn apart."""
    stage, page = made
    closed = replace(stage, insets=(replace(stage.insets[0], guides=()), *stage.insets[1:]))
    assert has(page_faults(closed, page), "the joint is closed")


def test_lost_marks_are_found(made: Made) -> None:
    """An arrow, a letter, words or a whole close-up left out."""
    stage, page = made
    assert has(page_faults(stage, replace(page, marks=replace(page.marks, arrows=page.marks.arrows[1:]))), "no arrow")
    assert has(page_faults(stage, with_marks(page, 0, badges=())), "letter of a clip is lost")
    assert has(page_faults(stage, with_marks(page, 1, callouts=())), "words are lost")
    assert has(page_faults(stage, with_marks(page, 1, arrows=())), "an arrow is lost")


def test_close_ups_over_things_are_found(made: Made) -> None:
    """A close-up over an arrow, over the place of another, and over another close-up."""
    stage, page = made
    arrow = page.marks.arrows[1].disc
    assert has(page_faults(stage, with_inset(page, 0, centre=arrow)), "lies under")
    assert has(page_faults(stage, with_inset(page, 0, centre=page.insets[1].spot)), "the place of")
    assert has(page_faults(stage, with_inset(page, 0, centre=page.insets[1].centre)), "lies over")


def test_a_leader_through_another_close_up_is_found(made: Made) -> None:
    """Leaders that run from one side of the picture through the close-up of the other side."""
    stage, page = made
    first, second = page.insets
    swapped = with_inset(with_inset(page, 0, centre=moved(second), spot=second.spot), 1, spot=first.spot)
    assert has(page_faults(stage, swapped), "runs through")


def moved(inset: DrawnInset) -> tuple[float, float]:
    """Half a ring's width from a close-up."""
    return inset.centre[0] + inset.radius / 2, inset.centre[1]


def test_a_letter_off_its_clip_is_found(made: Made) -> None:
    """The dot of a letter on the piece's face, not on the clip."""
    stage, page = made
    badge = page.insets[0].marks.badges[0]
    off = replace(badge, tip=(badge.tip[0] - 60.0, badge.tip[1] - 30.0))
    assert has(page_faults(stage, with_marks(page, 0, badges=(off,))), "is not on the clip")


def test_words_that_leave_their_box_or_the_page_are_found(made: Made) -> None:
    """A callout whose box is too narrow, a heading too wide for its box, a line past the page's edge."""
    stage, page = made
    words = page.insets[1].marks.callouts[0]
    narrow = replace(words, box=replace(words.box, width=words.box.width - 40.0))
    others = page.insets[1].marks.callouts[1:]
    assert has(page_faults(stage, with_marks(page, 1, callouts=(narrow, *others))), "overflow their box")
    head = page.insets[0].title_box
    thin = Box(left=head.left + 60.0, top=head.top, width=head.width - 60.0, height=head.height)
    assert has(page_faults(stage, with_inset(page, 0, title_box=thin)), "overflow their box")
    line = replace(page.bands.texts[0], left=1590.0)
    gone = replace(page, bands=replace(page.bands, texts=(line, *page.bands.texts[1:])))
    assert has(page_faults(stage, gone), "runs off the page")
