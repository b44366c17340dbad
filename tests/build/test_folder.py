"""The output folder: all or nothing."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from model3d.build import folder as folder_module
from model3d.build.folder import MANIFEST, FolderError, made_here, new_folder

HOME = Path(__file__).parents[2]


def _build(target: Path, text: str = "new") -> None:
    with new_folder(target) as part:
        (part / "stl").mkdir()
        (part / "stl" / "Stück é.stl").write_text(text, encoding="utf-8")
        (part / "layout.json").write_text(text, encoding="utf-8")


def _holds(target: Path, text: str) -> bool:
    """Whether ``target`` is a whole build of ``text``."""
    return made_here(target) == frozenset({"layout.json", "stl/Stück é.stl"}) and all(
        (target / name).read_text(encoding="utf-8") == text for name in ("layout.json", "stl/Stück é.stl")
    )


def _names(parent: Path) -> list[str]:
    return sorted(path.name for path in parent.iterdir())


@pytest.fixture
def target(tmp_path: Path) -> Path:
    """An output folder that is not there yet, with spaces and letters outside ASCII on its way."""
    return tmp_path / "Süd wall 南" / "out put é"


def test_folder_appears_whole(target: Path) -> None:
    """Nothing stands at the place until the build ends; then all of it does, and nothing beside it."""
    with new_folder(target) as part:
        (part / "a.txt").write_text("a", encoding="utf-8")
        assert not target.exists()
        assert part.parent == target.parent
        assert part.name.startswith(f".{target.name}.part-")
    assert _names(target) == [MANIFEST, "a.txt"]
    assert _names(target.parent) == [target.name]


def test_old_result_is_replaced_whole(target: Path) -> None:
    """A second build replaces the first: files no longer made are gone, and nothing is left beside it."""
    with new_folder(target) as part:
        (part / "room.png").write_text("old", encoding="utf-8")
    _build(target)
    assert _holds(target, "new")
    assert not (target / "room.png").exists()
    assert _names(target.parent) == [target.name]


def test_old_result_stands_while_the_new_one_is_built(target: Path) -> None:
    """Until the build ends, the old folder is there as it was."""
    _build(target, "old")
    with new_folder(target) as part:
        (part / "layout.json").write_text("new", encoding="utf-8")
        assert _holds(target, "old")


@pytest.mark.parametrize("reason", [RuntimeError, KeyboardInterrupt, SystemExit])
@pytest.mark.parametrize("before", [True, False])
def test_failed_build_changes_nothing(target: Path, reason: type[BaseException], before: bool) -> None:
    """A build that raises or is interrupted leaves the old folder whole, or none, never half a one."""
    if before:
        _build(target, "old")

    def fail() -> None:
        with new_folder(target) as part:
            (part / "layout.json").write_text("half", encoding="utf-8")
            raise reason("broken off")

    with pytest.raises(reason, match="broken off"):
        fail()
    assert _names(target.parent) == ([target.name] if before else [])
    assert not before or _holds(target, "old")


_KILLED_WHILE_BUILDING = """
import sys, time
from pathlib import Path
from model3d.build.folder import new_folder
with new_folder(Path(sys.argv[1])) as part:
    (part / "layout.json").write_text("half", encoding="utf-8")
    print("building", flush=True)
    time.sleep(60)
"""
# os._exit ends the process as a kill does: no block is left, nothing is cleared away.
_KILLED_WHILE_SWAPPING = """
import os, sys
from pathlib import Path
import model3d.build.folder as folder
moves, rename = [], folder._rename
def watched(source, goal):
    if len(moves) == int(sys.argv[2]):
        os._exit(9)
    moves.append(goal)
    rename(source, goal)
folder._rename = watched
with folder.new_folder(Path(sys.argv[1])) as part:
    (part / "stl").mkdir()
    (part / "stl" / "Stück é.stl").write_text("late", encoding="utf-8")
    (part / "layout.json").write_text("late", encoding="utf-8")
"""


@pytest.mark.parametrize("before", [True, False])
def test_killed_build_leaves_nothing_that_looks_whole(target: Path, before: bool) -> None:
    """Killed outright in the middle, a build leaves the old folder or none, and a part known as such."""
    if before:
        _build(target, "old")
    command = [sys.executable, "-c", _KILLED_WHILE_BUILDING, str(target)]
    with subprocess.Popen(command, cwd=HOME, stdout=subprocess.PIPE, text=True) as build:
        assert build.stdout is not None
        assert build.stdout.readline().strip() == "building"
        build.kill()
    (left,) = [name for name in _names(target.parent) if name != target.name]
    assert left.startswith(f".{target.name}.part-")
    assert made_here(target.parent / left) is None
    assert _holds(target, "old") if before else not target.exists()
    _build(target)
    assert _holds(target, "new")
    assert _names(target.parent) == [target.name]


@pytest.mark.parametrize(
    ("moves_done", "standing"),
    [(0, "old"), (1, None), (2, "late"), (3, "late")],
)
def test_killed_while_swapping(target: Path, moves_done: int, standing: str | None) -> None:
    """Killed between any two moves of the swap: what stands is whole or nothing, and nothing is lost."""
    _build(target, "old")
    command = [sys.executable, "-c", _KILLED_WHILE_SWAPPING, str(target), str(moves_done)]
    done = subprocess.run(command, cwd=HOME, check=False)
    assert done.returncode == (9 if moves_done < 3 else 0)
    assert _holds(target, standing) if standing else not target.exists()

    def fail() -> None:
        with new_folder(target):
            raise RuntimeError("broken off")

    with pytest.raises(RuntimeError):
        fail()
    assert _holds(target, standing or "old")
    assert _names(target.parent) == [target.name]


def test_failed_move_brings_the_old_folder_back(target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When the new folder cannot be moved into place, the old one comes back, and the reason is said."""
    _build(target, "old")
    real = Path.replace

    def held(self: Path, goal: Path) -> Path:
        if ".part-" in self.name and goal == target.resolve():
            raise PermissionError(13, "in use")
        return real(self, goal)

    monkeypatch.setattr(Path, "replace", held)
    monkeypatch.setattr(folder_module, "_RENAME_WAIT_S", 0.0)
    with pytest.raises(FolderError, match="in use"):
        _build(target)
    assert _holds(target, "old")
    assert _names(target.parent) == [target.name]


