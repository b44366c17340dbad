"""Pages of real steps, measured: the new part seen, every joint, label and arrow there, nothing over anything."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import islice

import pytest

from model3d.pictures.solids import placed
from model3d.pictures.stage import Stage
from model3d.pictures.staging import StepStages
from model3d.pictures.theme import THEME
from model3d.pictures.viewpoint import stage_bed
from model3d.steps import Step
from model3d.wording import LANGUAGES, catalogue
from model3d.wording import catalogue as cached
from tests.pictures.long_words import pretended, unmarked
from tests.pictures.pages import faults_of, project_of, stages_of
from tests.pictures.random_fittings import fittings

ROOMS = ("bay", "l-room", "faulty", "surveyed")

@pytest.fixture
def long_words(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A language whose every word is 40 % longer takes the place of German."""
    yield from pretended(monkeypatch)


def _every(room: str, words_of: str = "en") -> Iterator[tuple[int, Stage]]:
    project = project_of(room)
    stages = stages_of(project, catalogue("de" if words_of == "de" else "en"))
    for step in project.steps:
        yield step.number, stages.stage(step.number)


def _moved(room: str) -> Iterator[tuple[int, Stage]]:
    """The stages with the approaches that are free, as they are built."""
    project = project_of(room)
    stages = StepStages(project.layout, project.scene, project.moved_steps, project.family)
    for step in project.moved_steps:
        yield step.number, stages.stage(step.number)


def _some(every: Iterator[tuple[str, StepStages, Step]]) -> Iterator[tuple[str, StepStages, Step]]:
    """Of each room its second step, a piece."""
    return ((name, stages, step) for name, stages, step in every if step.number == 2)


def test_each_wall_says_how_many_brackets() -> None:
    """The step of the brackets says of each wall how many it gets; together they are all of the run."""
    project = project_of("bay")
    stage = stages_of(project).stage(1)
    counts = [int(callout.text.split()[-1]) for callout in stage.callouts]
    pieces = [piece for piece in project.layout.pieces if piece.run == "A"]
    assert sum(counts) == sum(len(piece.brackets) for piece in pieces) == 40
    assert len(counts) == len({piece.wall.id for piece in pieces})


def test_three_rooms_by_chance_have_no_faults() -> None:
    """The first piece of three rooms by chance: all that a page must show is on it, and nothing lies over anything."""
    found = {name: faults_of(stages.stage(step.number)) for name, stages, step in islice(_some(fittings(3, 100)), 3)}
    assert len(found) == 3
    assert {name: faults for name, faults in found.items() if faults} == {}


@pytest.mark.parametrize(("seed", "number"), [(1009, 3), (4009, 6)])
def test_crowded_pages_have_no_faults(seed: int, number: int) -> None:
    """Two pages of rooms by chance with little room: words beside close-ups that stand side by side, and three covers
    in an alcove whose arrows all come from its middle.
    """
    stages = next(stages for _, stages, step in fittings(1, seed) if step.number == number)
    assert faults_of(stages.stage(number)) == ()


@pytest.mark.usefixtures("long_words")
@pytest.mark.parametrize(("room", "number"), [("bay", 4), ("l-room", 7)])
def test_longer_words_do_not_overflow(room: str, number: int) -> None:
    """Text 40 % longer overflows nothing and covers nothing, on the page of a piece between an elbow and a link and on
    that of two coupled pieces, whose close-ups stand side by side.
    """
    stages = stages_of(project_of(room), catalogue("de"))
    assert faults_of(stages.stage(number)) == ()


@pytest.mark.slow
@pytest.mark.parametrize("room", ROOMS)
def test_the_gallery_has_no_faults(room: str) -> None:
    """Every page of the gallery's rooms shows what it must, with nothing over anything, as it is built: each piece by
    the first approach that is free.
    """
    found = {number: faults_of(stage) for number, stage in _moved(room)}
    assert {number: faults for number, faults in found.items() if faults} == {}


@pytest.mark.slow
@pytest.mark.parametrize("language", [language for language in LANGUAGES if language != "en"])
@pytest.mark.parametrize("room", ["bay", "l-room"])
def test_other_languages_have_no_faults(room: str, language: str) -> None:
    """The same in every other language."""
    found = {number: faults_of(stage) for number, stage in _every(room, language)}
    assert {number: faults for number, faults in found.items() if faults} == {}


@pytest.mark.slow
@pytest.mark.usefixtures("long_words")
@pytest.mark.parametrize("room", ["bay", "l-room"])
def test_longer_words_overflow_nowhere(room: str) -> None:
    """The same with every word 40 % longer."""
    found = {number: faults_of(stage) for number, stage in _every(room, "de")}
    assert {number: faults for number, faults in found.items() if faults} == {}


@pytest.mark.slow
@pytest.mark.parametrize("first_seed", [0, 1000, 2000, 3000, 4000])
def test_fifty_rooms_by_chance_have_no_faults(first_seed: int) -> None:
    """Every page of fifty rooms by chance, ten a go."""
    found = {name: faults_of(stages.stage(step.number)) for name, stages, step in fittings(10, first_seed)}
    assert {name: faults for name, faults in found.items() if faults} == {}


@pytest.mark.usefixtures("long_words")
def test_every_text_comes_from_the_catalogue() -> None:
    """Whatever a page prints is in the catalogue: with every word of it marked, no word is without the mark."""
    stages = stages_of(project_of("l-room"), catalogue("de"))
    for number in (1, 2, 7, 8, 9, 10, 16):
        for text in printed(stages.stage(number)):
            assert unmarked(text) in ([], ["door"]), text


@pytest.mark.usefixtures("long_words")
def test_a_text_that_is_in_no_catalogue_is_found() -> None:
    """A text written by hand is without the mark."""
    assert unmarked("Push it on.") == ["Push"]
    assert [text for text in cached("de").texts.values() if unmarked(re.sub(r"\{[^}]*\}", "", text))] == []


def printed(stage: Stage) -> Iterator[str]:
    """Every text of a page, as it is set."""
    from model3d.pictures.bands import bands

    yield from (" ".join(text.block.lines) for text in bands(stage, THEME).texts)
    yield from (arrow.note for arrow in stage.arrows)
    for inset in stage.insets:
        yield inset.title
        yield from (callout.text for callout in inset.callouts)
        yield from (arrow.note for arrow in inset.arrows)


def test_what_stands_in_the_room_is_no_higher_than_its_walls() -> None:
    """A pipe from floor to ceiling is cut where the walls are cut."""
    stage = stages_of(project_of("faulty")).stage(1)
    tall = [solid for solid in placed(stage.actors, stage.meshes) if solid.look == "obstacle"]
    assert max(float(solid.vertices_mm[:, 2].max()) for solid in tall) > 2000.0
    bed = stage_bed(stage, THEME)
    low = [solid for solid in bed.rest.solids if solid.look == "obstacle"]
    assert len(low) == len(tall)
    assert max(float(solid.vertices_mm[:, 2].max()) for solid in low) == pytest.approx(THEME.wall_mm)
