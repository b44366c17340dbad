"""A room with one run along two walls and a corner between, and things to plant in it."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from model3d.families.family import Family
from model3d.geometry.placement import Vec3, add
from model3d.layout import lay_out
from model3d.rooms import CheckedPlan, Door, Obstacle, Pipe, Slab, Wall
from model3d.scene import Part, Scene, compose
from tests.layout.every_joint import family_of
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over

Points = list[tuple[float, float]]
SQUARE: Points = [(0.0, 0.0), (3000.0, 0.0), (3000.0, 2600.0), (0.0, 2600.0)]
WALL = 1  # the wall that the run comes along first, from its first corner


def plan(
    *things: Door | Obstacle, end_at: float = 1400.0, walls: int = 2, points: Points = SQUARE
) -> CheckedPlan:
    """A run from the start of w1 round c2 to 1400 mm along w2, and what stands in the room."""
    ring = ring_of(points)
    run = run_over(ring, WALL, walls, end_at=end_at)
    return plan_of(
        ring,
        run,
        openings=tuple(t for t in things if isinstance(t, Door)),
        obstacles=tuple(t for t in things if not isinstance(t, Door)),
    )


def scene_of(checked: CheckedPlan, family: Family | None = None) -> Scene:
    """The plan laid out and placed, in family (a) unless said."""
    chosen = family_of("a-square") if family is None else family
    return compose(checked.room, lay_out(checked, chosen), chosen)


def wall_of(number: int) -> Wall:
    """A wall of the square room."""
    return ring_of(SQUARE).walls[number - 1]


def pipe(along_mm: float, off_mm: float, *, wall: int = WALL, diameter_mm: float = 15.0) -> Pipe:
    """An upright pipe from the floor to 2300."""
    return Pipe(
        id="riser",
        wall_id=f"w{wall}",
        frame=wall_of(wall).frame,
        from_mm=(along_mm, off_mm, 0.0),
        to_mm=(along_mm, off_mm, 2300.0),
        diameter_mm=diameter_mm,
    )


def shelf(low_mm: Vec3, high_mm: Vec3, *, wall: int = WALL) -> Slab:
    """A board on a wall."""
    return Slab(
        id="shelf",
        kind="shelf",
        wall_id=f"w{wall}",
        frame=wall_of(wall).frame,
        low_mm=low_mm,
        high_mm=high_mm,
    )


def door(
    *, hinge: Literal["left", "right"] = "left", opens_deg: float = 120.0, swing: Literal["in", "out"] = "in"
) -> Door:
    """A door without a casing on w4, its left side 140 mm from the wall that the run starts on."""
    return Door(
        id="hall door",
        wall_id="w4",
        from_mm=1700.0,
        to_mm=2460.0,
        height_mm=2000.0,
        hinge=hinge,
        swing=swing,
        opens_deg=opens_deg,
        leaf_thickness_mm=40.0,
        casing=None,
    )


def with_part(scene: Scene, part: Part) -> Scene:
    """The scene with another part in the place of the one of its id."""
    return Scene(parts=tuple(part if p.id == part.id else p for p in scene.parts))


def shifted(thing: Pipe | Slab, by_mm: Vec3) -> Pipe | Slab:
    """An obstacle moved in its wall's frame."""
    if isinstance(thing, Pipe):
        return replace(thing, from_mm=add(thing.from_mm, by_mm), to_mm=add(thing.to_mm, by_mm))
    return replace(thing, low_mm=add(thing.low_mm, by_mm), high_mm=add(thing.high_mm, by_mm))
