"""A step page in numbers: what stands where, in pixels of the finished page, before anything is drawn.

Pixels count right and down from the page's top left corner.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from model3d.pictures.lettering import PlacedText, TextBlock
from model3d.pictures.paper import FINE_PX, Box, Disc, Outline, Px, Shape, Stroke, crossing, drawn
from model3d.pictures.stage import CalloutKind, Level, Look, PlanMap, SideView
from model3d.pictures.viewpoint import View
from model3d.wording import Language


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnArrow:
    """An arrow's outline and, with a label, the disc at its tail that carries the number; beside it words in a box, and
    above it the sign of a snag.
    """

    label: str
    outline: tuple[Px, ...]
    disc: Px
    disc_radius: float
    note: TextBlock | None = None
    note_box: Box | None = None
    snag: Px | None = None

    def shapes(self) -> tuple[Shape, ...]:
        """All the paper the arrow takes."""
        found: list[Shape] = [Outline(points=self.outline)]
        if self.label:
            found.append(Disc(at=self.disc, radius=self.disc_radius))
        if self.note_box is not None:
            found.append(self.note_box)
        if self.snag is not None:
            found.append(Disc(at=self.snag, radius=SNAG_PX))
        return tuple(found)


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """What points at things in one picture: arrows, letters, words."""

    arrows: tuple[DrawnArrow, ...] = ()
    badges: tuple[DrawnBadge, ...] = ()
    callouts: tuple[DrawnCallout, ...] = ()

    def shapes(self) -> Iterator[Shape]:
        """All the paper that they and their leaders take."""
        for arrow in self.arrows:
            yield from arrow.shapes()
        for label in self.tied():
            yield label.box
            yield Stroke(start=label.box.middle, end=label.tip, width=4.0)

    def tied(self) -> tuple[DrawnBadge | DrawnCallout, ...]:
        """The letters and the words."""
        return (*self.badges, *self.callouts)

    def lines(self) -> Iterator[tuple[Px, Px]]:
        """What other leaders must not cross: the leaders of letters and words, and the diagonals of their boxes."""
        for label in self.tied():
            yield label.box.middle, label.tip
            yield from label.box.diagonals

    def labels(self) -> Iterator[tuple[str, tuple[Shape, ...]]]:
        """The marks by name."""
        for arrow in self.arrows:
            yield f"arrow {arrow.label}", arrow.shapes()
        for badge in self.badges:
            yield f"badge {badge.letter}", (badge.box,)
        for callout in self.callouts:
            yield "callout " + " ".join(callout.text.block.lines), (callout.box,)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DrawnInset:
    """A round close-up with its title, the spot it enlarges in the main picture, and its own marks; ``icon`` is the
    place of the clip's side view, ``guides`` the lines that show where a part goes.
    """

    view: View
    centre: Px
    radius: float
    shade_mm: float
    title: PlacedText
    title_box: Box
    spot: Px
    spot_radius: float
    marks: Marks
    face: Literal["F", "B"] | None = None
    icon: Box | None = None
    guides: tuple[tuple[Px, Px], ...] = ()

    def leader(self) -> tuple[Px, Px]:
        """From the spot's rim to the ring."""
        dx, dy = self.centre[0] - self.spot[0], self.centre[1] - self.spot[1]
        far = max((dx * dx + dy * dy) ** 0.5, 1e-9)
        a, b = self.spot_radius / far, 1 - self.radius / far
        return (self.spot[0] + dx * a, self.spot[1] + dy * a), (self.spot[0] + dx * b, self.spot[1] + dy * b)


