"""What the checks of a plan share: the plan as far as it could be read, and the faults found so far."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from model3d.plans import PlanInPart
from model3d.sources import Entry, Fault, MarkedList, MarkedMap, Place, Salvage


class Reading:
    """A plan on its way to being checked. Faults are noted, not raised, so that all are reported together."""

    def __init__(self, found: Salvage[PlanInPart]) -> None:
        self.found = found
        self.file: Path = found.source.path
        self.faults: list[Fault] = []

    def fault(self, entry: Entry, message: str, key: str | None = None) -> None:
        """Notes what is wrong with an entry, or with one of its keys."""
        self.faults.append(entry.fault(self.file, message, key))

    def fault_in_list(self, entry: Entry, key: str, number: int, message: str) -> None:
        """Notes what is wrong with one entry, numbered from 0, of the list under a key."""
        self.fault_at(entry.place_in_list(key, number), message)

    def fault_at(self, place: Place, message: str) -> None:
        """Notes what is wrong at a place."""
        self.faults.append(Fault(file=self.file, line=place.line, column=place.column, key=place.key, message=message))

    def in_part(self, entry: Entry) -> bool:
        """Whether anything of an entry was dropped, so that its other values may be no more than defaults."""
        return entry.written is not None and self.found.lost(entry.written.place.key)

    def as_written(self, *keys: str) -> Any:
        """What stands under these keys in the file, faulty or not; None when there is nothing."""
        here = self.found.source.data
        for key in keys:
            here = here.get(key) if isinstance(here, MarkedMap) else None
        return here

    def ids_as_written(self, *keys: str) -> tuple[str | None, ...]:
        """The ids of the entries of a list in the file, faulty or not; None for an entry without."""
        listed = self.as_written(*keys)
        if not isinstance(listed, MarkedList):
            return ()
        ids = (entry.get("id") if isinstance(entry, MarkedMap) else None for entry in listed)
        return tuple(name if isinstance(name, str) else None for name in ids)


def numbers_in_list(entry: Entry, key: str, count: int) -> tuple[tuple[int, ...], int]:
    """The numbers, from 0, that the entries of a list had in the file, and how many stood there."""
    listed = entry.written.get(key) if entry.written is not None else None
    if isinstance(listed, MarkedList):
        return listed.numbers, listed.total
    return tuple(range(count)), count
