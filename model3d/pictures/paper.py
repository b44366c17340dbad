"""Shapes on the page and what paper they take, on a fine grid of cells: the arithmetic behind placing without
overlap.

Pixels count right and down from the page's top left corner.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt
from PIL import Image, ImageDraw

Px = tuple[float, float]
Mask = npt.NDArray[np.bool_]

FINE_PX = 2


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

    @property
    def diagonals(self) -> tuple[tuple[Px, Px], tuple[Px, Px]]:
        """Its two diagonals: a line that runs through the box from side to side crosses one of them."""
        return ((self.left, self.top), (self.right, self.bottom)), ((self.left, self.bottom), (self.right, self.top))

    def grown(self, by: float) -> Box:
        """The same with ``by`` more on each side."""
        return Box(left=self.left - by, top=self.top - by, width=self.width + 2 * by, height=self.height + 2 * by)

    def holds(self, other: Box) -> bool:
        """Whether ``other`` lies wholly inside."""
        return (
            self.left <= other.left
            and other.right <= self.right
            and self.top <= other.top
            and other.bottom <= self.bottom
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Disc:
    """A full circle."""

    at: Px
    radius: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A circle's line."""

    at: Px
    radius: float
    width: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A closed polygon, and the width of the line drawn round it."""

    points: tuple[Px, ...]
    line: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A straight line of some width."""

    start: Px
    end: Px
    width: float


Shape = Box | Disc | Ring | Outline | Stroke


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Paper:
    """Which cells of a page are taken; cells are ``FINE_PX`` pixels wide. Values: each change gives a new
    paper.
    """

    size: tuple[int, int]
    taken: Mask = field(default_factory=lambda: np.zeros((0, 0), dtype=bool))

    def __post_init__(self) -> None:
        if self.taken.size == 0:
            cells = (-(-self.size[1] // FINE_PX), -(-self.size[0] // FINE_PX))
            object.__setattr__(self, "taken", np.zeros(cells, dtype=bool))

    def with_shapes(self, shapes: Iterable[Shape], grow_px: float = 0.0) -> Paper:
        """The same paper with these shapes on it, each ``grow_px`` larger all round."""
        return Paper(size=self.size, taken=self.taken | drawn(self.size, shapes, grow_px))

    def only_inside(self, shape: Shape) -> Paper:
        """The same paper with everything outside ``shape`` taken."""
        return Paper(size=self.size, taken=self.taken | ~drawn(self.size, [shape]))

    def area_px(self, mask: Mask) -> float:
        """Taken pixels under a mask of cells."""
        return float((self.taken & mask).sum()) * FINE_PX**2

    def free(self, box: Box) -> bool:
        """Whether a rectangle lies on the page and touches nothing."""
        if box.left < 0 or box.top < 0 or box.right > self.size[0] or box.bottom > self.size[1]:
            return False
        top, bottom = int(box.top // FINE_PX), math.ceil(box.bottom / FINE_PX)
        left, right = int(box.left // FINE_PX), math.ceil(box.right / FINE_PX)
        return not bool(self.taken[top:bottom, left:right].any())

    def along_px(self, start: Px, end: Px) -> float:
        """How many pixels of a line run over what is taken."""
        far = math.dist(start, end)
        count = max(2, int(far / FINE_PX))
        rows = np.linspace(start[1], end[1], count) // FINE_PX
        columns = np.linspace(start[0], end[0], count) // FINE_PX
        high, wide = self.taken.shape
        hit = self.taken[np.clip(rows, 0, high - 1).astype(np.int64), np.clip(columns, 0, wide - 1).astype(np.int64)]
        return float(hit.mean()) * far


def drawn(size: tuple[int, int], shapes: Iterable[Shape], grow_px: float = 0.0) -> Mask:
    """The cells of a page of ``size`` pixels under any of the shapes."""
    image = Image.new("1", (-(-size[0] // FINE_PX), -(-size[1] // FINE_PX)))
    pen = ImageDraw.Draw(image)
    for shape in shapes:
        _draw(pen, shape, grow_px)
    return np.array(image, dtype=bool)


def _draw(pen: ImageDraw.ImageDraw, shape: Shape, grow: float) -> None:
    if isinstance(shape, Box):
        at = shape.grown(grow)
        pen.rectangle([c / FINE_PX for c in (at.left, at.top, at.right - 1, at.bottom - 1)], fill=1)
    elif isinstance(shape, Disc):
        pen.ellipse(_square(shape.at, shape.radius + grow), fill=1)
    elif isinstance(shape, Ring):
        width = max(1, round((shape.width + 2 * grow) / FINE_PX))
        pen.ellipse(_square(shape.at, shape.radius + grow + shape.width / 2), outline=1, width=width)
    elif isinstance(shape, Outline):
        points = [(x / FINE_PX, y / FINE_PX) for x, y in shape.points]
        pen.polygon(points, fill=1)
        edge = round((shape.line + 2 * grow) / FINE_PX)
        if edge > 0:
            pen.line([*points, points[0]], fill=1, width=edge)
    else:
        ends = [(x / FINE_PX, y / FINE_PX) for x, y in (shape.start, shape.end)]
        pen.line(ends, fill=1, width=max(1, round((shape.width + 2 * grow) / FINE_PX)))


def _square(at: Px, radius: float) -> list[float]:
    return [c / FINE_PX for c in (at[0] - radius, at[1] - radius, at[0] + radius, at[1] + radius)]


def within(at: Px, box: Box) -> bool:
    """Whether a point lies inside a box."""
    return box.left < at[0] < box.right and box.top < at[1] < box.bottom


def from_line_px(at: Px, line: tuple[Px, Px]) -> float:
    """How far a point is from a straight line between two points."""
    (x, y), (p, q) = line
    long2 = (p - x) ** 2 + (q - y) ** 2
    share = ((at[0] - x) * (p - x) + (at[1] - y) * (q - y)) / long2 if long2 else 0.0
    share = min(max(share, 0.0), 1.0)
    return math.dist(at, (x + share * (p - x), y + share * (q - y)))


def crossing(a: tuple[Px, Px], b: tuple[Px, Px]) -> bool:
    """Whether two straight lines cross or touch."""

    def side(p: Px, q: Px, r: Px) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(*a, b[0]) * side(*a, b[1]) <= 0 and side(*b, a[0]) * side(*b, a[1]) <= 0
