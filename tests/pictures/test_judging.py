"""Every fault that is looked for on a page is found where it was planted."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from model3d.pictures.compose import composed
from model3d.pictures.judging import page_faults, seen_share
from model3d.pictures.page import DrawnInset, Page
from model3d.pictures.paper import Box, Px
from model3d.pictures.sight import RayScene
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
    """Less than 60 % of the new piece's silhouette is a fault: behind a board, or under close-ups."""
    stage, page = made
    assert seen_share(stage, page) > 0.6
    solids = page.view.solids
    piece = next(solid for solid in solids if solid.id in stage.subjects)
    nearer = piece.vertices_mm + 0.1 * np.subtract(page.view.camera.eye_mm, piece.vertices_mm)
    board = replace(piece, id="board", look="fitted", vertices_mm=nearer)
    behind = replace(page.view, scene=RayScene([*solids, board]))
    assert has(page_faults(stage, replace(page, view=behind)), "% of the new part is seen")
    where = np.asarray(page.view.scene.id_map(page.view.camera, round_size(page)) == solids.index(piece)).nonzero()
    middle = float(where[1].mean()) + page.bands.panel.left, float(where[0].mean()) + page.bands.panel.top
    assert has(page_faults(stage, with_inset(page, 0, centre=middle, radius=260.0)), "% of the new part is seen")


def round_size(page: Page) -> tuple[int, int]:
    """The size of the panel in whole pixels."""
    return round(page.bands.panel.width), round(page.bands.panel.height)


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


def about(box: Box, middle: Px) -> Box:
    """The box with its middle there, where its leader starts."""
    return replace(box, left=middle[0] - box.width / 2, top=middle[1] - box.height / 2)


def test_leaders_in_close_ups_are_looked_at(made: Made) -> None:
    """Two leaders of a close-up that cross, and a leader that runs under the box of other words."""
    stage, page = made
    number = next(k for k, inset in enumerate(page.insets) if len(inset.marks.callouts) > 1)
    first, second, *_ = page.insets[number].marks.callouts
    (x, y), (u, v) = first.tip, second.tip
    swapped = (
        replace(first, box=about(first.box, (u - 200.0, v - 150.0)), tip=(u, v)),
        replace(second, box=about(second.box, (u - 40.0, v - 140.0)), tip=(u - 160.0, v - 10.0)),
    )
    found = page_faults(stage, with_marks(page, number, callouts=swapped))
    assert has(found, "callout Grease") or has(found, "callout Screws")
    assert any("crosses" in fault and fault.count("callout") == 2 for fault in found)
    over = replace(second, box=about(second.box, (x, y - 60.0)))
    far = replace(first, box=about(first.box, (x, y - 240.0)))
    assert has(page_faults(stage, with_marks(page, number, callouts=(far, over))), "runs under callout")


def test_a_map_over_something_is_found(made: Made) -> None:
    """The small map laid over an arrow, and over the leader of a close-up."""
    stage, page = made
    assert page.map_box is not None
    x, y = page.marks.arrows[0].disc
    assert has(page_faults(stage, replace(page, map_box=replace(page.map_box, left=x - 20.0, top=y - 20.0))), "the map")
    (x, y), (u, v) = page.insets[0].leader()
    tie = replace(page.map_box, left=(x + u) / 2 - page.map_box.width / 2, top=(y + v) / 2 - page.map_box.height / 2)
    assert has(page_faults(stage, replace(page, map_box=tie)), "runs under the map")


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
