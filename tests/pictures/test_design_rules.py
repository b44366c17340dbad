"""The rules of step-by-step instructions (Agrawala, Heiser and others, "Designing effective step-by-step assembly
instructions", 2003), one test a rule, on the steps of a real room.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from model3d.geometry.placement import dot, subtract
from model3d.pictures.compose import composed
from model3d.pictures.judging import inset_ids
from model3d.pictures.page import Page
from model3d.pictures.sight import NOTHING
from model3d.pictures.solids import placed
from model3d.pictures.stage import Look, Stage
from model3d.pictures.staging import StepStages
from model3d.pictures.theme import THEME
from model3d.pictures.viewpoint import AZIMUTHS_DEG
from model3d.pictures.views import direction
from model3d.steps import Step
from model3d.steps.moves import room_vector
from tests.pictures.pages import project_of, stages_of

STRONG: frozenset[Look] = frozenset({"new", "clip-front", "clip-back", "fitting", "hose", "valve"})
SHOWN = (5, 6)


@pytest.fixture(scope="module")
def fitting() -> tuple[StepStages, tuple[Step, ...]]:
    """The stages and steps of the room with the chimney breast and the bay."""
    project = project_of("bay")
    return stages_of(project), project.steps


@pytest.fixture(scope="module")
def pages(fitting: tuple[StepStages, tuple[Step, ...]]) -> list[tuple[Step, Stage, Page]]:
    """A piece between two links, and the next one, between a link and an elbow, laid out."""
    stages, steps = fitting
    made = [(steps[k - 1], stages.stage(k)) for k in SHOWN]
    return [(step, stage, composed(stage, THEME)) for step, stage in made]


def parts_seen(page: Page) -> set[str]:
    """Ids of what is seen anywhere on a page, 16 pixels of it or more in a close-up, or one cell of the picture."""
    cells = page.view.scene.id_map(page.view.camera, (800, 300))
    found = {page.view.solids[k].id for k in np.unique(cells[cells != NOTHING])}
    for inset in page.insets:
        numbers, counts = np.unique(inset_ids(inset), return_counts=True)
        ids = [(inset.view.solids[k].id, n) for k, n in zip(numbers, counts, strict=True) if k != NOTHING]
        found |= {i for i, n in ids if n >= 16}
    return found


def test_a_step_shows_the_parts_just_added_plainly(fitting: tuple[StepStages, tuple[Step, ...]]) -> None:
    """In every step what goes up wears strong colours, what is up already muted ones."""
    stages, steps = fitting
    for step in (s for s in steps if s.kind == "piece"):
        looks = {actor.id: actor.look for actor in stages.stage(step.number).actors}
        assert {looks[i] for i in step.travels} <= STRONG | {"o-ring"}
        others = {look for i, look in looks.items() if i not in step.travels and not i.endswith("/offered")}
        assert not others & STRONG - {"hose"}, step.title


def test_every_part_is_visible_when_it_is_added(pages: list[tuple[Step, Stage, Page]]) -> None:
    """Every part that a step adds is seen in its picture, in the close-ups if not in the large; of a link that goes
    round the corner, the half for the next piece is seen in the next picture.
    """
    unseen: set[str] = set()
    for step, _, page in pages:
        seen = parts_seen(page)
        assert unseen <= seen
        unseen = {*step.travels, *step.follows} - seen
        assert all("link" in i and "start" in i for i in unseen), step.title
    assert unseen == set()


def test_a_part_behind_another_is_missed(pages: list[tuple[Step, Stage, Page]]) -> None:
    """Without its close-ups, the page of a piece does not show every part that is added."""
    step, _, page = pages[0]
    assert {*step.travels, *step.follows} - parts_seen(replace(page, insets=())) != set()


def test_how_parts_attach_is_visible(pages: list[tuple[Step, Stage, Page]]) -> None:
    """Each joint has a close-up with guide lines into the bores, or a window onto the leg; its clip is in it."""
    for step, stage, _ in pages:
        assert len(stage.insets) == 2
        for inset in stage.insets:
            assert inset.guides or inset.notch
        clips = Counter(badge.text for inset in stage.insets for badge in inset.badges or ())
        faces = [i for i in step.travels if "/clip-" in i]
        assert sum(clips.values()) == len(faces)


def test_arrows_show_the_action(fitting: tuple[StepStages, tuple[Step, ...]]) -> None:
    """Every numbered line has an arrow of its number; each arrow of a leg runs the way the leg goes."""
    stages, steps = fitting
    for step in (s for s in steps if s.kind == "piece"):
        stage = stages.stage(step.number)
        arrows = [*stage.arrows, *(arrow for inset in stage.insets for arrow in inset.arrows)]
        assert {c.label for c in stage.frame.captions if c.label} <= {a.label for a in arrows}
        for arrow in stage.arrows:
            leg = step.legs[int(arrow.label) - 1]
            way = np.subtract(arrow.end_mm, arrow.start_mm)
            assert float(np.linalg.norm(way)) == pytest.approx(leg.length_mm, abs=1e-6)
            out = float(np.dot(way, stage.facing))
            assert out == pytest.approx(leg.to_mm[1] - leg.from_mm[1], abs=1e-6)


def test_each_arrow_starts_where_the_piece_then_is(fitting: tuple[StepStages, tuple[Step, ...]]) -> None:
    """The first leg's arrow starts on the piece as it is drawn; the arrow of each later leg on the piece where the leg
    before it has brought it, and each leg begins where the one before it ended.
    """
    stages, steps = fitting
    pieces = {piece.mark: piece for piece in project_of("bay").layout.pieces}
    for step in (s for s in steps if s.kind == "piece"):
        stage = stages.stage(step.number)
        boxes = {solid.id: solid.vertices_mm for solid in placed(stage.actors, stage.meshes)}
        drawn = np.concatenate([boxes[i] for i in stage.subjects])
        offered = np.concatenate([found for i, found in boxes.items() if i.endswith("/offered")])
        assert all(leg.from_mm == before.to_mm for before, leg in pairwise(step.legs))
        piece = pieces[step.pieces[0]]
        for arrow in stage.arrows:
            leg = step.legs[int(arrow.label) - 1]
            since = room_vector(piece, subtract(leg.from_mm, step.legs[0].to_mm))
            there = drawn if leg.name == "offer" else offered + since
            assert (arrow.start_mm >= there.min(axis=0) - 1e-6).all(), (step.title, arrow.label)
            assert (arrow.start_mm <= there.max(axis=0) + 1e-6).all(), (step.title, arrow.label)


def test_the_viewpoint_stays_put(pages: list[tuple[Step, Stage, Page]]) -> None:
    """From step to step the viewer stands the same way to the wall: at one of the six bearings off its normal, at the
    same height.
    """
    for _, stage, page in pages:
        camera = page.view.camera
        toward = np.subtract(camera.eye_mm, camera.target_mm)
        toward = toward / np.linalg.norm(toward)
        usual = [direction(stage.facing, azimuth, THEME.elevation_deg) for azimuth in AZIMUTHS_DEG]
        unit = (float(toward[0]), float(toward[1]), float(toward[2]))
        assert max(dot(unit, way) for way in usual) == pytest.approx(1.0, abs=1e-6)


def test_order_by_how_people_group_things(fitting: tuple[StepStages, tuple[Step, ...]]) -> None:
    """Of each run: brackets, then its pieces one after the other along the walls, then the test, then the covers."""
    _, steps = fitting
    order = ["brackets", "piece", "pressure-test", "covers"]
    for run in ("A", "B"):
        kinds = [order.index(s.kind) for s in steps if s.run == run]
        assert kinds == sorted(kinds)
        marks = [mark for s in steps if s.run == run for mark in s.pieces]
        assert marks == sorted(marks, key=lambda mark: int(mark.split("-")[1]))
