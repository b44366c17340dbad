"""Faults of a corner sheet, measured on its boxes, arrows and what is seen from the room."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from model3d.pictures.corners.page import TABLE, CornerPage
from model3d.pictures.labelled.judging import hidden_faults, label_faults, over, said, word_faults
from model3d.pictures.paper import Box, Px, crossing
from model3d.pictures.theme import Theme


def corner_faults(page: CornerPage, theme: Theme) -> tuple[str, ...]:
    """What is wrong with a sheet: a label lost, over another, off its picture or pointing elsewhere, crossed leaders,
    words that leave their room, a dimension's arrow hidden or off its picture, a row of the table that leaves it.
    """
    return (
        *label_faults(page.sheet.tags, page.tags, page.from_room),
        *word_faults(page.words(), theme.page_px),
        *_dimensions(page),
        *_ruler(page),
        *_rows(page),
    )


def _dimensions(page: CornerPage) -> Iterator[str]:
    """Figures in their boxes on the picture, and no box over an arrow or another box."""
    boxes = [(said(d.words), d.box) for d in page.dimensions] + [(said(page.angle.words), page.angle.box)]
    arrows = [(f"the arrow of {said(d.words)}", _line_box(d.start, d.end)) for d in page.dimensions]
    yield from hidden_faults(arrows, boxes)
    for name, box in (*boxes, *arrows):
        if not page.above.frame.holds(box):
            yield f"{name} leaves its picture"
    for (name, one), (second, other) in itertools.combinations(boxes, 2):
        if over(one, other):
            yield f"the box of {name} lies over that of {second}"


def _line_box(start: Px, end: Px) -> Box:
    """The paper a slim line takes that runs across or down; of a slanting one the middle fifth of it."""
    (x, y), (p, q) = start, end
    if min(abs(x - p), abs(y - q)) > 6.0:
        x, p = x + 0.4 * (p - x), x + 0.6 * (p - x)
        y, q = y + 0.4 * (q - y), y + 0.6 * (q - y)
    return Box(left=min(x, p) - 1, top=min(y, q) - 1, width=abs(p - x) + 2, height=abs(q - y) + 2)


def _ruler(page: CornerPage) -> Iterator[str]:
    """Ticks tied to their words without crossings, bar and words on the picture, marks of pieces off them."""
    if page.ruler is None:
        return
    leads = [(said(t.words), page.ruler.lead(t)) for t in page.ruler.ticks]
    for (name, one), (other, second) in itertools.combinations(leads, 2):
        if one[0] != second[0] and crossing(one, second):
            yield f"the line of {name} crosses that of {other}"
    words = [(said(t.words), t.words.text.box()) for t in page.ruler.ticks]
    for name, box in (*words, ("the ruler", page.ruler.bar)):
        if not page.section.frame.holds(box):
            yield f"{name} leaves its picture"
    marks = [(f"the mark {said(m.words)}", m.box) for m in page.marks]
    yield from hidden_faults([*words, ("the ruler", page.ruler.bar)], marks)


def _rows(page: CornerPage) -> Iterator[str]:
    for row in page.rows:
        for words in row.words:
            if not TABLE.holds(words.text.box()):
                yield f"{said(words)} leaves the table"
