"""From what is asked for to the bytes of a file."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Literal

from model3d.illustrations.compose import composed
from model3d.illustrations.pdf import pdf
from model3d.illustrations.picture import Job, Picture
from model3d.illustrations.sheet import Sheet
from model3d.illustrations.subjects.exploded import exploded_corner, exploded_piece
from model3d.illustrations.subjects.fitting import fitting
from model3d.illustrations.subjects.pairs import pair
from model3d.illustrations.subjects.plain import corner, part_alone, view
from model3d.illustrations.svg import png, svg
from model3d.themes import Theme

Kind = Literal["view", "part", "step", "corner", "exploded", "pair"]
Format = Literal["svg", "pdf", "png"]


def illustration(job: Job, kind: Kind, name: str, theme: Theme, *, labels: bool = True) -> Sheet:
    """The sheet of a ``view``, ``part``, ``step``, ``corner``, ``exploded`` piece or corner, or right-and-wrong
    ``pair``, by its name.

    Raises UnknownSubject when the plan has none of that name, NotSeen when a part it is about is hidden from every
    side, NoRoomForBalloons.
    """
    return composed(SUBJECTS[kind](job, name), theme, labels=labels)


def written(sheet: Sheet, theme: Theme, form: Format, *, dots_per_inch: int = 200) -> bytes:
    """The sheet as a file; the same sheet gives the same bytes."""
    if form == "svg":
        return svg(sheet, theme).encode("utf-8")
    return pdf(sheet, theme) if form == "pdf" else png(sheet, theme, dots_per_inch=dots_per_inch)


def _exploded(job: Job, name: str) -> Picture:
    """Of a piece by its mark, else of a joint or corner."""
    is_piece = any(p.mark == name for p in job.layout.pieces)
    return exploded_piece(job, name) if is_piece else exploded_corner(job, name)


SUBJECTS: Mapping[Kind, Callable[[Job, str], Picture]] = {
    "view": view,
    "part": part_alone,
    "step": fitting,
    "corner": corner,
    "exploded": _exploded,
    "pair": pair,
}
"""What can be drawn, by kind: from a plan's job and a name to a picture."""
