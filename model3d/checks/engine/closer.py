"""Two solids looked at closer where they barely meet: cut to a box round it, and meshed there as finely as it takes.

A slight overlap is as deep as the bodies have to be moved to be off one another: the widest ball that fits between a
corner and a face is less than the corner is deep. Told is what that move is no less than: the widest ball; where both
are convex in the box, the least move that takes them apart; else how deep a place of one is in the other.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import manifold3d
import numpy as np
from scipy.spatial import cKDTree

from model3d.checks.engine.cut_to_box import (
    DEFLECTIONS_MM,
    MARGIN_MM,
    Cut,
    Held,
    Looked,
    beyond,
    block_of,
    both_cut,
    both_held,
    box_of,
    grown,
    longest_mm,
    with_margin,
)
from model3d.checks.engine.depth import Ball, Points, Region, widest_ball
from model3d.checks.engine.overlap import region_of
from model3d.checks.engine.parting import least_move_mm

MOST_TRIANGLES = 6000
MOST_LOOKS = 8
SMALLER = 0.6  # of the box: where the overlap goes on for longer, only its deepest place is looked at any closer
FINE_ENOUGH = 0.06  # of contact, for how far the skins stand off the solids
NOTHING_MM3 = 1e-12
CONVEX_MM = 0.0005  # how much, on the mean over a side of the box, a body may stand back from its hull
PLACES, ON_CUT_MM = 100, 1e-6
LONGEST, STEPS = 40, 16  # sides of triangles, each met twice, that are looked along
AT_ONCE = 20_000  # triangles by places, of which the distances are reckoned in one go


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """What two solids share in a box, in the first one's frame: the widest ball, how far its diameter may be off, how
    far the one is to be moved to be off the other, at least, where that ball is no wider than contact, and the volume;
    ``whole`` False says that there may be a wider ball, and more outside the box.
    """

    ball: Ball
    within_mm: float
    off_mm: float
    volume_mm3: float
    whole: bool


NOTHING = Seen(
    ball=Ball(diameter_mm=0.0, centre_mm=(0.0, 0.0, 0.0)), within_mm=0.0, off_mm=0.0, volume_mm3=0.0, whole=True
)


def no_deeper(a: manifold3d.Manifold, b: manifold3d.Manifold, part: manifold3d.Manifold, limit_mm: float) -> bool:
    """Whether a connected part of what two skins share, both in one frame, is no deeper than a limit."""
    ball = widest_ball(region_of(part), enough_mm=limit_mm)
    if ball.diameter_mm > limit_mm:
        return False
    box = with_margin(box_of(part))
    held = Held(mesh=a ^ block_of(box), slack_mm=0.0), Held(mesh=b ^ block_of(beyond(box)), slack_mm=0.0)
    return _off_mm(held, part, ball, box, floor_mm=limit_mm) <= limit_mm


def seen_closer(a: Looked, b: Looked, box: Points, *, contact_mm: float, enough_mm: float = np.inf) -> Seen | None:
    """What two solids share in and about a box (2, 3) of the first one's frame, finely beside ``contact_mm``; None when
    it cannot be said. No closer is looked where a ball wider than ``enough_mm`` fits for
    sure, or it is seen that they only touch.
    """
    box, whole, step = with_margin(box), True, 0
    cuts: tuple[Cut, Cut] | None = None
    for look in range(1, MOST_LOOKS + 1):
        cuts = cuts or both_cut(a, b, box)
        held = None if cuts is None else both_held(cuts, DEFLECTIONS_MM[step], box)
        if cuts is None or held is None:
            return None
        shared, slack = held[0].mesh ^ held[1].mesh, held[0].slack_mm + held[1].slack_mm
        last = look == MOST_LOOKS or slack <= FINE_ENOUGH * contact_mm or step == len(DEFLECTIONS_MM) - 1
        surely = 2.0 * (enough_mm + slack)
        found = _deepest(shared, np.inf if last else surely)
        if found is None:
            return NOTHING
        ball, part = found
        sure, wide = ball.diameter_mm > surely, ball.diameter_mm > contact_mm
        off = ball.diameter_mm
        if not wide:
            off = max(off, _off_mm(held, part, ball, box, floor_mm=off))
        if last or sure or off <= contact_mm:
            return Seen(ball=ball, within_mm=slack, off_mm=off, volume_mm3=shared.volume(), whole=whole and not sure)
        nearer = with_margin(box_of(part))
        goes_on = longest_mm(nearer) > SMALLER * longest_mm(box)
        many = max(cut.count_at(DEFLECTIONS_MM[step + 1]) for cut in cuts) > MOST_TRIANGLES
        if goes_on and many:
            half = max(longest_mm(box) / 5.0, 2.0 * ball.diameter_mm)
            nearer, whole = np.array(ball.centre_mm) + np.array([[-half], [half]]), False
        else:
            step += 1
        if many or not goes_on:
            box, cuts = np.array([np.maximum(box[0], nearer[0]), np.minimum(box[1], nearer[1])]), None
    raise AssertionError("the last look is told")


def _deepest(shared: manifold3d.Manifold, enough_mm: float) -> tuple[Ball, manifold3d.Manifold] | None:
    """The connected part that holds the widest ball, and that ball; where one wider than enough is found, that."""
    best: tuple[Ball, manifold3d.Manifold] | None = None
    for part in shared.decompose():
        if part.volume() <= NOTHING_MM3:
            continue
        ball = widest_ball(region_of(part), floor_mm=best[0].diameter_mm if best else 0.0, enough_mm=enough_mm)
        if best is None or ball.diameter_mm > best[0].diameter_mm:
            best = ball, part
    return best


def _off_mm(
    held: tuple[Held, Held], part: manifold3d.Manifold, ball: Ball, box: Points, *, floor_mm: float
) -> float:
    """What the move that frees the two of one another is no less than; where it is no more than the floor, any figure
    up to that.
    """
    for near in (box, grown(box_of(part), 2.0 * ball.diameter_mm + MARGIN_MM / 2.0)):
        block = block_of(np.array([np.maximum(box[0], near[0]), np.minimum(box[1], near[1])]))
        pieces = [_piece(h.mesh ^ block, ball) for h in held]
        if all(_convex(piece, near) for piece in pieces):
            first, second = (region_of(piece).points for piece in pieces)
            return least_move_mm(first, second)
    return _deepest_place_mm(held, part, box, floor_mm=floor_mm)


def _piece(mesh: manifold3d.Manifold, ball: Ball) -> manifold3d.Manifold:
    """The connected piece that a ball is in."""
    pieces = mesh.decompose()
    middle = np.array(ball.centre_mm)
    return next((piece for piece in pieces if len(pieces) == 1 or region_of(piece).holds(middle)), mesh)


def _convex(piece: manifold3d.Manifold, box: Points) -> bool:
    """Whether a piece is its own hull, but for what the rise of its skin may make."""
    sides = box[1] - box[0]
    return bool(piece.hull().volume() - piece.volume() <= CONVEX_MM * float(np.prod(np.sort(sides)[1:])))


def _deepest_place_mm(
    held: tuple[Held, Held], part: manifold3d.Manifold, box: Points, *, floor_mm: float
) -> float:
    """How far a place of what both share is from the surface of either at most, no further than the box is known; the
    floor where none is further than that.

    Places that may be the furthest come first: the rest need not be measured.
    """
    places = _places(region_of(part))
    known = np.minimum(places - box[0], box[1] - places).min(axis=1)
    deepest = floor_mm
    for h in held:
        region = _true_faces(h.mesh, (*box, *beyond(box)))
        if not len(region.triangles):
            continue
        most, _ = cKDTree(region.corners.reshape(-1, 3)).query(places)
        bounds = np.minimum(most, known)
        order = np.argsort(-bounds)
        some = 1 + AT_ONCE // len(region.triangles)
        for numbers in np.split(order, range(some, len(order), some)):
            numbers = numbers[bounds[numbers] > deepest]
            if not len(numbers):
                break
            far = region.clearances_mm(places[numbers], most[numbers])
            deepest = max(deepest, float(np.minimum(far, known[numbers]).max()))
    return deepest


def _places(part: Region) -> Points:
    """Corners of what is shared, and places along its longest sides: an edge may be deepest between its ends."""
    ends = np.concatenate([part.corners[:, pair] for pair in ((0, 1), (1, 2), (2, 0))])
    longest = ends[np.argsort(-np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1))[:LONGEST:2]]
    shares = np.linspace(0.0, 1.0, STEPS + 1)[1:-1, None, None]
    along = longest[:, 0] + shares * (longest[:, 1] - longest[:, 0])
    return np.concatenate([part.points[:: 1 + len(part.points) // PLACES], along.reshape(-1, 3)])


def _true_faces(mesh: manifold3d.Manifold, cuts: Sequence[Points]) -> Region:
    """The triangles of a mesh but for those that lie on the sides of boxes it was cut to."""
    whole = region_of(mesh)
    on_cut = [(np.abs(whole.corners - ends).max(axis=1) < ON_CUT_MM).any(axis=1) for ends in cuts]
    return Region(points=whole.points, triangles=whole.triangles[~np.any(on_cut, axis=0)])
