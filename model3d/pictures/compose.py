"""From a stage to a page: viewpoint, arrows, close-ups, letters and callouts, each in its place. Nothing is
drawn here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from shapely.geometry import LineString, Point
from shapely.geometry.base import BaseGeometry

from model3d.pictures.arrows import ArrowSize, drawn_swing, inset_size, main_size, spread
from model3d.pictures.bands import bands
from model3d.pictures.lettering import balanced, set_text
from model3d.pictures.page import (
    Box, DrawnArrow, DrawnBadge, DrawnCallout, DrawnInset, Page, PlacedText, Px,
)
from model3d.pictures.placing import CELL_PX, Spot, Worth, place_insets, place_label, worth_of
from model3d.pictures.sight import RayScene
from model3d.pictures.stage import Arrow, Badge, Callout, Camera, Inset, Points, Stage, Swing
from model3d.pictures.theme import Theme
from model3d.pictures.viewpoint import View, chosen, inset_view
from model3d.pictures.views import Room, pixels_per_mm, project

_MARK_PX = 30.0
_PAD_PX = 9.0
_ROOMS = (Room(left=90, right=90, top=64, bottom=64), Room(left=190, right=190, top=90, bottom=90),
          Room(left=290, right=290, top=120, bottom=120))
_COVER_LIMIT = 60.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Window:
    """A camera's picture on the page: where a room point falls, and what its pixels are worth."""

    camera: Camera
    frame: Box
    worth: Worth
    inside: BaseGeometry

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
    for room in _ROOMS:
        view = chosen(stage, theme, size, room)
        window = _window(view, panel)
        arrows = _arrows(stage.arrows, stage.swings, window, main_size(theme), ())
        spots = [_spot(inset, title, window) for inset, title in zip(stage.insets, titles, strict=True)]
        shapes = [arrow.shape().buffer(6) for arrow in arrows]
        centres, cover = place_insets(spots, theme.inset_px / 2, window.worth, shapes)
        if cover < _COVER_LIMIT * max(len(spots), 1) or stage.camera is not None:
            break
    rings = [Point(centre).buffer(theme.inset_px / 2 + 5) for centre in centres]
    heads = [_title_box(title, centre, theme) for title, centre in zip(titles, centres, strict=True)]
    ties = [LineString([spot.at, centre]).buffer(3) for spot, centre in zip(spots, centres, strict=True)]
    marks = _marks(arrows, stage.badges, stage.callouts, window, theme,
                   [*rings, *(head.shape() for head in heads), *ties])
    insets = tuple(
        _inset(stage, inset, spot, centre, (title, head), theme)
        for inset, spot, centre, title, head in zip(stage.insets, spots, centres, titles, heads, strict=True)
    )
    return Page(
        size=theme.page_px, bands=around, view=view, facing=stage.facing, shade_mm=_shade_mm(view.camera),
        arrows=marks.arrows, badges=marks.badges, callouts=marks.callouts, insets=insets,
    )


def _shade_mm(camera: Camera) -> float:
    """Reach of ambient occlusion: a twentieth of the distance, at most 160 mm."""
    far = float(np.linalg.norm(np.subtract(camera.eye_mm, camera.target_mm)))
    return round(min(160.0, far / 20), 1)


