"""What a build writes: which files, in which order, from what, all of them or none."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from model3d.build import outputs
from model3d.build.folder import FolderError
from model3d.build.outputs import BuildError, build_outputs
from model3d.build.project import Project, load
from model3d.drawings import plan_svg
from model3d.layout import layout_data
from model3d.pictures import opengl

GALLERY = Path(__file__).parents[2] / "gallery"
SMALL = Path(__file__).parents[1] / "cli" / "small.yaml"
ALL = frozenset({"step", "stl", "room", "steps", "plan", "layout"})
Said = list[tuple[str, int, int]]


@pytest.fixture(scope="module")
def l_room() -> Project:
    """The L-shaped room of the gallery."""
    return load(GALLERY / "l-room" / "plan.yaml")


def quiet(_now: str, _done: int, _of: int) -> None:
    """Nothing is said."""


def build(project: Project, out: Path, *only: str) -> tuple[str, ...]:
    """Build some kinds of file."""
    return build_outputs(project, out, only=frozenset(only), tick=quiet)


def names(folder: Path) -> list[str]:
    """The names of everything in a folder, in order."""
    return sorted(p.name for p in folder.iterdir())


def test_layout_and_plan(l_room: Project, tmp_path: Path) -> None:
    """``layout.json`` holds the layout's data and ``plan.svg`` the dimensioned plan, as UTF-8 with plain line ends."""
    assert build(l_room, tmp_path / "out", "layout", "plan") == ("layout.json", "plan.svg")
    written = (tmp_path / "out" / "layout.json").read_bytes()
    assert json.loads(written) == json.loads(json.dumps(layout_data(l_room.layout)))
    assert written.endswith(b"}\n")
    assert b"\r" not in written
    drawn = (tmp_path / "out" / "plan.svg").read_bytes().decode("utf-8")
    assert drawn == plan_svg(l_room.plan, l_room.layout, l_room.family)


def test_steps_come_to_their_pictures_rated(l_room: Project) -> None:
    """Every step that puts pieces up says how hard it is, and no other step does."""
    for step in l_room.moved_steps:
        assert (step.difficulty is not None) == (step.kind == "piece"), step.title
        if step.difficulty is not None:
            assert 1 <= step.difficulty.level <= 5


def test_the_same_plan_gives_the_same_bytes(l_room: Project, tmp_path: Path) -> None:
    """Two builds of one plan give the same files, byte by byte."""
    for name in ("one", "two"):
        build(load(l_room.plan.path), tmp_path / name, "layout", "plan")
    for file in ("layout.json", "plan.svg"):
        assert (tmp_path / "one" / file).read_bytes() == (tmp_path / "two" / file).read_bytes()


def test_model_and_meshes(tmp_path: Path) -> None:
    """``model.step`` and ``stl/`` come from the solids, the same bytes each time, and are named in order."""
    project = load(SMALL)
    first = build(project, tmp_path / "one", "step", "stl")
    assert first[0] == "model.step"
    assert len(first) > 10
    assert all(name.startswith("stl/") for name in first[1:])
    assert list(first) == sorted(first)
    assert build(project, tmp_path / "two", "step") == ("model.step",)
    files = [(tmp_path / folder / "model.step").read_bytes() for folder in ("one", "two")]
    assert files[0] == files[1]
    assert files[0].startswith(b"ISO-10303-21;")


def recorded(monkeypatch: pytest.MonkeyPatch, fail: str = "") -> list[str]:
    """What is written, by name, when nothing but names is; the job called ``fail`` raises."""
    done: list[str] = []

    def writer(name: str) -> object:
        def write(_project: Project, folder: Path) -> None:
            if name == fail:
                raise OSError("the disk is full")
            done.append(name)
            (folder / name).write_text(name, encoding="utf-8")

        return write

    for name in ("layout", "plan", "step", "stl", "room"):
        monkeypatch.setattr(outputs, f"_{name}", writer(name))
    return done


