"""What is wrong with a finished sheet, read off its marks alone."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from model3d.illustrations.lettering import size_mm, width_mm
from model3d.illustrations.marks import DOT_MM, balloon_radius_mm
from model3d.illustrations.sheet import Area, Disc, Mm, Sheet, Stroke, Words
from model3d.themes import Theme

Box = tuple[float, float, float, float]
SLACK_MM = 0.02


@dataclass(frozen=True, slots=True, kw_only=True)
class Leader:
    """From a label to the dot on what it is about."""

    start: Mm
    end: Mm


def faults(sheet: Sheet, theme: Theme) -> list[str]:
    """Words off the page or over one another, labels over one another, leaders that cross or run over a label, numbers
    of the drawing and of its list that do not match.
    """
    return [*_words(sheet, theme), *_labels(sheet, theme), *_leaders(sheet, theme), *_numbers(sheet, theme)]


def word_box(mark: Words, theme: Theme) -> Box:
    """The room that a line of text takes, from its base line to the height of its capitals."""
    size = size_mm(theme, mark.size)
    wide = width_mm(mark.text, size, bold=mark.bold)
    left = mark.at[0] - (wide / 2 if mark.anchor == "middle" else 0.0)
    return left, mark.at[1] - 0.73 * size, left + wide, mark.at[1]


def leaders_of(sheet: Sheet) -> list[Leader]:
    """Every thin straight line that ends in a dot."""
    found = []
    for line, dot in pairwise(sheet.marks):
        if not isinstance(line, Stroke) or not isinstance(dot, Disc) or dot.radius != DOT_MM:
            continue
        if len(line.points) == 2 and line.weight == "thin" and math.dist(dot.centre, line.points[1]) < 1e-6:
            found.append(Leader(start=line.points[0], end=line.points[1]))
    return found


def labels_of(sheet: Sheet, theme: Theme) -> list[Box]:
    """Balloons, the numbers of arrows and of captions, flags, and letters of clips that stand in no flag."""
    radius = balloon_radius_mm(theme)
    discs = [m for m in sheet.marks if isinstance(m, Disc) and m.radius == radius]
    boxes = [_round(m.rings[0]) for m in sheet.marks if isinstance(m, Area) and m.edge == "medium" and _is_box(m)]
    flags = [b for b in boxes if not any(_within(b, other) for other in boxes if other != b)]
    return [(x - radius, y - radius, x + radius, y + radius) for x, y in (d.centre for d in discs)] + flags


def _is_box(mark: Area) -> bool:
    ring = mark.rings[0]
    return len(ring) == 4 and ring[0][1] == ring[1][1] and ring[1][0] == ring[2][0]


def _round(ring: Sequence[Mm]) -> Box:
    return min(x for x, _ in ring), min(y for _, y in ring), max(x for x, _ in ring), max(y for _, y in ring)


def _within(one: Box, other: Box) -> bool:
    return (
        one[0] >= other[0] - SLACK_MM
        and one[1] >= other[1] - SLACK_MM
        and one[2] <= other[2] + SLACK_MM
        and one[3] <= other[3] + SLACK_MM
    )


def _meet(one: Box, other: Box) -> bool:
    across = min(one[2], other[2]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[1], other[1])
    return across > SLACK_MM and down > SLACK_MM


def _words(sheet: Sheet, theme: Theme) -> Iterator[str]:
    found = [(m, word_box(m, theme)) for m in sheet.marks if isinstance(m, Words)]
    page = (0.0, 0.0, *sheet.size)
    for mark, box in found:
        if not _within(box, page):
            yield f"'{mark.text}' runs off the page"
    for (one, a), (other, b) in combinations(found, 2):
        if _meet(a, b):
            yield f"'{one.text}' lies over '{other.text}'"


def _labels(sheet: Sheet, theme: Theme) -> Iterator[str]:
    radius = balloon_radius_mm(theme)
    for a, b in combinations(labels_of(sheet, theme), 2):
        round_a, round_b = (abs(box[2] - box[0] - 2 * radius) < 1e-6 for box in (a, b))
        if round_a and round_b:
            over = math.dist(_middle(a), _middle(b)) < 2 * radius - SLACK_MM
        elif round_a or round_b:
            (x, y), box = (_middle(a), b) if round_a else (_middle(b), a)
            nearest = (min(max(x, box[0]), box[2]), min(max(y, box[1]), box[3]))
            over = math.dist((x, y), nearest) < radius - SLACK_MM
        else:
            over = _meet(a, b)
        if over:
            yield f"labels lie over one another at {a[0]:.1f}, {a[1]:.1f}"


def _middle(box: Box) -> Mm:
    return (box[0] + box[2]) / 2, (box[1] + box[3]) / 2


def _leaders(sheet: Sheet, theme: Theme) -> Iterator[str]:
    leaders = leaders_of(sheet)
    for one, other in combinations(leaders, 2):
        if _cross(one, other):
            yield f"leaders cross near {one.end[0]:.1f}, {one.end[1]:.1f}"
    for leader in leaders:
        for box in labels_of(sheet, theme):
            middle, half = _middle(box), min(box[2] - box[0], box[3] - box[1]) / 2
            own = _within((*leader.start, *leader.start), (box[0] - 0.1, box[1] - 0.1, box[2] + 0.1, box[3] + 0.1))
            if not own and _off(middle, leader.start, leader.end) < half - SLACK_MM:
                yield f"a leader runs over a label at {middle[0]:.1f}, {middle[1]:.1f}"


def _side(a: Mm, b: Mm, c: Mm) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _cross(one: Leader, other: Leader) -> bool:
    a, b, c, d = one.start, one.end, other.start, other.end
    return _side(a, b, c) * _side(a, b, d) < 0 and _side(c, d, a) * _side(c, d, b) < 0


def _off(point: Mm, a: Mm, b: Mm) -> float:
    x, y = b[0] - a[0], b[1] - a[1]
    share = ((point[0] - a[0]) * x + (point[1] - a[1]) * y) / max(x * x + y * y, 1e-12)
    share = min(max(share, 0.0), 1.0)
    return math.dist(point, (a[0] + share * x, a[1] + share * y))


def _numbers(sheet: Sheet, theme: Theme) -> Iterator[str]:
    """Every number must stand in the list and on the drawing, of parts and of arrows alike."""
    radius = balloon_radius_mm(theme)
    for colour in ("callout", "move"):
        round_marks = [m for m in sheet.marks if isinstance(m, Disc) and m.radius == radius]
        discs = {m.centre for m in round_marks if m.edge_colour == colour}
        texts = [
            m.text
            for m in sheet.marks
            if isinstance(m, Words) and m.size == "balloon" and _near(m, discs, theme)
        ]
        for text in sorted(set(texts)):
            if texts.count(text) < 2:
                yield f"number {text} stands in only one of drawing and list"


def _near(mark: Words, discs: set[Mm], theme: Theme) -> bool:
    left, top, right, bottom = word_box(mark, theme)
    middle = ((left + right) / 2, (top + bottom) / 2)
    return any(math.dist(middle, centre) < 0.6 for centre in discs)
