"""Where films are seen from, and the words on them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from typer.testing import CliRunner

from model3d.build.project import Project, load
from model3d.cli.animating import app
from model3d.pictures.lettering import set_text
from model3d.pictures.moving.filming import LENS_PX, STEP_PX, Film
from model3d.pictures.moving.reel import HEAD_PX, LEGEND_HIGH_PX, TEXT_HIGH_PX, TEXT_PX, TITLE_PX, fitted
from model3d.pictures.moving.take import Take, frames, standing
from model3d.pictures.sight import RayScene
from model3d.pictures.stage import ROOM_LOOKS
from model3d.pictures.theme import THEME
from model3d.pictures.views import project as projected
from model3d.wording import ENGLISH, LANGUAGES, Language, catalogue
from tests.cli.running import written


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> Project:
    """A room with one run round three internal corners."""
    return load(written(tmp_path_factory.mktemp("films")))


@pytest.fixture(scope="module")
def take(plain: Project) -> Take:
    """The second piece, between two elbow corners."""
    found = Film(plain.layout, plain.scene, plain.steps, plain.family, THEME).step(3)
    assert found is not None
    return found


def strays(take: Take) -> Iterator[str]:
    """Parts that move and leave the picture in some frame."""
    moving = {player.part.id for player in take.players}
    for number, frame in enumerate(frames(take)):
        for solid in (s for s in frame.solids if s.id in moving):
            x, y = projected(take.camera, solid.vertices_mm, *take.size_px)[:, :2].T
            if x.min() < 0 or y.min() < 0 or x.max() > take.size_px[0] or y.max() > take.size_px[1]:
                yield f"{solid.id} in frame {number}"


def test_nothing_that_moves_leaves_the_picture(take: Take) -> None:
    """Every part that moves is wholly in every frame of its step."""
    assert list(strays(take)) == []


def test_what_leaves_the_picture_is_found(take: Take) -> None:
    """A camera that comes a third nearer loses some of it."""
    near = tuple(t + 0.66 * (e - t) for e, t in zip(take.camera.eye_mm, take.camera.target_mm, strict=True))
    assert list(strays(replace(take, camera=replace(take.camera, eye_mm=(near[0], near[1], near[2])))))


def test_the_close_up_shows_the_joint(take: Take) -> None:
    """In every close-up some of the fittings of its joint is seen, not only what stands before it."""
    assert take.lens is not None
    solids = [s for s in (*take.still, *map(standing, take.players)) if s.look not in ROOM_LOOKS]
    scene = RayScene(solids)
    joint = scene.numbers([s.id for s in solids if s.look in ("fitting", "clip-front", "clip-back", "waiting")])
    for camera in dict.fromkeys(take.lens.cameras.values()):
        assert np.isin(scene.id_map(camera, (LENS_PX, LENS_PX)), joint).sum() > 100


@pytest.mark.parametrize("language", LANGUAGES)
def test_captions_fit_their_band(plain: Project, language: Language) -> None:
    """Titles, captions and what a clip's colour says fit their bands, 40 % longer as well."""
    for step in replace(plain, language=language).steps:
        for text in (step.title, *(a.text for a in step.actions)):
            for said in (text, text + " §" + "w" * round(0.4 * len(text) / 3) + " §" * 3):
                assert fitted(said, TEXT_PX, (STEP_PX[0] - 96.0, TEXT_HIGH_PX)).height_px <= TEXT_HIGH_PX
                assert fitted(said, TITLE_PX, (STEP_PX[0] - 48.0, HEAD_PX - 16.0), bold=True).height_px <= HEAD_PX
    for words in (ENGLISH, catalogue("de")):
        said = words.say("legend.clip-front")
        assert fitted(said, 17.0, (400.0, LEGEND_HIGH_PX)).height_px <= LEGEND_HIGH_PX


def test_a_caption_that_does_not_fit_is_set_smaller() -> None:
    """Text that would be too high as it is usually set is set smaller until it is not."""
    text = "Push the piece along until it clicks, and then press it to the wall at both of its ends. " * 2
    most = (STEP_PX[0] - 96.0, TEXT_HIGH_PX)
    assert set_text(text, TEXT_PX, most[0]).height_px > most[1]
    assert fitted(text, TEXT_PX, most).height_px <= most[1]


def test_an_unknown_theme_is_refused(tmp_path: Path) -> None:
    """A theme that is not there is refused before anything is checked; nothing is written."""
    plan = str(written(tmp_path))
    done = CliRunner().invoke(app, ["animate", plan, "--out", str(tmp_path / "f.webp"), "--theme", "prnt"])
    assert done.exit_code == 2
    assert "unknown theme 'prnt'" in done.stderr
    assert not (tmp_path / "f.webp").exists()
