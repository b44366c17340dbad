"""From a stage to a page: viewpoint, arrows, close-ups, letters and callouts, each in its place. Nothing is
drawn here.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import combinations, product

import numpy as np

from model3d.pictures.arrows import ArrowSize, drawn_swing, inset_size, main_size, spread
from model3d.pictures.bands import bands
from model3d.pictures.headings import Heading, heading
from model3d.pictures.marking import Window, marked
from model3d.pictures.page import DrawnArrow, DrawnInset, Page
from model3d.pictures.paper import Box, Disc, Paper, Px, Ring, Shape, Stroke, crossing
from model3d.pictures.placing import CELL_PX, Spot, between, place_insets, worth_of
from model3d.pictures.plan_map import map_box
from model3d.pictures.sight import NOTHING, RayScene, only, sighting
from model3d.pictures.solids import placed
from model3d.pictures.stage import Arrow, Badge, Camera, Inset, Stage, Swing
from model3d.pictures.theme import THEME, Theme
from model3d.pictures.viewpoint import Bed, View, chosen, inset_view, stage_bed, stepped_back
from model3d.pictures.views import Room, pixels_per_mm

_ROOMS = (
    Room(left=90, right=90, top=64, bottom=64),
    Room(left=90, right=90, top=200, bottom=40),
    Room(left=90, right=90, top=40, bottom=200),
    Room(left=220, right=220, top=90, bottom=90),
    Room(left=340, right=340, top=70, bottom=70),
)
_GOOD_COST = 210.0
_FAULTY_COST = 2900.0  # a crossing or a cover costs 3000 and more
_LOST_WORTH = 1600.0
_SHRINK_WORTH = 1200.0
_SHRINKS = (1.0, 0.86)
_SMALL_SHRINKS = (0.74, 0.62)  # only where larger ones lie over something
_SEEN_CELLS = 8

_CloseUps = tuple[tuple[DrawnInset, ...], set[str]]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Arrangement:
    """One way to stand and to set the close-ups; the cheapest is taken."""

    view: View
    window: Window
    arrows: tuple[DrawnArrow, ...]
    spots: tuple[Spot, ...]
    headings: tuple[Heading, ...]
    centres: tuple[Px, ...]
    radius: float
    cost: float

    def heads(self) -> tuple[Box, ...]:
        """The boxes of the close-ups' titles, under each ring."""
        return tuple(head.box(centre, self.radius) for head, centre in zip(self.headings, self.centres, strict=True))

    def ties(self) -> tuple[tuple[Px, Px], ...]:
        """The lines from the places enlarged to the close-ups."""
        return tuple(
            between(spot.at, centre, spot.radius, self.radius)
            for spot, centre in zip(self.spots, self.centres, strict=True)
        )

    def shapes(self) -> Iterator[tuple[int, Shape]]:
        """The paper that is taken, each shape with the number of the close-up whose ring it is, or -1."""
        for arrow in self.arrows:
            yield from ((-1, shape) for shape in arrow.shapes())
        each = zip(self.spots, self.centres, self.heads(), self.ties(), strict=True)
        for k, (spot, centre, head, tie) in enumerate(each):
            yield k, Disc(at=centre, radius=self.radius + 5)
            yield -1, head
            yield -1, Stroke(start=tie[0], end=tie[1], width=6.0)
            yield -1, Ring(at=spot.at, radius=spot.radius, width=6.0)


def composed(stage: Stage, theme: Theme) -> Page:
    """Lay a whole page out: viewpoint, arrows, close-ups, letters and callouts.

    Raises ValueError when the words leave no room for the picture or its close-ups.
    """
    around = bands(stage, theme)
    bed = stage_bed(stage, theme)
    best = _arranged(stage, bed, around.panel, theme)
    taken = list(best.shapes())
    inside = Paper(size=theme.page_px).only_inside(around.panel.grown(-8))
    clear = inside.with_shapes(s for _, s in taken)
    marks = marked(best.arrows, stage.badges, stage.callouts, best.window, theme, clear, best.ties())
    taken += ((-1, shape) for shape in marks.shapes())
    lines = (*best.ties(), *marks.lines())
    insets, looks = _least_crossed(partial(_close_ups, stage, best, inside, tuple(taken), lines, theme))
    seen = _looks_seen(best.window) | looks
    taken += ((-1, shape) for inset in insets for shape in inset.marks.shapes())
    free = inside.with_shapes(shape for _, shape in taken)
    plan = stage.plan_map
    return Page(
        size=theme.page_px,
        bands=bands(stage, theme, seen),
        view=best.view,
        facing=stage.facing,
        shade_mm=_shade_mm(best.view.camera),
        marks=marks,
        insets=insets,
        side_view=stage.side_view,
        plan_map=plan,
        map_box=None if plan is None else map_box(plan, around.panel, best.window.worth, free),
        language=stage.frame.language,
    )