def _window(view: View, frame: Box) -> _Window:
    scene = RayScene(view.solids)
    cells = scene.id_map(view.camera, (round(frame.width) // CELL_PX, round(frame.height) // CELL_PX))
    return _Window(
        camera=view.camera, frame=frame, worth=worth_of(cells, view.solids, frame), inside=frame.shape().buffer(-8)
    )


def _arrows(
    arrows: Sequence[Arrow], swings: Sequence[Swing], window: _Window, size: ArrowSize, taken: Sequence[BaseGeometry]
) -> tuple[DrawnArrow, ...]:
    curved = tuple(drawn_swing(swing, window.pixels, size) for swing in swings)
    busy = [*taken, *(arrow.shape().buffer(8) for arrow in curved)]
    return (*curved, *spread(arrows, window.pixels, window.frame, size, busy))


def _spot(inset: Inset, title: PlacedText, window: _Window) -> Spot:
    scale = pixels_per_mm(window.camera, inset.centre_mm, round(window.frame.height))
    radius = float(np.clip(inset.radius_mm * scale, 18.0, 70.0))
    return Spot(
        at=window.pixel(inset.centre_mm), radius=radius,
        title=(title.block.width_px + 2 * _PAD_PX, title.block.height_px + _PAD_PX),
    )


def _title(inset: Inset, theme: Theme) -> PlacedText:
    block = balanced(inset.title, theme.callout_px, theme.inset_px - 2 * _PAD_PX, True)
    return PlacedText(block=block, left=0.0, top=0.0, colour=theme.ink, anchor="middle")


def _title_box(title: PlacedText, centre: Px, theme: Theme) -> Box:
    wide, high = title.block.width_px + 2 * _PAD_PX, title.block.height_px + _PAD_PX
    return Box(left=centre[0] - wide / 2, top=centre[1] + theme.inset_px / 2 - high / 2, width=wide, height=high)


def _inset(
    stage: Stage, inset: Inset, spot: Spot, centre: Px, title: tuple[PlacedText, Box], theme: Theme
) -> DrawnInset:
    radius = theme.inset_px / 2
    view = inset_view(inset, stage, theme)
    frame = Box(left=centre[0] - radius, top=centre[1] - radius, width=2 * radius, height=2 * radius)
    bare = _window(view, frame)
    window = _Window(
        camera=bare.camera, frame=frame, worth=bare.worth, inside=Point(centre).buffer(radius - 6)
    )
    badges = inset.badges if inset.badges is not None else tuple(
        badge for badge in stage.badges
        if float(np.linalg.norm(np.subtract(badge.at_mm, inset.centre_mm))) < inset.radius_mm * 0.9
    )
    arrows = _arrows(inset.arrows, (), window, inset_size(theme), [title[1].shape()])
    marks = _marks(arrows, badges, inset.callouts, window, theme, [title[1].shape()])
    text = PlacedText(
        block=title[0].block, left=centre[0], top=title[1].top + _PAD_PX / 2, colour=theme.ink, anchor="middle"
    )
    return DrawnInset(
        view=view, centre=centre, radius=radius, shade_mm=round(inset.radius_mm * 0.3, 1), title=text,
        title_box=title[1], spot=spot.at, spot_radius=spot.radius, arrows=marks.arrows, badges=marks.badges,
        callouts=marks.callouts,
    )


def _marks(
    arrows: tuple[DrawnArrow, ...], badges: Sequence[Badge], callouts: Sequence[Callout], window: _Window,
    theme: Theme, taken: Sequence[BaseGeometry],
) -> _Marks:
    busy = [*taken, *(arrow.shape() for arrow in arrows)]
    letters: list[DrawnBadge] = []
    words: list[DrawnCallout] = []
    side = 2 * theme.badge_radius_px
    for badge in badges:
        tip = window.pixel(badge.at_mm)
        place = place_label((side, side), tip, window.worth, busy, window.inside)
        letters.append(DrawnBadge(letter=badge.text, look=badge.look, box=place, tip=tip))
        busy.append(place.shape())
        busy.append(LineString([place.middle, tip]).buffer(2))
    for callout in callouts:
        tip = window.pixel(callout.at_mm)
        block = set_text(callout.text, theme.callout_px, 300.0)
        mark = _MARK_PX if callout.kind != "plain" else 0.0
        size = block.width_px + 2 * _PAD_PX + mark, max(block.height_px, mark - 4) + _PAD_PX
        place = place_label(size, tip, window.worth, busy, window.inside)
        text = PlacedText(
            block=block, left=place.left + _PAD_PX + mark, top=place.middle[1] - block.height_px / 2, colour=theme.ink
        )
        words.append(DrawnCallout(text=text, kind=callout.kind, box=place, tip=tip))
        busy.append(place.shape())
        busy.append(LineString([place.middle, tip]).buffer(2))
    return _Marks(arrows=arrows, badges=tuple(letters), callouts=tuple(words))
