"""Letters and words in one picture, each off what is there already."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from model3d.geometry.placement import Vec3
from model3d.pictures.lettering import set_text
from model3d.pictures.page import DrawnArrow, DrawnBadge, DrawnCallout, Marks, PlacedText
from model3d.pictures.paper import Box, Disc, Paper, Px, Stroke
from model3d.pictures.placing import Worth, place_label
from model3d.pictures.stage import Badge, Callout, Camera, Points
from model3d.pictures.theme import Theme
from model3d.pictures.views import project

MARK_PX = 30.0
PAD_PX = 9.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Window:
    """A camera's picture on the page: where a room point falls, and what its pixels are worth."""

    camera: Camera
    frame: Box
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
) -> Marks:
    """Letters first, then words, each off the arrows, the points of the others, and what is placed before it.

    Raises ValueError when there is no free place for one of them.
    """
    paper = paper.with_shapes(shape for arrow in arrows for shape in arrow.shapes())
    points = [*(badge.at_mm for badge in badges), *(callout.at_mm for callout in callouts)]
    paper = paper.with_shapes(Disc(at=window.pixel(point), radius=9.0) for point in points)
    letters: list[DrawnBadge] = []
    words: list[DrawnCallout] = []
    for badge in badges:
        tip, side = window.pixel(badge.at_mm), 2 * theme.badge_radius_px
        place = place_label((side, side), tip, window.worth, paper)
        letters.append(DrawnBadge(letter=badge.text, look=badge.look, box=place, tip=tip))
        paper = paper.with_shapes([place, Stroke(start=place.middle, end=tip, width=4.0)])
    for callout in callouts:
        words.append(_words(callout, window, theme, paper))
        line = Stroke(start=words[-1].box.middle, end=words[-1].tip, width=4.0)
        paper = paper.with_shapes([words[-1].box, line])
    return Marks(arrows=arrows, badges=tuple(letters), callouts=tuple(words))


def _words(callout: Callout, window: Window, theme: Theme, paper: Paper) -> DrawnCallout:
    tip = window.pixel(callout.at_mm)
    block = set_text(callout.text, theme.callout_px, 300.0)
    mark = MARK_PX if callout.kind != "plain" else 0.0
    size = block.width_px + 2 * PAD_PX + mark, max(block.height_px, mark - 4) + PAD_PX
    place = place_label(size, tip, window.worth, paper)
    top = place.middle[1] - block.height_px / 2
    text = PlacedText(block=block, left=place.left + PAD_PX + mark, top=top, colour=theme.ink)
    return DrawnCallout(text=text, kind=callout.kind, box=place, tip=tip)