def _close_ups(
    stage: Stage,
    best: _Arrangement,
    inside: Paper,
    taken: tuple[tuple[int, Shape], ...],
    lines: tuple[tuple[Px, Px], ...],
    theme: Theme,
    order: int,
) -> _CloseUps:
    """The close-ups and the looks seen in them, their words placed from the first close-up to the last, or, ``order``
    -1, from the last to the first.
    """
    insets: dict[int, DrawnInset] = {}
    seen: set[str] = set()
    for k in range(len(stage.insets))[::order]:
        paper = inside.with_shapes(shape for owner, shape in taken if owner != k)
        insets[k], looks = _inset(stage, stage.insets[k], best, k, paper, theme, lines)
        taken += tuple((-1, shape) for shape in insets[k].marks.shapes())
        lines += tuple(insets[k].marks.lines())
        seen |= looks
    return tuple(insets[k] for k in sorted(insets)), seen


def _least_crossed(placed_in: Callable[[int], _CloseUps]) -> _CloseUps:
    """Close-ups from the first to the last; where that makes a leader cross another, from the last to the first, if
    that is better and there is room.
    """
    made = placed_in(1)
    crossed = _crossings(made[0])
    if not crossed:
        return made
    try:
        other = placed_in(-1)
    except ValueError:
        return made
    return other if _crossings(other[0]) < crossed else made


def _crossings(insets: Sequence[DrawnInset]) -> int:
    """How many leaders of one close-up's words cross those of another's."""
    leaders = [[(label.box.middle, label.tip) for label in inset.marks.tied()] for inset in insets]
    pairs = (pair for one, other in combinations(leaders, 2) for pair in product(one, other))
    return sum(crossing(*pair) for pair in pairs)


def _looks_seen(window: Window) -> set[str]:
    """The looks that take some paper in a picture, and those that are seen through."""
    numbers, counts = np.unique(window.ids[window.ids != NOTHING], return_counts=True)
    most: Counter[str] = Counter()
    for k, count in zip(numbers, counts, strict=True):
        most[window.solids[k].look] += int(count)
    through = {str(solid.look) for solid in window.solids if solid.look == "ghost"}
    return through | {look for look, count in most.items() if count >= _SEEN_CELLS}


def _arranged(stage: Stage, bed: Bed, panel: Box, theme: Theme) -> _Arrangement:
    """Try margins and sizes of close-ups until one covers next to nothing; else take the cheapest."""
    size, count = (round(panel.width), round(panel.height)), len(stage.insets)
    first = chosen(bed, stage, theme, size, _ROOMS[0])
    best: _Arrangement | None = None
    stands: list[tuple[View, Window, tuple[DrawnArrow, ...], float]] = []
    for shrinks in (_SHRINKS, _SMALL_SHRINKS):
        for k, room in enumerate(_ROOMS):
            if k == len(stands):
                view = first if k == 0 else stepped_back(first, bed, stage, theme, size, room)
                lost = 1 - math.sqrt(view.seen_px / first.seen_px) if first.seen_px else 0.0
                stands.append((*_standing(stage, view, panel, theme), lost))
            view, window, arrows, lost = stands[k]
            for shrink in shrinks:
                made = _arrangement(stage, view, window, arrows, theme, theme.inset_px / 2 * shrink)
                cost = made.cost + _LOST_WORTH * lost + _SHRINK_WORTH * (1 - shrink) * count
                best = replace(made, cost=cost) if best is None or cost < best.cost else best
                if made.cost <= _GOOD_COST * count or stage.camera is not None:
                    return best
        if best is not None and best.cost < _FAULTY_COST:
            return best
    if best is None or best.cost == math.inf:
        raise ValueError("the words leave no room for the close-ups")
    return best


def _standing(stage: Stage, view: View, panel: Box, theme: Theme) -> tuple[View, Window, tuple[DrawnArrow, ...]]:
    """A viewpoint's picture in the panel, with the arrows in it, off the places that close-ups enlarge."""
    window = _window(view, panel)
    rings = [_ring(inset, window) for inset in stage.insets]
    paper = Paper(size=theme.page_px).with_shapes(rings, 4.0)
    return view, window, _arrows(stage.arrows, stage.swings, window, main_size(theme), paper)


