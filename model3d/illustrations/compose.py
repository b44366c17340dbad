"""A picture composed into a page: title, panels side by side, parts list and captions below, cut down to what is
there.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from model3d.illustrations import marks
from model3d.illustrations.camera import Window
from model3d.illustrations.lettering import LEADING, MIDDLE, broken, width_mm
from model3d.illustrations.moving import moved
from model3d.illustrations.panel import Drawn, draw
from model3d.illustrations.picture import Panel, Picture
from model3d.illustrations.sheet import Area, Disc, Listed, Mark, Sheet, Words
from model3d.themes import Theme
from model3d.wording import Catalogue

GUTTER_MM = 8.0
LIST_GAP_MM = 7.0
VERDICT_MM = 7.5
DRAWING_SHARE = 0.62  # of the page's height, at most


def composed(picture: Picture, theme: Theme, *, labels: bool = True, scale: float | None = None) -> Sheet:
    """The page of a picture. ``labels`` False leaves every word, number, balloon and verdict out. ``scale`` is page mm
    per room mm of a parallel view; without it, as large as it goes.
    """
    return _Composing(picture, theme, labels=labels, scale=scale).sheet()


class _Composing:
    """One page while it is filled from the top."""

    def __init__(self, picture: Picture, theme: Theme, *, labels: bool, scale: float | None) -> None:
        self.picture, self.theme, self.labels, self.scale = picture, theme, labels, scale
        self.left = theme.page.margin
        self.wide = theme.page.width - 2 * theme.page.margin
        self.bottom = theme.page.margin
        self.marks: list[Mark] = []

    def sheet(self) -> Sheet:
        """The whole page."""
        if self.labels:
            self._title()
        drawn = self._panels()
        if self.labels:
            self._put(_list(drawn.listed, self.left, self.bottom + LIST_GAP_MM, self.wide, self.theme))
            self._put(_captions(self.picture.captions, self.left, self.bottom + LIST_GAP_MM, self.wide, self.theme))
        size = (self.theme.page.width, round(self.bottom + self.theme.page.margin, 2))
        return Sheet(title=self.picture.title, size=size, marks=tuple(self.marks), listed=drawn.listed)

    def _title(self) -> None:
        letters = self.theme.letters.title
        for line in broken(self.picture.title, letters, self.wide, bold=True):
            self.bottom += letters
            self.marks.append(Words(at=(self.left, self.bottom), text=line, size="title", bold=True))
            self.bottom += (LEADING - 1) * letters
        self.bottom += letters

    def _panels(self) -> Drawn:
        """The panels side by side, each in the middle of its place; the first one as drawn."""
        panels = self.picture.panels
        wide = (self.wide - GUTTER_MM * (len(panels) - 1)) / len(panels)
        if self.labels and any(p.verdict for p in panels):
            self.bottom += VERDICT_MM + 4.0
        high = self.theme.page.height * DRAWING_SHARE
        window = Window(left=0.0, top=0.0, width=wide, height=high)
        settings = [p.setting for p in panels]
        drawn = draw(settings, window, self.theme, self.picture.words, labels=self.labels, scale=self.scale)
        top, tall = self.bottom, drawn[0].high[1] - drawn[0].low[1]
        self.bottom = top + tall
        for k, (panel, one) in enumerate(zip(panels, drawn, strict=True)):
            left = self.left + k * (wide + GUTTER_MM)
            middle = ((one.low[0] + one.high[0]) / 2, (one.low[1] + one.high[1]) / 2)
            by = (left + wide / 2 - middle[0], top + tall / 2 - middle[1])
            self.marks += [moved(mark, by) for mark in one.marks]
            if self.labels and panel.setting.to_scale:
                said = self.picture.words.say("draw.scale", ratio=round(1 / one.camera.scale))
                self._put(iter([Words(at=(left, top + tall + 2.8 * self.theme.letters.body), text=said)]))
            if self.labels:
                self._put(_under(panel, left, wide, (top, top + tall), self.theme, self.picture.words))
        return drawn[0]

    def _put(self, found: Iterator[Mark]) -> None:
        """More marks; the page grows down to the lowest of them."""
        made = list(found)
        self.marks += made
        for mark in made:
            if isinstance(mark, Words):
                self.bottom = max(self.bottom, mark.at[1] + 1.0)
            elif isinstance(mark, Disc):
                self.bottom = max(self.bottom, mark.centre[1] + mark.radius)
            elif isinstance(mark, Area):
                self.bottom = max(self.bottom, *(y for ring in mark.rings for _, y in ring))


def _under(
    panel: Panel, left: float, wide: float, reach: tuple[float, float], theme: Theme, words: Catalogue
) -> Iterator[Mark]:
    """The verdict over a panel and the words under it; ``reach`` is from the panel's top to its bottom."""
    if panel.verdict is not None:
        at = (left + VERDICT_MM / 2, reach[0] - 4.0 - VERDICT_MM / 2)
        yield from marks.verdict(panel.verdict, at, VERDICT_MM)
        base = (at[0] + VERDICT_MM / 2 + 2.5, at[1] + MIDDLE * theme.letters.title)
        yield Words(at=base, text=words.say(f"draw.{panel.verdict}"), size="title", colour=panel.verdict, bold=True)
    y = reach[1] + 2.8 * theme.letters.body
    for line in broken(panel.caption, theme.letters.body, wide):
        yield Words(at=(left, y), text=line)
        y += LEADING * theme.letters.body


def _list(listed: Sequence[Listed], left: float, top: float, wide: float, theme: Theme) -> Iterator[Mark]:
    """The parts list in as many columns as fit, read downward; a name that is too long for one column is broken."""
    if not listed:
        return
    radius, letters = marks.balloon_radius_mm(theme), theme.letters.body
    texts = [one.name + (f"  × {one.count}" if one.count > 1 else "") for one in listed]
    beside = 2 * radius + 2.5
    widest = max(width_mm(text, letters) for text in texts) + beside + 6.5
    columns = max(min(int(wide / widest), len(listed)), 1)
    rows = -(-len(listed) // columns)
    y = top + radius
    for k, (one, text) in enumerate(zip(listed, texts, strict=True)):
        if k % rows == 0:
            y = top + radius
        x = left + (k // rows) * wide / columns
        yield Disc(centre=(x + radius, y), radius=radius, fill="paper", edge="medium", edge_colour="callout")
        yield marks.centred(str(one.number), (x + radius, y), "balloon", "callout", theme, bold=True)
        lines = broken(text, letters, wide / columns - beside)
        for line in lines:
            yield Words(at=(x + beside, y + MIDDLE * letters), text=line)
            y += LEADING * letters
        y += 2 * radius + 2.0 - LEADING * letters


def _captions(
    captions: Sequence[tuple[str, str]], left: float, top: float, wide: float, theme: Theme
) -> Iterator[Mark]:
    """What to do, each with its arrow's number."""
    radius, letters = marks.balloon_radius_mm(theme), theme.letters.body
    y = top + radius
    for label, text in captions:
        if label:
            yield Disc(centre=(left + radius, y), radius=radius, fill="move", edge="medium", edge_colour="move")
            yield marks.centred(label, (left + radius, y), "balloon", "on-move", theme, bold=True)
        else:
            yield Disc(centre=(left + radius, y), radius=0.7, fill="ink")
        for line in broken(text, letters, wide - 2 * radius - 2.5):
            yield Words(at=(left + 2 * radius + 2.5, y + MIDDLE * letters), text=line)
            y += LEADING * letters
        y += 2 * radius + 1.6 - LEADING * letters
