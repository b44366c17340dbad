"""Films written, and refused."""

from __future__ import annotations

import sys
from collections.abc import Generator, Iterator
from pathlib import Path
from types import SimpleNamespace

import pytest
from PIL import Image

from model3d.build.filming import NothingToFilmError, UnprovedError, Wanted, film
from model3d.build.project import load
from model3d.pictures.moving.reel import NoVideoError, refuse_ending, write_film

GALLERY = Path(__file__).parents[3] / "gallery"
SHOTS = [(Image.new("RGB", (40, 30), colour), 80 * (k + 1)) for k, colour in enumerate(("red", "green", "blue"))]


@pytest.mark.parametrize("name", ["film.webp", "film.apng", "film.png"])
def test_frames(name: str, tmp_path: Path) -> None:
    """A film has every frame for its time, and says that it goes round."""
    write_film(tmp_path / name, SHOTS)
    with Image.open(tmp_path / name) as image:
        assert image.n_frames == 3
        times = []
        for k in range(3):
            image.seek(k)
            image.load()
            times.append(round(image.info["duration"]))
    assert times == [80, 160, 240]
    assert [p.name for p in tmp_path.iterdir()] == [name]


def test_endings(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another ending is refused with those there are; MP4 without its extra with the extra's name; no frame as such."""
    with pytest.raises(ValueError, match=r"film\.gif: a moving picture ends in \.webp"):
        write_film(tmp_path / "film.gif", SHOTS)
    monkeypatch.setattr("model3d.pictures.moving.reel.find_spec", lambda _name: None)
    with pytest.raises(NoVideoError, match="extra 'video'"):
        refuse_ending(tmp_path / "film.mp4")
    with pytest.raises(ValueError, match="nothing to show"):
        write_film(tmp_path / "film.webp", [])
    assert list(tmp_path.iterdir()) == []


def test_a_video_is_put_in_place_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An MP4 has every frame for its time, at twelve a second; one that fails on the way leaves nothing."""
    sent: list[int] = []

    def write_frames(path: str, _size: tuple[int, int], **_how: object) -> Generator[None, bytes, None]:
        Path(path).write_bytes(b"begun")
        while True:
            frame = yield
            sent.append(len(frame))

    stand_in = SimpleNamespace(write_frames=write_frames)
    monkeypatch.setitem(sys.modules, "imageio_ffmpeg", stand_in)
    monkeypatch.setattr("model3d.pictures.moving.reel.find_spec", lambda _name: stand_in)
    write_film(tmp_path / "film.mp4", SHOTS)
    assert sent == [40 * 30 * 3] * (1 + 2 + 3)
    assert [p.name for p in tmp_path.iterdir()] == ["film.mp4"]

    def failing() -> Iterator[tuple[Image.Image, int]]:
        yield SHOTS[0]
        raise RuntimeError("no more")

    with pytest.raises(RuntimeError, match="no more"):
        write_film(tmp_path / "other.mp4", failing())
    with pytest.raises(ValueError, match="nothing to show"):
        write_film(tmp_path / "none.mp4", [])
    assert [p.name for p in tmp_path.iterdir()] == ["film.mp4"]


def test_nothing_there(tmp_path: Path) -> None:
    """A step in which no piece goes up, and a corner without a joint, are refused with what there is; nothing is
    written.
    """
    project = load(GALLERY / "faulty" / "plan.yaml")
    with pytest.raises(NothingToFilmError, match="no piece goes up in step 1: pieces go up in 2"):
        film(project, Wanted(step=1), tmp_path / "film.webp")
    with pytest.raises(NothingToFilmError, match="no joint stands at a corner c99"):
        film(project, Wanted(corner="c99"), tmp_path / "film.webp")
    assert list(tmp_path.iterdir()) == []


def test_blocked_is_not_shown(tmp_path: Path) -> None:
    """A move that the check found blocked is not shown, and what stops it is said."""
    project = load(GALLERY / "faulty" / "plan.yaml")
    with pytest.raises(UnprovedError, match="does not go"):
        film(project, Wanted(), tmp_path / "film.webp")
    assert list(tmp_path.iterdir()) == []
