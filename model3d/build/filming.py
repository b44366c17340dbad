"""Moving pictures of a project: only along moves that were checked and are free."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from model3d.build.project import Project

Tick = Callable[[str, int, int], None]


class UnprovedError(RuntimeError):
    """A move that is asked for was checked and is blocked: it is not shown; the message names what stops it."""


class NothingToFilmError(ValueError):
    """There is no such step or corner, or nothing goes up in it; the message says what there is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What to film: the step of a number, all at a corner, or, with neither, the whole assembly."""

    step: int | None = None
    corner: str | None = None


def film(project: Project, wanted: Wanted, out: Path, *, tick: Tick | None = None) -> int:
    """Write the film of what is wanted; return its frames.

    Raises NothingToFilmError, UnprovedError, NoVideoError, NoOpenGLError; ValueError for an ending that is no film's.
    """
    from model3d.moves import proved
    from model3d.pictures.moving.filming import Film
    from model3d.pictures.moving.reel import drawn, frame_count, refuse_ending, write_film
    from model3d.pictures.opengl import ready
    from model3d.pictures.theme import THEME, themed

    refuse_ending(out)
    ready()
    numbers = _steps(project, wanted)
    steps, verdicts, findings = proved(
        project.layout,
        project.scene,
        project.fitting.steps,
        project.family,
        shapes=project.job.shapes,
        tick=tick,
        clearances=False,
    )
    blocked = {v.step for v in verdicts if not v.free} & set(numbers)
    if blocked:
        marks = {m for s in steps if s.number in blocked for m in s.pieces}
        said = [f.message for f in findings if any(p.split("/")[0] in marks for p in f.parts)]
        names = ", ".join(s.title for s in steps if s.number in blocked)
        raise UnprovedError("; ".join([f"not shown, since it does not go: {names}", *said]))
    theme = THEME if project.look is None else themed(project.look)
    made = Film(project.layout, project.scene, steps, project.family, theme)
    found = made.corner(wanted.corner) if wanted.corner is not None else (made.step(n) for n in numbers)
    takes = [take for take in found if take is not None]
    count, done = frame_count(takes), 0

    def said_so(by: int) -> None:
        nonlocal done
        done += by
        if tick is not None:
            tick("frames", done, count)

    write_film(out, drawn(takes, theme, said_so))
    return count


def _steps(project: Project, wanted: Wanted) -> list[int]:
    """The numbers of the steps to be filmed, each of which puts a piece up."""
    up = [s.number for s in project.fitting.steps if s.kind == "piece"]
    if wanted.step is not None:
        if wanted.step not in up:
            raise NothingToFilmError(f"no piece goes up in step {wanted.step}: pieces go up in {_listed(up)}")
        return [wanted.step]
    if wanted.corner is None:
        return up
    joints = [j for run in project.layout.runs for j in run.joints if j.corner is not None]
    marks = {m for j in joints if j.corner and j.corner.id == wanted.corner for m in (j.earlier, j.later)}
    if not marks:
        there = sorted({j.corner.id for j in joints if j.corner})
        raise NothingToFilmError(f"no joint stands at a corner {wanted.corner}: there are {_listed(there)}")
    return [s.number for s in project.fitting.steps if marks & set(s.pieces)]


def _listed(things: list[int] | list[str]) -> str:
    return ", ".join(str(t) for t in things) or "none"
