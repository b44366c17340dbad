"""How hard a step is, on its page: in words with the reasons, and by five bars."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from model3d.pictures.bands import bands
from model3d.pictures.compose import composed
from model3d.pictures.judging import page_faults
from model3d.pictures.page import overlaps
from model3d.pictures.paper import Box
from model3d.pictures.signs import meter
from model3d.pictures.stage import Level, Stage
from model3d.pictures.staging import StepStages
from model3d.pictures.theme import THEME
from model3d.steps import plan_steps
from model3d.steps.difficulty import Circumstances, difficulty
from model3d.wording import ENGLISH, Catalogue, catalogue
from tests.pictures.long_words import pretended, unmarked
from tests.pictures.pages import project_of

NARROW = Circumstances(clearance_mm=2.0, clearance_from="riser", joints_at_once=1)
ALL = Circumstances(
    clearance_mm=1.5, clearance_from="riser", joints_at_once=2, fed_round=True, bent_by_hand=True, snags=2,
    above_mm=50.0, above_what="shelf", front_mm=200.0, front_what="chest", screw_mm=12.0, screw_asked_mm=150.0,
    screw_what="shelf",
)  # fmt: skip
FOUR = Circumstances(clearance_mm=1.5, clearance_from="riser", joints_at_once=1, fed_round=True, snags=1)


@pytest.fixture
def long_words(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A language whose every word is 40 % longer takes the place of German."""
    yield from pretended(monkeypatch)


def stage_of(found: Circumstances | None, words: Catalogue = ENGLISH) -> Stage:
    """The page of a piece between an elbow and a link, as hard as these circumstances make it."""
    project = project_of("bay")
    steps = list(plan_steps(project.layout, project.scene, project.family, words))
    if found is not None:
        steps[3] = replace(steps[3], difficulty=difficulty(found))
    return StepStages(project.layout, project.scene, tuple(steps), project.family).stage(4)


def printed(stage: Stage) -> list[str]:
    """The texts of the bands."""
    return [" ".join(text.block.lines) for text in bands(stage, THEME).texts]


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("en", "Difficulty 4 of 5, hard: 2 mm to spare past riser; a joint engages while the piece moves"),
        (
            "de",
            "Schwierigkeit 4 von 5, schwer: 2 mm Spielraum an riser vorbei; eine Verbindung rastet ein, während",
        ),
    ],
)
def test_the_band_says_how_hard_and_why(language: str, said: str) -> None:
    """The level of the table (one, two for less than 3 mm, one for a joint), its word and both reasons are printed, in
    the page's language, beside a mark of four bars.
    """
    stage = stage_of(NARROW, catalogue("de" if language == "de" else "en"))
    assert any(text.startswith(said) for text in printed(stage))
    made = bands(stage, THEME).meter
    assert made is not None
    assert made[0] == 4


def test_a_step_that_was_not_looked_at_says_nothing() -> None:
    """Without a rating there is neither a mark nor a word of it."""
    stage = stage_of(None)
    assert bands(stage, THEME).meter is None
    assert not any("Difficulty" in text for text in printed(stage))


@pytest.mark.parametrize("level", [1, 2, 3, 4, 5])
def test_as_many_bars_are_full(level: Level) -> None:
    """Of five bars in rising height as many are full as the level says: the number is read without its colour."""
    drawn = list(meter(level, Box(left=0, top=0, width=54, height=20), THEME))
    full = [f'fill="{THEME.ink}"' in bar for bar in drawn]
    assert full == [True] * level + [False] * (5 - level)


def test_a_page_with_every_reason_has_no_faults() -> None:
    """With every reason that there is, nothing on the page lies over anything, and the picture keeps its height."""
    stage = stage_of(ALL)
    page = composed(stage, THEME)
    assert page_faults(stage, page) == ()
    assert page.bands.panel.height >= 360


def test_a_meter_over_the_title_is_found() -> None:
    """The mark moved onto the title lies over it, and off the page it is found too."""
    page = composed(stage_of(NARROW), THEME)
    title = page.bands.texts[1].box()
    for at, said in ((title.left, "lies over"), (-30.0, "leaves the page")):
        box = Box(left=at, top=title.top + 4, width=54, height=20)
        moved = replace(page, bands=replace(page.bands, meter=(4, box)))
        assert any("meter" in fault and said in fault for fault in overlaps(moved))


@pytest.mark.usefixtures("long_words")
def test_longer_words_fit() -> None:
    """Four reasons, more than it takes to be very hard, overflow nothing when they are 40 % longer; every reason comes
    from the catalogue.
    """
    stage = stage_of(FOUR, catalogue("de"))
    assert page_faults(stage, composed(stage, THEME)) == ()
    every = stage_of(ALL, catalogue("de")).frame.hardness
    assert every is not None
    assert set(unmarked(every.text)) == {"riser", "shelf", "chest"}
