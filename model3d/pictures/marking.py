"""Letters and words in one picture, each off what is there already."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import islice, permutations

import numpy as np

from model3d.geometry.placement import Vec3
from model3d.pictures.lettering import set_text
from model3d.pictures.page import DrawnArrow, DrawnBadge, DrawnCallout, Marks, PlacedText
from model3d.pictures.paper import Box, Disc, Paper, Px, Stroke, crossing
from model3d.pictures.placing import Worth, place_label
from model3d.pictures.sight import IdMap
from model3d.pictures.solids import PlacedMesh
from model3d.pictures.stage import Badge, Callout, Camera, Points
from model3d.pictures.theme import Theme
from model3d.pictures.views import project

MARK_PX = 30.0
PAD_PX = 9.0
_MOST_ORDERS = 6

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
    """The words, placed in the first order in which no leader crosses another; else in the order that crosses least."""
    best: tuple[int, tuple[DrawnCallout, ...]] | None = None
    for order in islice(permutations(range(len(callouts))), _MOST_ORDERS):
        left, known, crossings = paper, list(lines), 0
        words: dict[int, DrawnCallout] = {}
        for k in order:
            words[k] = _words(callouts[k], window, theme, left, known)
            tie = words[k].box.middle, words[k].tip
            crossings += sum(crossing(tie, line) for line in known)
            known += (tie, *words[k].box.diagonals)
            left = left.with_shapes([words[k].box, Stroke(start=tie[0], end=tie[1], width=4.0)])
        if best is None or crossings < best[0]:
            best = crossings, tuple(words[k] for k in range(len(callouts)))
        if crossings == 0:
            break
    return best[1] if best is not None else ()


def _words(
    callout: Callout, window: Window, theme: Theme, paper: Paper, lines: Sequence[Line]
) -> DrawnCallout:
    tip = window.pixel(callout.at_mm)
    block = set_text(callout.text, theme.callout_px, 300.0)
    mark = MARK_PX if callout.kind != "plain" else 0.0
    size = block.width_px + 2 * PAD_PX + mark, max(block.height_px, mark - 4) + PAD_PX
    place = place_label(size, tip, window.worth, paper, lines)
    top = place.middle[1] - block.height_px / 2
    text = PlacedText(block=block, left=place.left + PAD_PX + mark, top=top, colour=theme.ink)
    return DrawnCallout(text=text, kind=callout.kind, box=place, tip=tip)
