"""The settings of a picture drawn into windows of a page, all at one scale and from one place."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from model3d.geometry.placement import Vec3
from model3d.illustrations import marks
from model3d.illustrations.callouts import Callouts, balloons, flags
from model3d.illustrations.camera import Camera, Window, framed
from model3d.illustrations.picture import Arrow, Setting
from model3d.illustrations.regions import outlines
from model3d.illustrations.shapes import Line
from model3d.illustrations.sheet import Area, Colour, Disc, Listed, Mark, Mm, Stroke
from model3d.illustrations.sight import Ids, Sight
from model3d.illustrations.strokes import strokes
from model3d.illustrations.viewing import camera_of, corners, sight_of
from model3d.illustrations.visibility import visible
from model3d.themes import Theme
from model3d.wording import Catalogue

CELLS_PER_MM = 4.0
GUIDE_DASHES = (4.0, 0.9, 0.5, 0.9)  # a long dashed dotted thin line (ISO 128-2, 04.1)
_FITTING_ROUNDS = 6


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Drawn:
    """A panel as drawn: its marks, the room that they take up, and its parts list. Panels of one picture take up the
    same room.
    """

    marks: tuple[Mark, ...]
    low: Mm
    high: Mm
    listed: tuple[Listed, ...]
    camera: Camera


def draw(
    settings: Sequence[Setting],
    window: Window,
    theme: Theme,
    words: Catalogue,
    *,
    labels: bool,
    scale: float | None = None,
) -> tuple[Drawn, ...]:
    """The settings as large as they go in the window, with everything that points at them, seen from one place that
    the first of them decides. Raises NotSeen when a part that is listed or must be seen is not.
    """
    points = corners(settings)
    sights = [sight_of(setting, points) for setting in settings]
    first = settings[0]
    if first.outlook is not None:
        window = replace(window, height=window.width / first.outlook.aspect)
    camera = camera_of(first, sights[0], points, window, scale)
    inner = window
    for _ in range(_FITTING_ROUNDS):
        drawn = [
            _drawn(one, inner, theme, camera, sight, words if labels else None)
            for one, sight in zip(settings, sights, strict=True)
        ]
        low = min(d.low[0] for d in drawn), min(d.low[1] for d in drawn)
        high = max(d.high[0] for d in drawn), max(d.high[1] for d in drawn)
        over = max((high[0] - low[0]) / window.width, (high[1] - low[1]) / window.height)
        if not labels or first.outlook is not None or over <= 1.0001:
            break
        inner = replace(inner, width=inner.width / over * 0.985, height=inner.height / over * 0.985)
        camera = framed(points, camera, inner)
    return tuple(replace(d, low=low, high=high) for d in drawn)


def _drawn(
    setting: Setting, inner: Window, theme: Theme, camera: Camera, sight: Sight, words: Catalogue | None
) -> Drawn:
    """One setting; without ``words`` nothing is called out."""
    seen = strokes(setting.shown, sight, camera, inner if setting.outlook is not None else None)
    room = _hidden_away(setting.room_lines, sight, camera, guide=False)
    guides = _hidden_away(setting.guides, sight, camera, guide=True)
    ids = sight.id_map(camera, inner, CELLS_PER_MM)
    found: list[Mark] = list(_tints(setting, ids, sight, inner)) if theme.tints > 0.0 else []
    greased = [k for k, body in enumerate(sight.bodies) if body.owner in setting.stipple]
    found += [*room, *seen, *guides]
    found += marks.dots(np.isin(ids, greased), inner, CELLS_PER_MM)
    points = [p for stroke in (*seen, *room, *guides) for p in stroke.points]
    if setting.outlook is not None:
        rim = _rim(inner)
        found.append(rim)
        points += rim.points
    for arrow in setting.arrows:
        made = list(_arrow(arrow, camera, theme, labels=words is not None))
        found += made
        points += _reach(made)
    listed: tuple[Listed, ...] = ()
    if words is not None:
        seeing = Callouts(
            setting=setting, ids=ids, sight=sight, window=inner, camera=camera, theme=theme, words=words
        )
        made, listed = balloons(seeing, points)
        found += made
        points += _reach(made)
        made = list(flags(seeing, points))
        found += made
        points += _reach(made)
    ends = np.array(points)
    low, high = ends.min(axis=0), ends.max(axis=0)
    return Drawn(
        marks=tuple(found),
        low=(float(low[0]), float(low[1])),
        high=(float(high[0]), float(high[1])),
        listed=listed,
        camera=camera,
    )


def _reach(found: Sequence[Mark]) -> Iterator[Mm]:
    """Points between which marks lie, but for words, which stand on other marks."""
    for mark in found:
        if isinstance(mark, Area):
            yield from (p for ring in mark.rings for p in ring)
        elif isinstance(mark, Stroke):
            yield from mark.points
        elif isinstance(mark, Disc):
            x, y = mark.centre
            yield from ((x - mark.radius, y - mark.radius), (x + mark.radius, y + mark.radius))


def _rim(window: Window) -> Stroke:
    """The rim of a picture that is cut off at it."""
    x, y = window.left + window.width, window.top + window.height
    ring = ((window.left, window.top), (x, window.top), (x, y), (window.left, y))
    return Stroke(points=ring, weight="thin", colour="soft", closed=True)


def _tints(setting: Setting, ids: Ids, sight: Sight, window: Window) -> Iterator[Mark]:
    for number, one in enumerate(setting.shown):
        if one.tint is not None:
            rings = outlines(ids == number, window, CELLS_PER_MM)
            if rings:
                yield Area(rings=rings, fill=one.tint, owner=sight.bodies[number].owner)


def _hidden_away(paths: Sequence[tuple[Vec3, ...]], sight: Sight, camera: Camera, *, guide: bool) -> list[Stroke]:
    """What is seen of lines that belong to no body."""
    lines = [Line(points_mm=np.array(path), sides=np.zeros((2, len(path), 3)), bend="contour") for path in paths]
    found = []
    for stretch in visible(lines, sight, camera):
        page = camera.project(stretch.points_mm)[:, :2]
        ends = [(float(x), float(y)) for x, y in (page if len(lines[stretch.line].points_mm) > 2 else page[[0, -1]])]
        colour: Colour = "callout" if guide else "soft"
        dashes = GUIDE_DASHES if guide else ()
        found.append(Stroke(points=tuple(ends), weight="thin", colour=colour, dashes=dashes))
    return found


def _arrow(arrow: Arrow, camera: Camera, theme: Theme, *, labels: bool) -> Iterator[Mark]:
    start, end = camera.project(np.array([arrow.start_mm, arrow.end_mm]))[:, :2].tolist()
    yield from marks.arrow((start[0], start[1]), (end[0], end[1]), arrow.label, theme, labels=labels)