def test_move_is_tried_again(target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder that another program holds for a moment is moved as soon as it is let go."""
    refusals = [PermissionError(13, "in use")] * 3
    real = Path.replace

    def held(self: Path, goal: Path) -> Path:
        if refusals:
            raise refusals.pop()
        return real(self, goal)

    monkeypatch.setattr(Path, "replace", held)
    monkeypatch.setattr(folder_module, "_RENAME_WAIT_S", 0.0)
    _build(target)
    assert refusals == []
    assert _holds(target, "new")


def _never(target: Path) -> None:
    with new_folder(target):
        raise AssertionError("the build began")


def test_foreign_folder_is_refused(target: Path) -> None:
    """A folder that dryfit did not make is refused before the build, and left as it was."""
    target.mkdir(parents=True)
    (target / "taxes.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(FolderError, match="not made by dryfit"):
        _never(target)
    assert _names(target) == ["taxes.txt"]
    assert _names(target.parent) == [target.name]


@pytest.mark.parametrize(
    "content", ["", "{}", "[]", '{"schema": "other-1", "files": []}', '{"schema": "dryfit-folder-1"}']
)
def test_manifest_of_another_kind_does_not_count(target: Path, content: str) -> None:
    """A manifest that is empty, of another schema or not finished does not make a folder ours."""
    target.mkdir(parents=True)
    (target / MANIFEST).write_text(content, encoding="utf-8")
    (target / "a.txt").write_text("mine", encoding="utf-8")
    assert made_here(target) is None
    with pytest.raises(FolderError, match="not made by dryfit"):
        _never(target)


def test_files_put_there_by_hand_are_not_lost(target: Path) -> None:
    """A file someone has put into our folder since is not thrown away: it stops the next build by name."""
    _build(target, "old")
    (target / "steps").mkdir()
    (target / "steps" / "my notes.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(FolderError, match=r"steps/my notes\.txt"):
        _never(target)
    (target / "steps" / "my notes.txt").unlink()
    (target / ".DS_Store").write_text("", encoding="utf-8")
    _build(target)
    assert _holds(target, "new")


def test_files_put_there_during_the_build_are_not_lost(target: Path) -> None:
    """A file that appears in the old folder while the new one is built stops the swap."""
    _build(target, "old")

    def late() -> None:
        with new_folder(target):
            (target / "late.txt").write_text("mine", encoding="utf-8")

    with pytest.raises(FolderError, match=r"late\.txt"):
        late()
    assert (target / "late.txt").exists()


def test_empty_folder_is_taken(target: Path) -> None:
    """An empty folder is as good as none."""
    target.mkdir(parents=True)
    _build(target)
    assert _holds(target, "new")
    assert _names(target.parent) == [target.name]


def test_file_in_the_way_is_refused(target: Path) -> None:
    """A file at the place of the folder, or of a folder above it, is refused and kept."""
    target.parent.mkdir(parents=True)
    target.write_text("mine", encoding="utf-8")
    with pytest.raises(FolderError, match="is a file"):
        _never(target)
    with pytest.raises(FolderError, match="cannot make a folder"):
        _never(target / "below")
    assert target.read_text(encoding="utf-8") == "mine"


def test_whole_drive_is_refused() -> None:
    """The top of a drive is no output folder."""
    with pytest.raises(FolderError, match="whole drive"):
        _never(Path(Path.cwd().anchor))


def test_relative_and_winding_paths(target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A relative path with a step up in it means the folder it led to, wherever the build goes meanwhile."""
    target.parent.mkdir(parents=True)
    monkeypatch.chdir(target.parent)
    with new_folder(Path("x") / ".." / "out put é") as part:
        os.chdir(target.parent.parent)
        (part / "a.txt").write_text("a", encoding="utf-8")
    assert _names(target) == [MANIFEST, "a.txt"]


def test_leftovers_of_other_folders_are_left_alone(target: Path) -> None:
    """Only this folder's own leftovers are cleared away: not another's, nor what merely looks alike."""
    target.parent.mkdir(parents=True)
    alike = [".other.part-0123456789ab", f".{target.name}.part-mine", f".{target.name}.part-0123456789abc"]
    for name in (*alike, f".{target.name}.part-0123456789ab"):
        (target.parent / name).mkdir()
    _build(target)
    assert _names(target.parent) == sorted([*alike, target.name])


def test_second_build_of_one_folder_wins(target: Path) -> None:
    """When a second build of a folder starts while one runs, the first says so and puts nothing there."""

    def first() -> None:
        with new_folder(target) as part:
            _build(target, "second")
            part.mkdir(exist_ok=True)
            (part / "layout.json").write_text("first", encoding="utf-8")

    with pytest.raises(FolderError, match="another build"):
        first()
    assert _holds(target, "second")
    assert _names(target.parent) == [target.name]


def test_manifest_lists_the_files(target: Path) -> None:
    """The manifest names its schema and every file of the folder, in order, with forward slashes."""
    _build(target)
    content = json.loads((target / MANIFEST).read_text(encoding="utf-8"))
    assert content == {"schema": "dryfit-folder-1", "files": ["layout.json", "stl/Stück é.stl"]}