@dataclass(frozen=True, slots=True, kw_only=True)
class Swatch:
    """A patch of the legend in the colour of a look, or the sign for moves or for work on the bench; clips show their
    letter.
    """

    look: Look | Literal["move", "bench"]
    box: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class Bands:
    """What stands above and below the picture, and the rectangle left for it; ``meter`` is how hard the step is and the
    place of the mark that shows it.
    """

    panel: Box
    chip: Box
    texts: tuple[PlacedText, ...]
    discs: tuple[tuple[str, Px], ...]
    marks: tuple[tuple[CalloutKind, Px], ...]
    swatches: tuple[Swatch, ...]
    meter: tuple[Level, Box] | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Page:
    """The whole page, ready to draw."""

    size: tuple[int, int]
    bands: Bands
    view: View
    facing: tuple[float, float, float]
    shade_mm: float
    marks: Marks
    insets: tuple[DrawnInset, ...]
    side_view: SideView | None = None
    plan_map: PlanMap | None = None
    map_box: Box | None = None
    language: Language = "en"

    def labels(self) -> Iterator[tuple[str, tuple[Shape, ...]]]:
        """Everything that must lie apart, by name: texts, numbers, letters, arrows, callouts, close-ups'
        titles.
        """
        for text in self.bands.texts:
            yield " ".join(text.block.lines), (text.box(),)
        for label, at in self.bands.discs:
            yield f"number {label}", (Disc(at=at, radius=DISC_PX),)
        if self.bands.meter is not None:
            yield "meter", (self.bands.meter[1],)
        for swatch in self.bands.swatches:
            yield f"swatch {swatch.look}", (swatch.box,)
        for inset in self.insets:
            yield "title " + " ".join(inset.title.block.lines), (inset.title_box,)
        if self.map_box is not None:
            yield "the map", (self.map_box,)
        for marks in (self.marks, *(inset.marks for inset in self.insets)):
            yield from marks.labels()

    def leaders(self) -> Iterator[tuple[str, tuple[Px, Px], Box | None]]:
        """Every line that ties a mark to its place, by name, and the box it begins under."""
        for inset in self.insets:
            yield "close-up " + " ".join(inset.title.block.lines), inset.leader(), None
        for marks in (self.marks, *(inset.marks for inset in self.insets)):
            for badge in marks.badges:
                yield f"badge {badge.letter}", (badge.box.middle, badge.tip), badge.box
            for callout in marks.callouts:
                name = "callout " + " ".join(callout.text.block.lines)
                yield name, (callout.box.middle, callout.tip), callout.box


DISC_PX = 17.0
SNAG_PX = 13.0


def overlaps(page: Page, slack_px: float = 8.0) -> tuple[str, ...]:
    """Labels that lie over one another by more than ``slack_px`` square pixels, and labels that leave the
    page.

    Measured on the page itself and ``_RIM_PX`` of paper round it.
    """
    width, height = page.size
    larger = width + 2 * _RIM_PX, height + 2 * _RIM_PX
    named = [(name, drawn(larger, [_shifted(shape) for shape in shapes])) for name, shapes in page.labels()]
    paper = drawn(larger, [Box(left=_RIM_PX, top=_RIM_PX, width=width, height=height)])
    found = [f"{name} leaves the page" for name, mask in named if bool((mask & ~paper).any())]
    for k, (name, mask) in enumerate(named):
        for other, second in named[k + 1 :]:
            if float((mask & second).sum()) * FINE_PX**2 > slack_px:
                found.append(f"{name} lies over {other}")
    return tuple(found)


def crossed_leaders(page: Page) -> tuple[str, ...]:
    """Pairs of leaders that cross, and leaders that run under the box of another label."""
    named = list(page.leaders())
    crossed = [
        f"{name} crosses {other}"
        for k, (name, line, _) in enumerate(named)
        for other, second, _ in named[k + 1 :]
        if crossing(line, second)
    ]
    under = [
        f"the leader of {name} runs under {other}"
        for name, line, own in named
        for other, _, box in named
        if box is not None and box is not own and _through(line, box)
    ]
    under += [
        f"the leader of {name} runs under the map"
        for name, line, _ in named
        if page.map_box is not None and _through(line, page.map_box)
    ]
    return (*crossed, *under)


def _through(line: tuple[Px, Px], box: Box) -> bool:
    """Whether a line runs through a box."""
    inner = box.grown(-2.0)
    ends = any(inner.holds(Box(left=x, top=y, width=0.0, height=0.0)) for x, y in line)
    return ends or any(crossing(line, diagonal) for diagonal in inner.diagonals)


_RIM_PX = 100


def _shifted(shape: Shape) -> Shape:
    """The shape on paper that is ``_RIM_PX`` wider to the left and on top."""
    if isinstance(shape, Box):
        return replace(shape, left=shape.left + _RIM_PX, top=shape.top + _RIM_PX)
    if isinstance(shape, Outline):
        return replace(shape, points=tuple((x + _RIM_PX, y + _RIM_PX) for x, y in shape.points))
    if isinstance(shape, Stroke):
        return replace(shape, start=_over(shape.start), end=_over(shape.end))
    return replace(shape, at=_over(shape.at))


def _over(at: Px) -> Px:
    return at[0] + _RIM_PX, at[1] + _RIM_PX
