"""Work in pieces, shared between threads, put together in order whatever finishes first."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor
from typing import TypeVar

Piece = TypeVar("Piece")


def each(action: Callable[[Piece], None], pieces: Iterable[Piece], threads: int) -> None:
    """Call ``action`` on every piece; pieces must write to places of their own. The first error is raised."""
    if threads == 1:
        for piece in pieces:
            action(piece)
        return
    with ThreadPoolExecutor(threads) as pool:
        for done in pool.map(action, pieces):
            assert done is None


def spans(count: int, size: int) -> list[slice]:
    """Slices of at most ``size`` that cover ``count`` things in order."""
    return [slice(start, min(start + size, count)) for start in range(0, count, size)]
