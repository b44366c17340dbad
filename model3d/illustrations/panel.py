"""One setting drawn into a window of a page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from model3d.geometry.placement import Vec3
from model3d.illustrations import marks
from model3d.illustrations.balloons import Leader, arranged
from model3d.illustrations.camera import Camera, Points, Window, framed
from model3d.illustrations.picture import Arrow, Setting
from model3d.illustrations.regions import Deepest, deepest, outlines
from model3d.illustrations.shapes import Line
from model3d.illustrations.sheet import Area, Colour, Listed, Mark, Mm, Stroke
from model3d.illustrations.sight import NOTHING, Ids, Sight
from model3d.illustrations.strokes import strokes
from model3d.illustrations.theme import Theme
from model3d.illustrations.visibility import visible

CELLS_PER_MM = 4.0
BALLOON_AWAY_MM = 6.0
GUIDE_DASHES = (4.0, 0.9, 0.5, 0.9)  # a long dashed dotted thin line (ISO 128-2, 04.1)
SCALES = (1, 2, 5, 10, 20, 25, 50, 100, 200)
_DISTANCE = 4.5  # of the eye, in spans of what is drawn
ENOUGH_MM2 = 4.0  # of the page: a part of which that much is seen is seen well


class NotSeen(ValueError):
    """A part that the picture is about cannot be seen from any of its directions."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Drawn:
    """A panel as drawn: its marks, the room that they take up, and its parts list."""

    marks: tuple[Mark, ...]
    low: Mm
    high: Mm
    listed: tuple[Listed, ...]
    camera: Camera


def draw(setting: Setting, window: Window, theme: Theme, *, labels: bool, scale: float | None = None) -> Drawn:
    """The setting as large as it goes in the window, with everything that points at it. Raises NotSeen when a part that
    is listed or must be seen is not.
    """
    sight, camera = _sighted(setting, window, scale)
    own = (len(setting.items) > 0 or len(setting.flags) > 0) and labels
    inner = window
    for _ in range(6):
        drawn = _drawn(setting, inner, theme, camera, sight, labels=labels)
        over = max((drawn.high[0] - drawn.low[0]) / window.width, (drawn.high[1] - drawn.low[1]) / window.height)
        if not own or over <= 1.0001:
            return drawn
        inner = replace(inner, width=inner.width / over * 0.985, height=inner.height / over * 0.985)
        camera = framed(_corners(setting), camera, inner)
    return drawn


def standard_scale(most: float) -> float:
    """The largest reduction scale of ISO 5455 (or 1:25, in common use for rooms) that is no larger than ``most``."""
    return next((1.0 / n for n in SCALES if 1.0 / n <= most), most)


def _corners(setting: Setting) -> Points:
    own = [one.body.corners_mm.reshape(-1, 3) for one in setting.shown]
    return np.concatenate([*own, *(np.array(line) for line in setting.room_lines)])


def _sighted(setting: Setting, window: Window, scale: float | None) -> tuple[Sight, Camera]:
    """The bodies ready for rays, and a camera from the first direction that shows all that must be seen."""
    points = _corners(setting)
    middle = (points.min(axis=0) + points.max(axis=0)) / 2
    sight = Sight([one.body for one in setting.shown], middle)
    span = float(np.linalg.norm(points.max(axis=0) - points.min(axis=0)))
    ways = (setting.toward, *setting.others)
    tried: list[tuple[float, Camera]] = []
    for toward in ways:
        distance = None if setting.parallel else _DISTANCE * span
        bare = Camera(target_mm=(0.0, 0.0, 0.0), toward=toward, up=setting.up, distance_mm=distance)
        camera = framed(points, bare, window, scale=scale)
        if setting.to_scale and scale is None:
            camera = framed(points, bare, window, scale=standard_scale(camera.scale))
        seen = _least_seen(setting, sight, camera, window) if len(ways) > 1 else ENOUGH_MM2
        tried.append((seen, camera))
        if seen >= ENOUGH_MM2:
            break
    return sight, max(tried, key=lambda t: t[0])[1]


def _least_seen(setting: Setting, sight: Sight, camera: Camera, window: Window) -> float:
    """How much is seen, page mm2, of the place of which least is seen; of a place its best seen part counts."""
    per_mm = 2.0
    numbers, cells = np.unique(sight.id_map(camera, window, per_mm), return_counts=True)
    seen: dict[str, float] = {}
    for number, count in zip(numbers.tolist(), cells.tolist(), strict=True):
        if number != NOTHING:
            owner = sight.bodies[number].owner
            seen[owner] = seen.get(owner, 0.0) + count / per_mm**2
    places = [place for item in setting.items for place in item.places] + [(p,) for p in setting.must_see]
    return min((max(seen.get(owner, 0.0) for owner in place) for place in places), default=ENOUGH_MM2)


