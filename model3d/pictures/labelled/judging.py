"""Faults of a sheet's labels and words: lost, over one another, off their picture, crossed, pointing elsewhere."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence

from model3d.pictures.labelled.seats import DOT_PX, SeenMap
from model3d.pictures.labelled.tags import DrawnTag, Picture, Tag
from model3d.pictures.labelled.words import Words
from model3d.pictures.paper import Box, crossing, from_line_px, within

_SLACK_PX = 0.5
_NEAR_PX = 3.0


def label_faults(wanted: Sequence[Tag], tags: Sequence[DrawnTag], picture: Picture) -> Iterator[str]:
    """A label that is not drawn, leaves its picture, lies over another or over what another points at, or whose words
    leave its box; leaders that cross; a dot that is not on its part.
    """
    if len(tags) != len(wanted):
        yield f"{len(wanted) - len(tags)} labels are lost"
    for tag in tags:
        if not picture.frame.holds(tag.seat.box):
            yield f"{tag.tag.text} leaves its picture"
        if not tag.seat.box.holds(tag.words_box()):
            yield f"{tag.tag.text} overflows its box"
        if not tag.seat.box.grown(_SLACK_PX).holds(Box(left=tag.seat.foot[0], top=tag.seat.foot[1], width=0, height=0)):
            yield f"the leader of {tag.tag.text} does not start at its box"
    for one, other in itertools.combinations(tags, 2):
        if over(one.seat.box, other.seat.box):
            yield f"{one.tag.text} lies over {other.tag.text}"
        if crossing((one.seat.foot, one.tip), (other.seat.foot, other.tip)):
            yield f"the leader of {one.tag.text} crosses that of {other.tag.text}"
    for one, other in itertools.product(tags, tags):
        if within(other.tip, one.seat.box):
            yield f"{one.tag.text} hides what {other.tag.text} points at"
        if one is not other and from_line_px(other.tip, (one.seat.foot, one.tip)) < DOT_PX:
            yield f"the leader of {one.tag.text} runs over the dot of {other.tag.text}"
    yield from _astray(tags, picture)


def _astray(tags: Sequence[DrawnTag], picture: Picture) -> Iterator[str]:
    """Dots that are not on what is seen of their part."""
    seen = SeenMap(picture.solids, picture.camera, (round(picture.frame.width), round(picture.frame.height)))
    for tag in tags:
        at = tag.tip[0] - picture.frame.left, tag.tip[1] - picture.frame.top
        if not seen.is_on((*tag.tag.on, *tag.tag.or_on), at, _NEAR_PX):
            yield f"the dot of {tag.tag.text} is not on its part"


def word_faults(words: Iterable[Words], page_px: tuple[int, int]) -> Iterator[str]:
    """Words that leave their room or the page, or lie over one another."""
    every = list(words)
    paper = Box(left=0.0, top=0.0, width=float(page_px[0]), height=float(page_px[1]))
    for one in every:
        if not one.room.grown(_SLACK_PX).holds(one.text.box()):
            yield f"{said(one)} overflows its room"
        if not paper.holds(one.text.box()):
            yield f"{said(one)} leaves the page"
    for one, other in itertools.combinations(every, 2):
        if over(one.text.box(), other.text.box()):
            yield f"{said(one)} lies over {said(other)}"


def hidden_faults(names: Iterable[tuple[str, Box]], over_them: Iterable[tuple[str, Box]]) -> Iterator[str]:
    """Arrows and signs, by name, that lie under a box of words."""
    for (name, box), (other, upper) in itertools.product(list(names), list(over_them)):
        if over(box, upper):
            yield f"{name} lies under {other}"


def said(words: Words) -> str:
    """Words as one line."""
    return " ".join(words.text.block.lines)


def over(one: Box, other: Box) -> bool:
    """Whether two boxes share more than a hair of paper."""
    across = min(one.right, other.right) - max(one.left, other.left)
    down = min(one.bottom, other.bottom) - max(one.top, other.top)
    return across > _SLACK_PX and down > _SLACK_PX

