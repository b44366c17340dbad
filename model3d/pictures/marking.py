"""Letters and words in one picture, each off what is there already."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from model3d.geometry.placement import Vec3
from model3d.pictures.lettering import PlacedText, set_text
from model3d.pictures.page import DrawnArrow, DrawnBadge, DrawnCallout, Marks
from model3d.pictures.paper import Box, Disc, Paper, Px, Stroke, crossing
from model3d.pictures.placing import Worth, label_places, place_label
from model3d.pictures.sight import IdMap
from model3d.pictures.solids import PlacedMesh
from model3d.pictures.stage import Badge, Callout, Camera, Points
from model3d.pictures.theme import Theme
from model3d.pictures.views import project

MARK_PX = 30.0
PAD_PX = 9.0
WORDS_PX = 300.0
_FEW = 3

Line = tuple[Px, Px]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Window:
    """A camera's picture on the page: where a room point falls, which of the ``solids`` is seen in each cell of its id
    map, and what the cells are worth.
    """

    camera: Camera
    frame: Box
    ids: IdMap
    solids: Sequence[PlacedMesh]
    worth: Worth

    def pixels(self, points_mm: Points) -> Points:
        """(n, 3) page pixels and depths of room points."""
        seen = project(self.camera, points_mm, round(self.frame.width), round(self.frame.height))
        return np.asarray(seen + np.array([self.frame.left, self.frame.top, 0.0]))

    def pixel(self, at_mm: Vec3) -> Px:
        """The page pixel of one room point."""
        x, y, _ = self.pixels(np.array([at_mm]))[0]
        return float(x), float(y)


def marked(
    arrows: tuple[DrawnArrow, ...],
    badges: Sequence[Badge],
    callouts: Sequence[Callout],
    window: Window,
    theme: Theme,
    paper: Paper,
    lines: Sequence[Line] = (),
) -> Marks:
    """Letters first, then words, each off the arrows, the points of the others, and what is placed before it; their
    leaders cross neither one another nor the ``lines`` where it can be helped.

    Raises ValueError when there is no free place for one of them.
    """
    paper = paper.with_shapes(shape for arrow in arrows for shape in arrow.shapes())
    points = [*(badge.at_mm for badge in badges), *(callout.at_mm for callout in callouts)]
    paper = paper.with_shapes(Disc(at=window.pixel(point), radius=9.0) for point in points)
    letters: list[DrawnBadge] = []
    for badge in badges:
        tip, side = window.pixel(badge.at_mm), 2 * theme.badge_radius_px
        known = (*lines, *Marks(badges=tuple(letters)).lines())
        place = place_label((side, side), tip, window.worth, paper, known)
        letters.append(DrawnBadge(letter=badge.text, look=badge.look, box=place, tip=tip))
        paper = paper.with_shapes([place, Stroke(start=place.middle, end=tip, width=4.0)])
    known = (*lines, *Marks(badges=tuple(letters)).lines())
    return Marks(arrows=arrows, badges=tuple(letters), callouts=_all_words(callouts, window, theme, paper, known))


def _all_words(
    callouts: Sequence[Callout], window: Window, theme: Theme, paper: Paper, lines: Sequence[Line]
) -> tuple[DrawnCallout, ...]:
    """The words: a few together, so that no leader crosses another; many, or where that cannot be, one after the
    other.
    """
    for fine in (False, True) if 1 < len(callouts) <= _FEW else ():
        together = _together(callouts, window, theme, paper, lines, fine)
        if together is not None:
            return together
    words: list[DrawnCallout] = []
    for callout in callouts:
        size, tip = _size(callout, theme), window.pixel(callout.at_mm)
        known = (*lines, *Marks(callouts=tuple(words)).lines())
        words.append(_words(callout, place_label(size, tip, window.worth, paper, known), tip, theme))
        paper = paper.with_shapes([words[-1].box, Stroke(start=words[-1].box.middle, end=tip, width=4.0)])
    return tuple(words)


def _together(
    callouts: Sequence[Callout], window: Window, theme: Theme, paper: Paper, lines: Sequence[Line], fine: bool
) -> tuple[DrawnCallout, ...] | None:
    """The cheapest places for all of the words at which nothing crosses or covers another; None where there are none
    near their points.
    """
    tips = [window.pixel(callout.at_mm) for callout in callouts]
    places = [
        label_places(_size(callout, theme), tip, window.worth, paper, lines, fine)
        for callout, tip in zip(callouts, tips, strict=True)
    ]
    best: tuple[float, tuple[Box, ...]] | None = None

    def place(cost: float, boxes: tuple[Box, ...]) -> None:
        nonlocal best
        k = len(boxes)
        if k == len(places):
            best = cost, boxes
            return
        least = sum(options[0][0] for options in places[k + 1 :])
        for own, box in places[k]:
            if best is not None and cost + own + least >= best[0]:
                return
            if not any(_meet(box, tips[k], other, tip) for other, tip in zip(boxes, tips, strict=False)):
                place(cost + own, (*boxes, box))

    if all(places):
        place(0.0, ())
    if best is None:
        return None
    each = zip(callouts, best[1], tips, strict=True)
    return tuple(_words(callout, box, tip, theme) for callout, box, tip in each)


def _meet(box: Box, tip: Px, other: Box, other_tip: Px) -> bool:
    """Whether two labels lie over one another, or the leader of one runs over the other or its leader."""
    wide, high = box.width + other.width + 12.0, box.height + other.height + 12.0
    apart = abs(box.middle[0] - other.middle[0]), abs(box.middle[1] - other.middle[1])
    if apart[0] < wide / 2 and apart[1] < high / 2:
        return True
    own, others = (box.middle, tip), (other.middle, other_tip)
    return any(crossing(own, line) for line in (others, *other.grown(4.0).diagonals)) or any(
        crossing(others, line) for line in box.grown(4.0).diagonals
    )


def _size(callout: Callout, theme: Theme) -> tuple[float, float]:
    """The size of the box of some words."""
    block = set_text(callout.text, theme.callout_px, WORDS_PX)
    mark = MARK_PX if callout.kind != "plain" else 0.0
    return block.width_px + 2 * PAD_PX + mark, max(block.height_px, mark - 4) + PAD_PX


def _words(callout: Callout, place: Box, tip: Px, theme: Theme) -> DrawnCallout:
    block = set_text(callout.text, theme.callout_px, WORDS_PX)
    mark = MARK_PX if callout.kind != "plain" else 0.0
    top = place.middle[1] - block.height_px / 2
    text = PlacedText(block=block, left=place.left + PAD_PX + mark, top=top, colour=theme.ink)
    return DrawnCallout(text=text, kind=callout.kind, box=place, tip=tip)
