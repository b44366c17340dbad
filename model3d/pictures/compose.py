"""From a stage to a page: viewpoint, arrows, close-ups, letters and callouts, each in its place. Nothing is
drawn here.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from model3d.pictures.arrows import ArrowSize, drawn_swing, inset_size, main_size, spread
from model3d.pictures.bands import bands
from model3d.pictures.lettering import balanced, set_text
from model3d.pictures.page import DrawnArrow, DrawnBadge, DrawnCallout, DrawnInset, Marks, Page, PlacedText
from model3d.pictures.paper import Box, Disc, Paper, Px, Ring, Shape, Stroke
from model3d.pictures.placing import CELL_PX, Spot, Worth, between, place_insets, place_label, worth_of
from model3d.pictures.sight import RayScene, only, sighting
from model3d.pictures.solids import placed
from model3d.pictures.stage import Arrow, Badge, Callout, Camera, Inset, Points, Stage, Swing
from model3d.pictures.theme import THEME, Theme
from model3d.pictures.viewpoint import Bed, View, chosen, inset_view, stage_bed, stepped_back
from model3d.pictures.views import Room, pixels_per_mm, project

_MARK_PX = 30.0
_PAD_PX = 9.0
_ROOMS = (
    Room(left=90, right=90, top=64, bottom=64),
    Room(left=90, right=90, top=190, bottom=40),
    Room(left=90, right=90, top=40, bottom=190),
    Room(left=200, right=200, top=90, bottom=90),
    Room(left=290, right=290, top=120, bottom=120),
)
_GOOD_COST = 110.0
_LOST_WORTH = 900.0
_SHRINK_WORTH = 1200.0


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
class _Arrangement:
    """One way to stand and to set the close-ups; the cheapest is taken."""

    view: View
    window: _Window
    arrows: tuple[DrawnArrow, ...]
    spots: tuple[Spot, ...]
    titles: tuple[PlacedText, ...]
    centres: tuple[Px, ...]
    radius: float
    cost: float

    def heads(self) -> tuple[Box, ...]:
        """The boxes of the close-ups' titles, across the lower rim of each ring."""
        return tuple(
            _title_box(title, centre, self.radius) for title, centre in zip(self.titles, self.centres, strict=True)
        )

    def shapes(self) -> Iterator[tuple[int, Shape]]:
        """The paper that is taken, each shape with the number of the close-up whose ring it is, or -1."""
        for arrow in self.arrows:
            yield from ((-1, shape) for shape in arrow.shapes())
        for k, (spot, centre, head) in enumerate(zip(self.spots, self.centres, self.heads(), strict=True)):
            yield k, Disc(at=centre, radius=self.radius + 5)
            yield -1, head
            tie = between(spot.at, centre, spot.radius, self.radius)
            yield -1, Stroke(start=tie[0], end=tie[1], width=6.0)
            yield -1, Ring(at=spot.at, radius=spot.radius, width=6.0)


def composed(stage: Stage, theme: Theme) -> Page:
    """Lay a whole page out: viewpoint, arrows, close-ups, letters and callouts."""
    around = bands(stage, theme)
    bed = stage_bed(stage)
    best = _arranged(stage, bed, around.panel, theme)
    taken = list(best.shapes())
    inside = Paper(size=theme.page_px).only_inside(around.panel.grown(-8))
    marks = _marks(
        best.arrows, stage.badges, stage.callouts, best.window, theme, inside.with_shapes(s for _, s in taken)
    )
    taken += ((-1, shape) for shape in marks.shapes())
    insets: list[DrawnInset] = []
    for k, inset in enumerate(stage.insets):
        paper = inside.with_shapes(shape for owner, shape in taken if owner != k)
        insets.append(_inset(stage, inset, best, k, paper, theme))
        taken += ((-1, shape) for shape in insets[-1].marks.shapes())
    return Page(
        size=theme.page_px,
        bands=around,
        view=best.view,
        facing=stage.facing,
        shade_mm=_shade_mm(best.view.camera),
        marks=marks,
        insets=tuple(insets),
    )


def _arranged(stage: Stage, bed: Bed, panel: Box, theme: Theme) -> _Arrangement:
    """Try margins and sizes of close-ups until one covers next to nothing; else take the cheapest."""
    size, count = (round(panel.width), round(panel.height)), len(stage.insets)
    first = chosen(bed, stage, theme, size, _ROOMS[0])
    best: _Arrangement | None = None
    for room in _ROOMS:
        view = first if room is _ROOMS[0] else stepped_back(first, bed, stage, theme, size, room)
        lost = 1 - math.sqrt(view.seen_px / first.seen_px) if first.seen_px else 0.0
        window = _window(view, panel)
        arrows = _arrows(stage.arrows, stage.swings, window, main_size(theme), Paper(size=theme.page_px))
        for shrink in (1.0, 0.86):
            made = _arrangement(stage, view, window, arrows, theme, theme.inset_px / 2 * shrink)
            cost = made.cost + _LOST_WORTH * lost + _SHRINK_WORTH * (1 - shrink) * count
            best = replace(made, cost=cost) if best is None or cost < best.cost else best
            if best.cost <= _GOOD_COST * count or stage.camera is not None:
                return best
    assert best is not None
    return best


