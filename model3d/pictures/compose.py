"""From a stage to a page: viewpoint, arrows, close-ups, letters and callouts, each in its place. Nothing is
drawn here.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from model3d.pictures.arrows import ArrowSize, drawn_swing, inset_size, main_size, spread
from model3d.pictures.bands import bands
from model3d.pictures.lettering import balanced, set_text
from model3d.pictures.page import DrawnArrow, DrawnBadge, DrawnCallout, DrawnInset, Page, PlacedText
from model3d.pictures.paper import Box, Disc, Paper, Px, Ring, Shape, Stroke
from model3d.pictures.placing import CELL_PX, Spot, Worth, place_insets, place_label, worth_of
from model3d.pictures.sight import RayScene, only, sighting
from model3d.pictures.solids import placed
from model3d.pictures.stage import Arrow, Badge, Callout, Camera, Inset, Points, Stage, Swing
from model3d.pictures.theme import THEME, Theme
from model3d.pictures.viewpoint import View, chosen, inset_view, stepped_back
from model3d.pictures.views import Room, pixels_per_mm, project

_MARK_PX = 30.0
_PAD_PX = 9.0
_ROOMS = (
    Room(left=90, right=90, top=64, bottom=64),
    Room(left=190, right=190, top=90, bottom=90),
    Room(left=290, right=290, top=120, bottom=120),
)
_COVER_LIMIT = 60.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Window:
    """A camera's picture on the page: where a room point falls, and what its pixels are worth."""

    camera: Camera
    frame: Box
    worth: Worth

    def pixels(self, points_mm: Points) -> Points:
        seen = project(self.camera, points_mm, round(self.frame.width), round(self.frame.height))
        return np.asarray(seen + np.array([self.frame.left, self.frame.top, 0.0]))

    def pixel(self, at_mm: tuple[float, float, float]) -> Px:
        x, y, _ = self.pixels(np.array([at_mm]))[0]
        return float(x), float(y)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Marks:
    arrows: tuple[DrawnArrow, ...]
    badges: tuple[DrawnBadge, ...]
    callouts: tuple[DrawnCallout, ...]


def composed(stage: Stage, theme: Theme) -> Page:
    """Lay a whole page out. The camera steps back until the close-ups find room that covers nothing of the
    work.
    """
    around = bands(stage, theme)
    panel = around.panel
    size = round(panel.width), round(panel.height)
    titles = [_title(inset, theme) for inset in stage.insets]
    paper = Paper(size=theme.page_px)
    view = chosen(stage, theme, size, _ROOMS[0])
    for room in _ROOMS:
        if room is not _ROOMS[0]:
            view = stepped_back(view, stage, theme, size, room)
        window = _window(view, panel)
        arrows = _arrows(stage.arrows, stage.swings, window, main_size(theme), paper)
        spots = [_spot(inset, title, window) for inset, title in zip(stage.insets, titles, strict=True)]
        busy = paper.with_shapes((shape for arrow in arrows for shape in arrow.shapes()), 6.0)
        centres, cover = place_insets(spots, theme.inset_px / 2, window.worth, busy)
        if cover < _COVER_LIMIT * max(len(spots), 1) or stage.camera is not None:
            break
    heads = [_title_box(title, centre, theme) for title, centre in zip(titles, centres, strict=True)]
    busy = busy.only_inside(panel.grown(-8)).with_shapes(_inset_shapes(spots, centres, heads, theme))
    marks = _marks(arrows, stage.badges, stage.callouts, window, theme, busy)
    insets = tuple(
        _inset(stage, inset, spot, centre, (title, head), theme)
        for inset, spot, centre, title, head in zip(stage.insets, spots, centres, titles, heads, strict=True)
    )
    return Page(
        size=theme.page_px,
        bands=around,
        view=view,
        facing=stage.facing,
        shade_mm=_shade_mm(view.camera),
        arrows=marks.arrows,
        badges=marks.badges,
        callouts=marks.callouts,
        insets=insets,
    )


def visible_share(
    stage: Stage, actor_ids: Collection[str], camera: Camera | None = None, theme: Theme = THEME
) -> float:
    """Share of the actors' silhouette that is seen, against the same actors alone from the same camera, 0 to
    1.

    ``camera`` None: the viewpoint that the step picture takes, with the room opened up as there; otherwise
    the stage as it stands, nothing cut. Measured on an id map of 800 pixels' width. Raises ValueError when no
    actor has such an id.
    """
    if camera is None:
        view = composed(stage, theme).view
        solids, camera = view.solids, view.camera
    else:
        solids = placed(stage.actors, stage.meshes)
    return sighting(RayScene(solids), only(solids, actor_ids), camera, (800, 350)).share


def _shade_mm(camera: Camera) -> float:
    """Reach of ambient occlusion: a twelfth of the distance, at most 160 mm."""
    far = float(np.linalg.norm(np.subtract(camera.eye_mm, camera.target_mm)))
    return round(min(160.0, far / 12), 1)


