"""A step page in numbers: what stands where, in pixels of the finished page, before anything is drawn.

Pixels count right and down from the page's top left corner.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from shapely.geometry import LineString, Point, Polygon, box
from shapely.geometry.base import BaseGeometry

from model3d.pictures.lettering import TextBlock
from model3d.pictures.stage import CalloutKind, Look
from model3d.pictures.viewpoint import View

Px = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """An upright rectangle: left, top, width, height."""

    left: float
    top: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """Right side."""
        return self.left + self.width

    @property
    def bottom(self) -> float:
        """Lower side."""
        return self.top + self.height

    @property
    def middle(self) -> Px:
        """Centre."""
        return self.left + self.width / 2, self.top + self.height / 2

    def shape(self) -> BaseGeometry:
        """The same as a shapely polygon."""
        return box(self.left, self.top, self.right, self.bottom)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedText:
    """A block of text with its top left corner (``anchor`` middle: top centre)."""

    block: TextBlock
    left: float
    top: float
    colour: str
    anchor: Literal["start", "middle"] = "start"

    def box(self) -> Box:
        """The rectangle the lines fill."""
        left = self.left - (self.block.width_px / 2 if self.anchor == "middle" else 0.0)
        return Box(left=left, top=self.top, width=self.block.width_px, height=self.block.height_px)


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnArrow:
    """An arrow's outline and, with a label, the disc at its tail that carries the number."""

    label: str
    outline: tuple[Px, ...]
    disc: Px
    disc_radius: float

    def shape(self) -> BaseGeometry:
        """All the paper the arrow takes."""
        body = Polygon(self.outline)
        return body.union(Point(self.disc).buffer(self.disc_radius)) if self.label else body


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnBadge:
    """A clip letter in its box, tied by a leader to the clip."""

    letter: Literal["F", "B"]
    look: Look
    box: Box
    tip: Px


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnCallout:
    """Words in a box, tied by a leader to a point."""

    text: PlacedText
    kind: CalloutKind
    box: Box
    tip: Px


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DrawnInset:
    """A round close-up with its title, the spot it enlarges in the main picture, and its own marks."""

    view: View
    centre: Px
    radius: float
    shade_mm: float
    title: PlacedText
    title_box: Box
    spot: Px
    spot_radius: float
    arrows: tuple[DrawnArrow, ...]
    badges: tuple[DrawnBadge, ...]
    callouts: tuple[DrawnCallout, ...]

    def leader(self) -> tuple[Px, Px]:
        """From the spot's rim to the ring."""
        dx, dy = self.centre[0] - self.spot[0], self.centre[1] - self.spot[1]
        far = max((dx * dx + dy * dy) ** 0.5, 1e-9)
        a, b = self.spot_radius / far, 1 - self.radius / far
        return (self.spot[0] + dx * a, self.spot[1] + dy * a), (self.spot[0] + dx * b, self.spot[1] + dy * b)


@dataclass(frozen=True, slots=True, kw_only=True)
class Swatch:
    """A patch of the legend in the colour of a look, or the sign for the moves; clips show their letter."""

    look: Look | Literal["move"]
    box: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class Bands:
    """What stands above and below the picture, and the rectangle left for it."""

    panel: Box
    chip: Box
    texts: tuple[PlacedText, ...]
    discs: tuple[tuple[str, Px], ...]
    marks: tuple[tuple[CalloutKind, Px], ...]
    swatches: tuple[Swatch, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Page:
    """The whole page, ready to draw."""

    size: tuple[int, int]
    bands: Bands
    view: View
    facing: tuple[float, float, float]
    shade_mm: float
    arrows: tuple[DrawnArrow, ...]
    badges: tuple[DrawnBadge, ...]
    callouts: tuple[DrawnCallout, ...]
    insets: tuple[DrawnInset, ...]

    def labels(self) -> Iterator[tuple[str, BaseGeometry]]:
        """Everything that must lie apart, by name: texts, numbers, letters, callouts, insets' titles."""
        for text in self.bands.texts:
            yield " ".join(text.block.lines), text.box().shape()
        for label, at in self.bands.discs:
            yield f"number {label}", Point(at).buffer(DISC_PX)
        for swatch in self.bands.swatches:
            yield f"swatch {swatch.look}", swatch.box.shape()
        for inset in self.insets:
            yield "title " + " ".join(inset.title.block.lines), inset.title_box.shape()
        for owner in (self, *self.insets):
            for arrow in owner.arrows:
                yield f"arrow {arrow.label}", arrow.shape()
            for badge in owner.badges:
                yield f"badge {badge.letter}", badge.box.shape()
            for callout in owner.callouts:
                yield "callout " + " ".join(callout.text.block.lines), callout.box.shape()

    def leaders(self) -> Iterator[LineString]:
        """Every line that ties a mark of the main picture to its place."""
        for inset in self.insets:
            yield LineString(inset.leader())
        for mark in (*self.badges, *self.callouts):
            yield LineString([mark.box.middle, mark.tip])


DISC_PX = 17.0


def overlaps(page: Page, slack_px: float = 1.0) -> tuple[str, ...]:
    """Pairs of labels that lie over one another by more than ``slack_px`` square, and labels off the page."""
    width, height = page.size
    paper = box(0, 0, width, height)
    named = list(page.labels())
    found = [f"{name} is off the page" for name, shape in named if not paper.contains(shape)]
    for k, (name, shape) in enumerate(named):
        for other, second in named[k + 1:]:
            if shape.intersection(second).area > slack_px:
                found.append(f"{name} lies over {other}")
    return tuple(found)
