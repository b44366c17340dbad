"""Progress on a terminal; nothing where the output goes to a file or a pipe."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

Tick = Callable[[str, int, int], None]


@contextmanager
def progress(what: str) -> Iterator[Tick]:
    """A function to call with (what is done now, done so far, of how many): a bar on a terminal's error stream."""
    if not sys.stderr.isatty():
        yield lambda _now, _done, _of: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn

    counted = TextColumn("{task.completed:.0f}/{task.total:.0f}")
    columns = (TextColumn("{task.description}"), BarColumn(), counted, TimeElapsedColumn())
    with Progress(*columns, console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(what, total=1)

        def tick(now: str, done: int, of: int) -> None:
            bar.update(task, description=f"{what}: {now}", completed=done, total=max(of, 1))

        yield tick
