"""A sheet as a PDF: lines stay lines, words stay words in the shipped font, the same bytes every time."""

from __future__ import annotations

import io
from functools import cache
from typing import Any

from model3d.illustrations.lettering import font_paths, size_mm, width_mm
from model3d.illustrations.sheet import Area, Colour, Disc, Mm, Sheet, Stroke, Words, shade
from model3d.themes import Theme

_POINT_MM = 25.4 / 72.0
_NAMES = ("DejaVuSans", "DejaVuSans-Bold")


def pdf(sheet: Sheet, theme: Theme) -> bytes:
    """The sheet as a PDF of one page of its own size."""
    from reportlab.pdfgen.canvas import Canvas

    _bring_fonts()
    made = io.BytesIO()
    size = (sheet.size[0] / _POINT_MM, sheet.size[1] / _POINT_MM)
    canvas = Canvas(made, pagesize=size, invariant=1, pageCompression=1)
    canvas.setTitle(sheet.title)
    canvas.setCreator("dryfit")
    _Page(canvas, sheet, theme).draw()
    canvas.showPage()
    canvas.save()
    return made.getvalue()


@cache
def _bring_fonts() -> None:
    from reportlab.pdfbase.pdfmetrics import registerFont
    from reportlab.pdfbase.ttfonts import TTFont

    for name, path in zip(_NAMES, font_paths(), strict=True):
        registerFont(TTFont(name, str(path)))


class _Page:
    """One page being drawn; PDF counts points up from the bottom."""

    def __init__(self, canvas: Any, sheet: Sheet, theme: Theme) -> None:
        self.canvas, self.sheet, self.theme = canvas, sheet, theme

    def draw(self) -> None:
        """Every mark, in order, on the paper's colour."""
        width, height = (side / _POINT_MM for side in self.sheet.size)
        self.canvas.setFillColor(self.theme.colours.paper)
        self.canvas.rect(0, 0, width, height, stroke=0, fill=1)
        self.canvas.setLineCap(1)
        self.canvas.setLineJoin(1)
        for mark in self.sheet.marks:
            if isinstance(mark, Stroke):
                self.stroke(mark)
            elif isinstance(mark, Area):
                self.area(mark)
            elif isinstance(mark, Disc):
                self.disc(mark)
            else:
                self.words(mark)

    def at(self, point: Mm) -> Mm:
        """A point of the page, in points."""
        return point[0] / _POINT_MM, (self.sheet.size[1] - point[1]) / _POINT_MM

    def pen(self, weight: str | None, colour: Colour) -> int:
        """Sets the pen; 1 when there is one."""
        if weight is None:
            return 0
        self.canvas.setStrokeColor(shade(self.theme, colour))
        self.canvas.setLineWidth(getattr(self.theme.lines, weight) / _POINT_MM)
        return 1

    def outline(self, rings: tuple[tuple[Mm, ...], ...], *, closed: bool) -> Any:
        """The rings as one path."""
        found = self.canvas.beginPath()
        for ring in rings:
            found.moveTo(*self.at(ring[0]))
            for point in ring[1:]:
                found.lineTo(*self.at(point))
            if closed:
                found.close()
        return found

    def stroke(self, mark: Stroke) -> None:
        """A line."""
        self.pen(mark.weight, mark.colour)
        self.canvas.setDash([d / _POINT_MM for d in mark.dashes], 0)
        self.canvas.drawPath(self.outline((mark.points,), closed=mark.closed), stroke=1, fill=0)
        self.canvas.setDash([], 0)

    def area(self, mark: Area) -> None:
        """A filled region."""
        self.canvas.setFillColor(shade(self.theme, mark.fill))
        drawn = self.pen(mark.edge, mark.edge_colour)
        self.canvas.drawPath(self.outline(mark.rings, closed=True), stroke=drawn, fill=1, fillMode=0)

    def disc(self, mark: Disc) -> None:
        """A circle."""
        if mark.fill is not None:
            self.canvas.setFillColor(shade(self.theme, mark.fill))
        drawn = self.pen(mark.edge, mark.edge_colour)
        radius = mark.radius / _POINT_MM
        self.canvas.circle(*self.at(mark.centre), radius, stroke=drawn, fill=int(mark.fill is not None))

    def words(self, mark: Words) -> None:
        """A line of text."""
        size = size_mm(self.theme, mark.size)
        wide = width_mm(mark.text, size, bold=mark.bold)
        start = mark.at[0] - (wide / 2 if mark.anchor == "middle" else 0.0)
        self.canvas.setFont(_NAMES[mark.bold], size / _POINT_MM)
        self.canvas.setFillColor(shade(self.theme, mark.colour))
        self.canvas.drawString(*self.at((start, mark.at[1])), mark.text)