def test_only_what_is_asked_for_in_one_order(l_room: Project, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever kinds are asked for are written, numbers before solids before pictures, and no others."""
    done = recorded(monkeypatch)
    for only, want in (
        (("room", "plan"), ["plan", "room"]),
        (("stl", "layout"), ["layout", "stl"]),
        (("step", "stl", "room", "plan", "layout"), ["layout", "plan", "step", "stl", "room"]),
    ):
        done.clear()
        assert build(l_room, tmp_path / "out", *only) == tuple(sorted(want))
        assert done == want


def test_progress(l_room: Project, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Progress names what is done now, counts from 0 and ends with all done."""
    recorded(monkeypatch)
    said: Said = []
    build_outputs(l_room, tmp_path / "out", only=frozenset({"layout", "step"}), tick=lambda *told: said.append(told))
    assert said == [("layout.json", 0, 2), ("model.step", 1, 2), ("done", 2, 2)]


@pytest.mark.parametrize("before", [False, True])
def test_all_or_nothing(l_room: Project, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, before: bool) -> None:
    """When one file cannot be written, the folder is as it was before, or not there."""
    recorded(monkeypatch, fail="stl")
    if before:
        build(l_room, tmp_path / "out", "plan")
    with pytest.raises(OSError, match="disk is full"):
        build(l_room, tmp_path / "out", "layout", "step", "stl")
    assert names(tmp_path) == (["out"] if before else [])
    assert not before or names(tmp_path / "out") == [".dryfit.json", "plan"]


def test_a_foreign_folder_is_refused_before_anything_is_done(
    l_room: Project, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A folder that is not ours is refused before the first file is written."""
    done = recorded(monkeypatch)
    (tmp_path / "mine.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(FolderError, match="not made by dryfit"):
        build(l_room, tmp_path, "layout")
    assert done == []
    assert names(tmp_path) == ["mine.txt"]


def test_step_pictures_without_opengl(l_room: Project, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where there is no OpenGL, step pictures are refused in one line that says what to leave out, before any work;
    all else builds.
    """
    recorded(monkeypatch)

    def none() -> None:
        raise opengl.NoOpenGLError("no OpenGL here")

    monkeypatch.setattr(opengl, "ready", none)
    with pytest.raises(BuildError, match=r"^no OpenGL here .*--only layout\)$"):
        build(l_room, tmp_path / "out", *ALL)
    assert names(tmp_path) == []
    assert len(build(l_room, tmp_path / "out", *(ALL - {"steps"}))) == 5


def test_a_picture_for_every_step(l_room: Project, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """There is one picture for each step, by its number, with as many digits as keep them in order."""
    from model3d.pictures import staging, step

    class Numbers:
        def __init__(self, *_all: object) -> None:
            pass

        def stage(self, number: int) -> int:
            return number

    monkeypatch.setattr(opengl, "ready", lambda: None)
    monkeypatch.setattr(staging, "StepStages", Numbers)
    monkeypatch.setattr(step, "step_picture", lambda number: str(number).encode())
    found = build(l_room, tmp_path / "out", "steps")
    assert found == tuple(f"steps/step-{n:02d}.png" for n in range(1, len(l_room.steps) + 1))
    assert [(tmp_path / "out" / name).read_text(encoding="utf-8") for name in found] == [
        str(s.number) for s in l_room.steps
    ]
    monkeypatch.setattr(Project, "steps", l_room.steps * 8)
    many = build(load(l_room.plan.path), tmp_path / "more", "steps")
    assert len(l_room.steps) * 8 > 99
    assert all(len(name) == len("steps/step-001.png") for name in many)


def test_a_room_too_large_to_draw(tmp_path: Path) -> None:
    """A room that fits no sheet of paper is a reason given in one line, not a fault of dryfit's own."""
    plan = tmp_path / "plan.yaml"
    text = SMALL.read_text(encoding="utf-8").replace("[1500, 0], [1500, 1200]", "[90 m, 0], [90 m, 1200]")
    plan.write_text(text, encoding="utf-8")
    with pytest.raises(BuildError, match="90200 x 1400 mm is too large"):
        build(load(plan), tmp_path / "out", "plan")
    assert names(tmp_path) == ["plan.yaml"]