def _arrangement(
    stage: Stage, view: View, window: Window, arrows: tuple[DrawnArrow, ...], theme: Theme, radius: float
) -> _Arrangement:
    headings = tuple(
        heading(inset, theme, radius, icon=inset.face is not None and stage.side_view is not None)
        for inset in stage.insets
    )
    spots = tuple(_spot(inset, head, window) for inset, head in zip(stage.insets, headings, strict=True))
    busy = Paper(size=theme.page_px).with_shapes((shape for arrow in arrows for shape in arrow.shapes()), 12.0)
    busy = busy.with_shapes(Disc(at=window.pixel(c.at_mm), radius=12.0) for c in stage.callouts)
    centres, cost = place_insets(spots, radius, window.worth, busy)
    return _Arrangement(
        view=view,
        window=window,
        arrows=arrows,
        spots=spots,
        headings=headings,
        centres=centres,
        radius=radius,
        cost=cost,
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


def _window(view: View, frame: Box) -> Window:
    cells = view.scene.id_map(view.camera, (round(frame.width) // CELL_PX, round(frame.height) // CELL_PX))
    worth = worth_of(cells, view.solids, frame)
    return Window(camera=view.camera, frame=frame, ids=cells, solids=view.solids, worth=worth)


def _arrows(
    arrows: Sequence[Arrow], swings: Sequence[Swing], window: Window, size: ArrowSize, paper: Paper
) -> tuple[DrawnArrow, ...]:
    curved = tuple(drawn_swing(swing, window.pixels, size) for swing in swings)
    busy = paper.with_shapes((shape for arrow in curved for shape in arrow.shapes()), 8.0)
    return (*curved, *spread(arrows, window.pixels, window.frame, size, busy))


def _spot(inset: Inset, head: Heading, window: Window) -> Spot:
    ring = _ring(inset, window)
    return Spot(at=ring.at, radius=ring.radius, title=head.size)


def _ring(inset: Inset, window: Window) -> Disc:
    """The place of the main picture that a close-up enlarges."""
    scale = pixels_per_mm(window.camera, inset.ringed_mm, round(window.frame.height))
    radius = float(np.clip(inset.radius_mm * scale, 18.0, 64.0))
    return Disc(at=window.pixel(inset.ringed_mm), radius=radius)


def _inset(
    stage: Stage,
    inset: Inset,
    at: _Arrangement,
    number: int,
    paper: Paper,
    theme: Theme,
    lines: Sequence[tuple[Px, Px]],
) -> tuple[DrawnInset, set[str]]:
    """A close-up, and the looks seen in it: its letters and arrows stay inside the ring, its words go where they hide
    least and their leaders cross none of the ``lines``.

    Letters of clips that lie outside the ring are left to the main picture.
    """
    centre, radius, head = at.centres[number], at.radius, at.heads()[number]
    view = inset_view(inset, stage, theme)
    frame = Box(left=centre[0] - radius, top=centre[1] - radius, width=2 * radius, height=2 * radius)
    window = _window(view, frame)
    ring = Disc(at=centre, radius=radius - 6)
    own = paper.only_inside(ring).with_shapes([head])
    offered = inset.badges if inset.badges is not None else _badges_near(stage, inset)
    badges = [badge for badge in offered if math.dist(window.pixel(badge.at_mm), centre) < ring.radius]
    points = [*(badge.at_mm for badge in badges), *(callout.at_mm for callout in inset.callouts)]
    tips = [Disc(at=window.pixel(point), radius=9.0) for point in points]
    arrows = _arrows(inset.arrows, (), window, inset_size(theme), own.with_shapes(tips))
    letters = marked(arrows, badges, (), window, theme, own.with_shapes(tips))
    around = replace(window, worth=at.window.worth.with_round(window.worth, centre, radius))
    free = paper.with_shapes([*letters.shapes(), head])
    words = marked(arrows, (), inset.callouts, around, theme, free, [*lines, *letters.lines()])
    made = DrawnInset(
        view=view,
        centre=centre,
        radius=radius,
        shade_mm=round(inset.radius_mm * 0.4, 1),
        title=at.headings[number].words(head),
        title_box=head,
        spot=at.spots[number].at,
        spot_radius=at.spots[number].radius,
        marks=replace(letters, callouts=words.callouts),
        face=inset.face,
        icon=at.headings[number].icon_box(head),
        guides=tuple(_guides(inset, window)),
    )
    return made, _looks_seen(window)


def _guides(inset: Inset, window: Window) -> Iterable[tuple[Px, Px]]:
    for start, end in inset.guides:
        yield window.pixel(start), window.pixel(end)


def _badges_near(stage: Stage, inset: Inset) -> tuple[Badge, ...]:
    """The stage's letters whose clips lie in a close-up's ball."""
    return tuple(
        badge
        for badge in stage.badges
        if float(np.linalg.norm(np.subtract(badge.at_mm, inset.centre_mm))) < inset.radius_mm * 0.9
    )
