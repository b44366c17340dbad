"""Faults of a file that a person wrote: where each stands, what is wrong, and all of them together."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing wrong in a file.

    ``line`` and ``column`` count from 1 (0: the file as a whole). ``key`` is the way to the value, such as
    ``openings[door-1].width``; an entry of a list is named by its id, or counted from 1 when it has none.
    """

    file: Path
    line: int
    column: int
    key: str
    message: str

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}:{self.column}" if self.line else f"{self.file}"
        return f"{place}: {self.key}: {self.message}" if self.key else f"{place}: {self.message}"


class FaultyFile(Exception):
    """A file that cannot be used as it stands; ``faults`` are all that is wrong with it, in the order of its
    lines.
    """

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults: tuple[Fault, ...] = tuple(sorted(set(faults), key=lambda f: (f.line, f.column, f.key, f.message)))
        super().__init__("\n".join(str(f) for f in self.faults))


def near_miss(word: str, known: Iterable[str]) -> str:
    """``; did you mean 'width'?`` when ``word`` is nearly one of the ``known`` words, else nothing."""
    import difflib

    by_folded = {k.lower(): k for k in known}
    close = difflib.get_close_matches(word.lower(), list(by_folded), n=1, cutoff=0.6)
    return f"; did you mean '{by_folded[close[0]]}'?" if close else ""