def _arrangement(
    stage: Stage, view: View, window: _Window, arrows: tuple[DrawnArrow, ...], theme: Theme, radius: float
) -> _Arrangement:
    titles = tuple(_title(inset, theme, radius) for inset in stage.insets)
    spots = tuple(_spot(inset, title, window) for inset, title in zip(stage.insets, titles, strict=True))
    busy = Paper(size=theme.page_px).with_shapes((shape for arrow in arrows for shape in arrow.shapes()), 12.0)
    centres, cost = place_insets(spots, radius, window.worth, busy)
    return _Arrangement(
        view=view, window=window, arrows=arrows, spots=spots, titles=titles, centres=centres, radius=radius, cost=cost
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
    cells = view.scene.id_map(view.camera, (round(frame.width) // CELL_PX, round(frame.height) // CELL_PX))
    return _Window(camera=view.camera, frame=frame, worth=worth_of(cells, view.solids, frame))


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


def _title(inset: Inset, theme: Theme, radius: float) -> PlacedText:
    block = balanced(inset.title, theme.callout_px, 2 * radius - 2 * _PAD_PX, True)
    return PlacedText(block=block, left=0.0, top=0.0, colour=theme.ink, anchor="middle")


def _title_box(title: PlacedText, centre: Px, radius: float) -> Box:
    wide, high = title.block.width_px + 2 * _PAD_PX, title.block.height_px + _PAD_PX
    return Box(left=centre[0] - wide / 2, top=centre[1] + radius - high / 2, width=wide, height=high)


def _inset(stage: Stage, inset: Inset, at: _Arrangement, number: int, paper: Paper, theme: Theme) -> DrawnInset:
    """A close-up: its letters and arrows stay inside the ring, its words go where they hide least.

    Letters of clips that lie outside the ring are left to the main picture.
    """
    centre, radius, head = at.centres[number], at.radius, at.heads()[number]
    view = inset_view(inset, stage, theme)
    frame = Box(left=centre[0] - radius, top=centre[1] - radius, width=2 * radius, height=2 * radius)
    window = _window(view, frame)
    ring = Disc(at=centre, radius=radius - 6)
    offered = inset.badges if inset.badges is not None else _badges_near(stage, inset)
    badges = [badge for badge in offered if math.dist(window.pixel(badge.at_mm), centre) < ring.radius]
    arrows = _arrows(inset.arrows, (), window, inset_size(theme), paper.only_inside(ring))
    letters = _marks(arrows, badges, (), window, theme, paper.only_inside(ring))
    around = replace(window, worth=at.window.worth.with_round(window.worth, centre, radius))
    words = _marks(arrows, (), inset.callouts, around, theme, paper.with_shapes(letters.shapes()))
    return DrawnInset(
        view=view,
        centre=centre,
        radius=radius,
        shade_mm=round(inset.radius_mm * 0.4, 1),
        title=replace(at.titles[number], left=centre[0], top=head.top + _PAD_PX / 2),
        title_box=head,
        spot=at.spots[number].at,
        spot_radius=at.spots[number].radius,
        marks=replace(letters, callouts=words.callouts),
    )


def _badges_near(stage: Stage, inset: Inset) -> tuple[Badge, ...]:
    """The stage's letters whose clips lie in a close-up's ball."""
    return tuple(
        badge
        for badge in stage.badges
        if float(np.linalg.norm(np.subtract(badge.at_mm, inset.centre_mm))) < inset.radius_mm * 0.9
    )


def _marks(
    arrows: tuple[DrawnArrow, ...],
    badges: Sequence[Badge],
    callouts: Sequence[Callout],
    window: _Window,
    theme: Theme,
    paper: Paper,
) -> Marks:
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
    return Marks(arrows=arrows, badges=tuple(letters), callouts=tuple(words))


def _words(callout: Callout, window: _Window, theme: Theme, paper: Paper) -> DrawnCallout:
    tip = window.pixel(callout.at_mm)
    block = set_text(callout.text, theme.callout_px, 300.0)
    mark = _MARK_PX if callout.kind != "plain" else 0.0
    size = block.width_px + 2 * _PAD_PX + mark, max(block.height_px, mark - 4) + _PAD_PX
    place = place_label(size, tip, window.worth, paper)
    top = place.middle[1] - block.height_px / 2
    text = PlacedText(block=block, left=place.left + _PAD_PX + mark, top=top, colour=theme.ink)
    return DrawnCallout(text=text, kind=callout.kind, box=place, tip=tip)
