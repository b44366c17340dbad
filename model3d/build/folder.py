"""The output folder, all or nothing: built beside its place, then put there in one move.

While it is built the folder is called ``.NAME.part-`` and twelve hex digits, so a build that was broken off
cannot be taken for a whole one; the next build of the same folder clears it away. What stood there before
is kept as ``.NAME.old-...`` until the new folder is in place, and comes back if the move fails.
"""

from __future__ import annotations

import json
import re
import secrets
import shutil
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

MANIFEST = ".dryfit.json"
SCHEMA = "dryfit-folder-1"
# Put into folders by file browsers, not by people.
_BROWSER_FILES = frozenset({".ds_store", "thumbs.db", "desktop.ini"})
_RENAME_TRIES = 6
_RENAME_WAIT_S = 0.05


class FolderError(Exception):
    """The output folder cannot be made or replaced; the message says why and what to do."""


@contextmanager
def new_folder(target: Path) -> Iterator[Path]:
    """A fresh folder to build into: it becomes ``target`` at the end, or is cleared away if the block raises.

    A folder that an earlier build left at ``target`` is replaced whole. Raises FolderError, before anything
    is built, when ``target`` is a file, or a folder that holds anything dryfit did not put there; at the
    end, when it has become so, when another build of the same folder has cleared this one away, or when it
    cannot be moved into place. The folder holds one file from the start, its manifest ``.dryfit.json``.
    """
    target = target.resolve()
    if not target.name:
        raise FolderError(f"{target} is a whole drive: name a folder in it")
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        _recover(target)
        _refuse_foreign(target)
        part = _sibling(target, "part")
        part.mkdir()
        _write_manifest(part, None)
    except OSError as reason:
        raise FolderError(f"cannot make a folder beside {target}: {reason}") from reason
    try:
        yield part
        _finish(part, target)
    except BaseException:
        _discard(part)
        raise


def made_here(folder: Path) -> frozenset[str] | None:
    """The files dryfit put into ``folder``, relative, with ``/``; None when dryfit did not make it."""
    try:
        content = json.loads((folder / MANIFEST).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return None
    files = content.get("files") if isinstance(content, dict) and content.get("schema") == SCHEMA else None
    if not isinstance(files, list) or not all(isinstance(file, str) for file in files):
        return None
    return frozenset(files)


def _finish(part: Path, target: Path) -> None:
    if not (part / MANIFEST).is_file():
        raise FolderError(f"another build of {target} cleared this one away; its files stand")
    _write_manifest(part, sorted(set(_files(part)) - {MANIFEST}))
    _refuse_foreign(target)
    try:
        _swap(part, target)
    except OSError as reason:
        raise FolderError(
            f"cannot put the finished folder at {target}: {reason}. Close what holds it open, and build again"
        ) from reason


def _swap(part: Path, target: Path) -> None:
    """Put ``part`` at ``target``; what stood there stays whole, in place or aside, until then."""
    old = _sibling(target, "old")
    try:
        if target.exists():
            _rename(target, old)
        _rename(part, target)
    except BaseException:
        if old.exists() and not target.exists():
            _rename(old, target)
        raise
    _discard(old)


def _recover(target: Path) -> None:
    """Bring back an old folder whose replacement never arrived, and clear away what broken builds left."""
    kept = _leftovers(target, "old")
    if kept and not target.exists():
        _rename(max(kept, key=lambda folder: folder.stat().st_mtime), target)
    for kind in ("part", "old", "gone"):
        for folder in _leftovers(target, kind):
            _discard(folder)


def _refuse_foreign(target: Path) -> None:
    if not target.exists():
        return
    if not target.is_dir():
        raise FolderError(f"{target} is a file: give the name of a folder")
    present = {file for file in _files(target) if file.rsplit("/", 1)[-1].lower() not in _BROWSER_FILES}
    if not present:
        return
    ours = made_here(target)
    if ours is None:
        raise FolderError(f"{target} is not empty and was not made by dryfit: give another folder, or empty it")
    if foreign := sorted(present - ours - {MANIFEST}):
        shown = ", ".join(foreign[:3]) + (f" and {len(foreign) - 3} more" if len(foreign) > 3 else "")
        raise FolderError(f"{target} holds files that dryfit did not make ({shown}): move them, or give another folder")


def _files(folder: Path) -> Iterator[str]:
    for path in folder.rglob("*"):
        if path.is_symlink() or not path.is_dir():
            yield path.relative_to(folder).as_posix()


def _sibling(target: Path, kind: str) -> Path:
    return target.with_name(f".{target.name}.{kind}-{secrets.token_hex(6)}")


def _leftovers(target: Path, kind: str) -> list[Path]:
    pattern = re.compile(rf"\.{re.escape(target.name)}\.{kind}-[0-9a-f]{{12}}")
    return [path for path in target.parent.iterdir() if pattern.fullmatch(path.name) and path.is_dir()]


def _discard(folder: Path) -> None:
    """Clear a folder away as far as the system allows; renamed first, so that no build goes on in it."""
    gone = folder.with_name(re.sub(r"(part|old)(-[0-9a-f]{12})$", r"gone\2", folder.name))
    try:
        _rename(folder, gone)
    except OSError:
        return
    shutil.rmtree(gone, ignore_errors=True)


def _rename(source: Path, goal: Path) -> None:
    """Rename a folder; tried again for a moment where another program (a virus scanner) holds it."""
    for left in reversed(range(_RENAME_TRIES)):
        try:
            source.replace(goal)
            return
        except PermissionError:
            if not left:
                raise
            time.sleep(_RENAME_WAIT_S)


def _write_manifest(folder: Path, files: list[str] | None) -> None:
    content = json.dumps({"schema": SCHEMA, "files": files}, ensure_ascii=False, indent=1)
    (folder / MANIFEST).write_text(content + "\n", encoding="utf-8", newline="\n")
