"""Families found by name or by path, and read: a family whose file or whose numbers are wrong is refused with line and
key."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from model3d.families.family import Family
from model3d.families.refusals import Limits, Refusal, refusals
from model3d.sources import Fault, FaultyFile, MarkedList, MarkedMap, Place, near_miss, read_typed

SUFFIX = ".yaml"


class UnknownFamily(Exception):
    """No family of that name, no file at that path; the message names the known ones."""


def profiles_folder() -> Path:
    """Where the packaged families are: inside the installed package, in a checkout beside it."""
    package = Path(__file__).resolve().parent.parent
    installed = package / "profiles"
    return installed if installed.is_dir() else package.parent / "profiles"


def known_families() -> tuple[str, ...]:
    """The names of the packaged families, in order."""
    return tuple(sorted(path.stem for path in profiles_folder().glob(f"*{SUFFIX}")))


def find_family(name_or_path: str, relative_to: Path | None = None) -> Path:
    """The file of a family: a packaged one by its name, any other by its path.

    A relative path starts from the folder ``relative_to`` (a plan's own folder), of itself from the current one. Raises
    UnknownFamily when there is neither.
    """
    known = known_families()
    if name_or_path in known:
        return profiles_folder() / f"{name_or_path}{SUFFIX}"
    written = Path(name_or_path)
    path = written if relative_to is None else relative_to / written
    if path.is_file():
        return path
    listed = ", ".join(known)
    if written.suffix.lower() in (".yaml", ".yml") or len(written.parts) > 1:
        raise UnknownFamily(
            f"there is no family file at {path}{near_miss(written.stem, known)} (families by name: {listed})"
        )
    raise UnknownFamily(
        f"unknown family '{name_or_path}'{near_miss(name_or_path, known)} (known: {listed}; or give a file's path)"
    )


def read_family(path: Path, limits: Limits | None = None) -> Family:
    """The family in a file. Raises FaultyFile with every fault of form, or else every sum that fails, with line and
    key."""
    family = read_typed(path, Family)
    found = refusals(family, limits)
    if found:
        raise FaultyFile(_fault(path, family, refusal) for refusal in found)
    return family


def _fault(path: Path, family: Family, refusal: Refusal) -> Fault:
    place = _place(family.written, refusal)
    return Fault(file=path, line=place.line, column=place.column, key=place.key, message=str(refusal))


def _place(written: MarkedMap | None, refusal: Refusal) -> Place:
    """Where the value that a refusal names stands, or what should hold it when it is left out."""
    if written is None:
        return Place(0, 0, ".".join(str(step) for step in refusal.steps))
    place = written.place
    here: Any = written
    for step in refusal.steps:
        if isinstance(here, MarkedMap) and step in here:
            place, here = here.values_at[str(step)], here[str(step)]
        elif isinstance(here, MarkedList) and isinstance(step, int) and step < len(here):
            place, here = here.entries_at[step], here[step]
        else:
            break
    return place