def _deepest(ids: Ids, sight: Sight, owner: str, window: Window, per_mm: float) -> Deepest | None:
    numbers = [k for k, body in enumerate(sight.bodies) if body.owner == owner]
    return deepest(np.isin(ids, numbers), window, per_mm)


def _drawn(setting: Setting, inner: Window, theme: Theme, camera: Camera, sight: Sight, *, labels: bool) -> Drawn:
    seen = strokes(setting.shown, sight, camera)
    room = _hidden_away(setting.room_lines, sight, camera, guide=False)
    guides = _hidden_away(setting.guides, sight, camera, guide=True)
    ids = sight.id_map(camera, inner, CELLS_PER_MM)
    found: list[Mark] = []
    if theme.tints:
        found += _tints(setting, ids, sight, inner)
    greased = [k for k, body in enumerate(sight.bodies) if body.owner in setting.stipple]
    found += [*room, *seen, *guides]
    found += marks.dots(np.isin(ids, greased), inner, CELLS_PER_MM)
    points = [p for stroke in (*seen, *room, *guides) for p in stroke.points]
    for arrow in setting.arrows:
        made = list(_arrow(arrow, camera, theme, labels=labels))
        found += made
        points += [p for mark in made if isinstance(mark, Area) for p in mark.rings[0]]
    listed: tuple[Listed, ...] = ()
    if labels:
        leaders, listed = _balloons(setting, ids, sight, inner, points, theme)
        radius = marks.balloon_radius_mm(theme)
        for number, one in leaders:
            found += marks.balloon(str(number), one.balloon, one.anchor, theme)
            points += [(one.balloon[0] + sx * radius, one.balloon[1] + sy * radius) for sx, sy in ((-1, -1), (1, 1))]
        made = list(_flags(setting, ids, sight, inner, camera, points, theme))
        found += made
        points += [p for mark in made if isinstance(mark, Area) for p in mark.rings[0]]
    ends = np.array(points)
    low, high = ends.min(axis=0), ends.max(axis=0)
    return Drawn(
        marks=tuple(found),
        low=(float(low[0]), float(low[1])),
        high=(float(high[0]), float(high[1])),
        listed=listed,
        camera=camera,
    )


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


def _balloons(
    setting: Setting, ids: Ids, sight: Sight, window: Window, drawn: list[Mm], theme: Theme
) -> tuple[list[tuple[int, Leader]], tuple[Listed, ...]]:
    """Each place's balloon with its number, and the parts list. Raises NotSeen when a place is not seen at all."""
    anchors: list[Mm] = []
    numbers: list[int] = []
    for number, item in enumerate(setting.items, start=1):
        for place in item.places:
            seen = [d for d in (_deepest(ids, sight, owner, window, CELLS_PER_MM) for owner in place) if d]
            if not seen:
                raise NotSeen(f"nothing is seen of {item.name}: {', '.join(place)}")
            anchors.append(_best(seen).at)
            numbers.append(number)
    radius = marks.balloon_radius_mm(theme)
    leaders = arranged(anchors, drawn, radius_mm=radius, away_mm=BALLOON_AWAY_MM)
    listed = tuple(Listed(number=k, name=i.name, count=i.count) for k, i in enumerate(setting.items, start=1))
    return list(zip(numbers, leaders, strict=True)), listed


def _best(seen: Sequence[Deepest]) -> Deepest:
    """Of like parts in one place the uppermost that is seen nearly as well as the best one."""
    least = 0.7 * max(d.depth_mm for d in seen)
    return min((d for d in seen if d.depth_mm >= least), key=lambda d: d.at[1])


def _flags(
    setting: Setting, ids: Ids, sight: Sight, window: Window, camera: Camera, drawn: list[Mm], theme: Theme
) -> Iterator[Mark]:
    """Words round the drawing, each tied to its point."""
    anchors: list[Mm] = []
    for flag in setting.flags:
        if flag.at_mm is not None:
            x, y = camera.project(np.array([flag.at_mm]))[0, :2]
            anchors.append((float(x), float(y)))
        else:
            found = _deepest(ids, sight, flag.owner, window, CELLS_PER_MM)
            if found is None:
                raise NotSeen(f"nothing is seen of {flag.owner}")
            anchors.append(found.at)
    if not anchors:
        return
    sizes = [marks.flag_size_mm(flag.text, theme) for flag in setting.flags]
    widest = max(half for half, _ in sizes)
    leaders = arranged(anchors, drawn, radius_mm=widest, away_mm=1.5)
    for flag, one in zip(setting.flags, leaders, strict=True):
        yield from marks.flag(flag.text, one.balloon, one.anchor, flag.colour, theme)