def _window(view: View, frame: Box) -> _Window:
    scene = RayScene(view.solids)
    cells = scene.id_map(view.camera, (round(frame.width) // CELL_PX, round(frame.height) // CELL_PX))
    return _Window(camera=view.camera, frame=frame, worth=worth_of(cells, view.solids, frame))


def _inset_shapes(spots: Sequence[Spot], centres: Sequence[Px], heads: Sequence[Box], theme: Theme) -> Iterator[Shape]:
    """The paper that close-ups take: rings, titles, leaders, and the rims of the spots they enlarge."""
    for spot, centre, head in zip(spots, centres, heads, strict=True):
        yield Disc(at=centre, radius=theme.inset_px / 2 + 5)
        yield head
        yield Stroke(start=spot.at, end=centre, width=6.0)
        yield Ring(at=spot.at, radius=spot.radius, width=6.0)


def _arrows(
    arrows: Sequence[Arrow], swings: Sequence[Swing], window: _Window, size: ArrowSize, paper: Paper
) -> tuple[DrawnArrow, ...]:
    curved = tuple(drawn_swing(swing, window.pixels, size) for swing in swings)
    busy = paper.with_shapes((shape for arrow in curved for shape in arrow.shapes()), 8.0)
    return (*curved, *spread(arrows, window.pixels, window.frame, size, busy))


def _spot(inset: Inset, title: PlacedText, window: _Window) -> Spot:
    scale = pixels_per_mm(window.camera, inset.centre_mm, round(window.frame.height))
    radius = float(np.clip(inset.radius_mm * scale, 18.0, 70.0))
    return Spot(
        at=window.pixel(inset.centre_mm),
        radius=radius,
        title=(title.block.width_px + 2 * _PAD_PX, title.block.height_px + _PAD_PX),
    )


def _title(inset: Inset, theme: Theme) -> PlacedText:
    block = balanced(inset.title, theme.callout_px, theme.inset_px - 2 * _PAD_PX, True)
    return PlacedText(block=block, left=0.0, top=0.0, colour=theme.ink, anchor="middle")


def _title_box(title: PlacedText, centre: Px, theme: Theme) -> Box:
    wide, high = title.block.width_px + 2 * _PAD_PX, title.block.height_px + _PAD_PX
    top = centre[1] + theme.inset_px / 2 - high / 2
    return Box(left=centre[0] - wide / 2, top=top, width=wide, height=high)


def _inset(
    stage: Stage, inset: Inset, spot: Spot, centre: Px, title: tuple[PlacedText, Box], theme: Theme
) -> DrawnInset:
    radius = theme.inset_px / 2
    view = inset_view(inset, stage, theme)
    frame = Box(left=centre[0] - radius, top=centre[1] - radius, width=2 * radius, height=2 * radius)
    window = _window(view, frame)
    badges = (
        inset.badges
        if inset.badges is not None
        else tuple(
            badge
            for badge in stage.badges
            if float(np.linalg.norm(np.subtract(badge.at_mm, inset.centre_mm))) < inset.radius_mm * 0.9
        )
    )
    paper = Paper(size=theme.page_px).with_shapes([title[1]])
    arrows = _arrows(inset.arrows, (), window, inset_size(theme), paper)
    inside = paper.only_inside(Disc(at=centre, radius=radius - 6))
    marks = _marks(arrows, badges, inset.callouts, window, theme, inside)
    text = replace(title[0], left=centre[0], top=title[1].top + _PAD_PX / 2)
    return DrawnInset(
        view=view,
        centre=centre,
        radius=radius,
        shade_mm=round(inset.radius_mm * 0.4, 1),
        title=text,
        title_box=title[1],
        spot=spot.at,
        spot_radius=spot.radius,
        arrows=marks.arrows,
        badges=marks.badges,
        callouts=marks.callouts,
    )


def _marks(
    arrows: tuple[DrawnArrow, ...],
    badges: Sequence[Badge],
    callouts: Sequence[Callout],
    window: _Window,
    theme: Theme,
    paper: Paper,
) -> _Marks:
    """Letters first, then words, each off the arrows, the points of the others, and what is placed before it."""
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
    return _Marks(arrows=arrows, badges=tuple(letters), callouts=tuple(words))


def _words(callout: Callout, window: _Window, theme: Theme, paper: Paper) -> DrawnCallout:
    tip = window.pixel(callout.at_mm)
    block = set_text(callout.text, theme.callout_px, 300.0)
    mark = _MARK_PX if callout.kind != "plain" else 0.0
    size = block.width_px + 2 * _PAD_PX + mark, max(block.height_px, mark - 4) + _PAD_PX
    place = place_label(size, tip, window.worth, paper)
    top = place.middle[1] - block.height_px / 2
    text = PlacedText(block=block, left=place.left + _PAD_PX + mark, top=top, colour=theme.ink)
    return DrawnCallout(text=text, kind=callout.kind, box=place, tip=tip)
