"""Brackets that no place within the spacing rules keeps off what is in the wall: what is said of them, and what would
free them, tried on the pieces of the run.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from model3d.families.family import Family
from model3d.findings import Finding
from model3d.geometry.placement import Vec3, add
from model3d.layout.bracket_places import Ground, Places
from model3d.layout.in_the_wall import BOX_MARGIN_MM, Span
from model3d.layout.values import Piece
from model3d.rooms import CheckedPlan, Obstacle, Pipe, SocketOutlet, Window

OnGround = Callable[[CheckedPlan, Family, Piece], tuple[Ground, Places]]

LEAST_DRILLED_MM = 30.0
"""A screw that goes in less holds no bracket. Common practice, no source."""
MOST_MOVED_MM = 300.0
STEP_MM = 5.0


def barred_findings(
    plan: CheckedPlan,
    family: Family,
    piece: Piece,
    ground: Ground,
    places: Places,
    pieces: Sequence[Piece],
    on_ground: OnGround,
) -> Iterator[Finding]:
    """One error for every bracket of a piece that lies over something in the wall: where along the wall, how near its
    plate or its screws come, how near they may. ``on_ground`` finds the brackets of a piece; remedies are tried on all
    ``pieces``.
    """
    tried: dict[str, str] = {}
    for number, offset in enumerate(places.offsets_mm, 1):
        over = next((s for s in ground.barred if s.holds(offset)), None)
        if over is None:
            continue
        if over.part not in tried:
            tried[over.part] = _remedy(plan, family, over.part, pieces, on_ground)
        along, near = piece.near_mm + piece.sense * offset, _nearness_mm(over, offset)
        how = f"{near:.1f} mm from the {over.what}" if near >= 0.0 else f"over the {over.what} by {-near:.1f} mm"
        yield Finding(
            code="bracket-barred",
            severity="error",
            where=f"piece {piece.mark}, bracket {number}, wall {piece.wall.id}",
            message=(
                f"at {along:.0f} along the wall it stands {how}: {BOX_MARGIN_MM:g} mm are kept clear, and no other "
                f"place keeps the spacing"
            ),
            remedy=tried[over.part],
            parts=(piece.mark, over.part),
            measured=near,
            limit=BOX_MARGIN_MM,
            place_mm=(*piece.wall.point_mm(along), max(family.bracket.holes.heights_mm)),
        )


def _nearness_mm(span: Span, offset: float) -> float:
    """How near a bracket comes to what is in the wall, along it or across; negative where it lies over it."""
    inside = min(offset - span.low_mm, span.high_mm - offset)
    return max(BOX_MARGIN_MM - inside, span.across_mm)


def _remedy(plan: CheckedPlan, family: Family, thing_id: str, pieces: Sequence[Piece], on_ground: OnGround) -> str:
    """What frees all brackets of a thing, and leaves no more of others barred or strained."""
    thing = next((o for o in plan.room.obstacles if o.id == thing_id), None)
    if thing is None:
        return f"End the run before {thing_id}: there is no wall behind it to hold the brackets."
    worth = _against(plan, family, pieces, on_ground, thing_id)

    def frees(other: CheckedPlan, drilled: Family) -> bool:
        after = _against(other, drilled, pieces, on_ground, thing_id)
        return after[0] == 0 and after[1] <= worth[1]

    ways = [*_less_deep(plan, family, thing, frees), *_moved(plan, family, thing, frees)]
    if not ways:
        return "Move what is in the wall, or divide the piece elsewhere."
    said = "; or ".join(ways)
    return said[:1].upper() + said[1:] + "."


def _against(
    plan: CheckedPlan, family: Family, pieces: Sequence[Piece], on_ground: OnGround, thing_id: str
) -> tuple[int, int]:
    """How many brackets lie over a thing, and how much else is wrong with the brackets of the pieces."""
    over, else_wrong = 0, 0
    for piece in pieces:
        ground, places = on_ground(plan, family, piece)
        else_wrong += places.strained
        for span in (s for offset in places.offsets_mm for s in ground.barred if s.holds(offset)):
            over += span.part == thing_id
            else_wrong += span.part != thing_id
    return over, else_wrong


def _less_deep(
    plan: CheckedPlan, family: Family, thing: Obstacle, frees: Callable[[CheckedPlan, Family], bool]
) -> Iterator[str]:
    """Holes that end before a pipe that lies deep enough."""
    deep = math.floor(-thing.high_mm[1] - BOX_MARGIN_MM)
    if isinstance(thing, Pipe) and deep >= LEAST_DRILLED_MM:
        holes = family.bracket.holes.model_copy(update={"drilled_mm": float(deep)})
        bracket = family.bracket.model_copy(update={"holes": holes})
        if frees(plan, family.model_copy(update={"bracket": bracket})):
            yield f"drill no deeper than {deep} mm there"


def _moved(
    plan: CheckedPlan, family: Family, thing: Obstacle, frees: Callable[[CheckedPlan, Family], bool]
) -> Iterator[str]:
    """The shortest move along the wall, or of a level pipe up or down, that frees them."""
    level = isinstance(thing, Pipe) and thing.from_mm[0] != thing.to_mm[0]
    ways = ("higher", "lower") if level else ("to the left", "to the right")
    for step in range(1, int(MOST_MOVED_MM / STEP_MM) + 1):
        for sign, words in zip((1.0, -1.0), ways, strict=True):
            by = sign * STEP_MM * step
            moved = _shifted(thing, (0.0, 0.0, by) if level else (by, 0.0, 0.0))
            if moved is not None and _has_room(plan, moved) and frees(_with(plan, moved), family):
                yield f"move {thing.id} {abs(by):g} mm {words}{'' if level else ', as you face the wall'}"
                return


def _shifted(thing: Obstacle, by_mm: Vec3) -> Obstacle | None:
    if isinstance(thing, SocketOutlet):
        return replace(thing, along_mm=thing.along_mm + by_mm[0], up_mm=thing.up_mm + by_mm[2])
    if isinstance(thing, Pipe):
        return replace(thing, from_mm=add(thing.from_mm, by_mm), to_mm=add(thing.to_mm, by_mm))
    return None


def _with(plan: CheckedPlan, moved: Obstacle) -> CheckedPlan:
    obstacles = tuple(moved if o.id == moved.id else o for o in plan.room.obstacles)
    return replace(plan, room=replace(plan.room, obstacles=obstacles))


def _has_room(plan: CheckedPlan, moved: Obstacle) -> bool:
    """Whether what is moved is still in its wall, and in no opening and nothing else there."""
    low, high = moved.low_mm, moved.high_mm
    wall = plan.room.wall(moved.wall_id or "")
    if low[2] < 0.0 or low[0] < 0.0 or high[0] > wall.length_mm:
        return False
    for other in plan.room.openings:
        sill = other.sill_mm if isinstance(other, Window) else 0.0
        beside = other.to_mm <= low[0] or other.from_mm >= high[0]
        if other.wall_id == wall.id and not beside and sill < high[2] and sill + other.height_mm > low[2]:
            return False
    others = (o for o in plan.room.obstacles if o.id != moved.id and o.wall_id == wall.id)
    return not any(all(o.low_mm[i] < high[i] and o.high_mm[i] > low[i] for i in range(3)) for o in others)
