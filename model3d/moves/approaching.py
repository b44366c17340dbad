"""The approaches of a piece tried in the family's order, and steps that come by the first one that is free."""

from __future__ import annotations

from collections.abc import Sequence

from model3d.families.family import Family
from model3d.layout import Layout
from model3d.moves.shapes import Shapes
from model3d.moves.sites import sites
from model3d.moves.trying import first_stop, goes
from model3d.moves.values import Tried
from model3d.moves.ways import Site, Way, piece_ways
from model3d.scene import Scene
from model3d.steps import Step
from model3d.steps.approached import approached
from model3d.steps.moves import approaches


def tried_in_turn(site: Site) -> tuple[tuple[Tried, ...], list[Way] | None]:
    """The approaches tried, up to the first that is free, and the legs of that one; None when none is."""
    tried: list[Tried] = []
    for approach in approaches(site.family, site.group):
        ways = piece_ways(site, approach)
        stop = first_stop(site, ways)
        tried.append(Tried(approach=approach.name, stop=stop))
        if stop is None:
            return tuple(tried), ways
    return tuple(tried), None


def steps_as_moved(
    layout: Layout, scene: Scene, steps: Sequence[Step], family: Family, *, shapes: Shapes | None = None
) -> tuple[Step, ...]:
    """The steps with each piece coming by the first approach of its family that is free, in legs and in words: what a
    picture is to show. A step that no approach gets through keeps the preferred one.
    """
    shapes = Shapes(family=family) if shapes is None else shapes
    return tuple(_as_moved(site) for site in sites(layout, scene, steps, shapes))


def _as_moved(site: Site) -> Step:
    if site.step.kind != "piece":
        return site.step
    listed = approaches(site.family, site.group)
    free = next((a for a in listed if goes(site, piece_ways(site, a))), listed[0])
    return approached(site.family, site.group, site.step, free)
