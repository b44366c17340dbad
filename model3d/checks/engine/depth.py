"""How deep an overlap goes: the diameter of the widest ball that fits in it.

For two boxes that overlap by a corner this is the least side of the corner, for a shell its thickness, for a
lens its height. It does not depend on the frame, and a skewed or ring-shaped overlap is not taken for a deep
one.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt
from embreex.mesh_construction import TriangleMesh
from embreex.rtcore_scene import EmbreeScene
from scipy.spatial.distance import cdist

Points = npt.NDArray[np.float64]
Triangles = npt.NDArray[np.int64]

SAMPLES, CORNERS = 400, 1500
TOUCHES = 1.0 - 1e-6  # of a ball's radius: what is no nearer than this touches it
STARTS_OFF = 1e-6  # of the region's size: how far inside the surface a ray sets out
NEAR_ENOUGH = (
    1.02  # a ball from which the climb goes on; another place could hold one this much wider at most
)
MOST_STEPS = 100
WORTH = 0.2  # of the gain that a step promises: less, and the steps get smaller
SETTLED = 1e-4  # of the ball: when the climb to a wider one stops


@dataclass(frozen=True, slots=True, kw_only=True)
class Ball:
    """A ball inside a region."""

    diameter_mm: float
    centre_mm: tuple[float, float, float]


@dataclass(frozen=True, kw_only=True)
class Region:
    """A region by its closed surface: ``points`` (n, 3) and ``triangles`` (m, 3), anticlockwise from outside."""

    points: Points
    triangles: Triangles

    @cached_property
    def corners(self) -> Points:
        """(m, 3, 3), the corners of the triangles."""
        return self.points[self.triangles]

    @cached_property
    def size_mm(self) -> float:
        """The diagonal of the box round it."""
        return float(np.linalg.norm(np.ptp(self.points, axis=0)))

    @cached_property
    def _rounds(self) -> tuple[Points, Points]:
        middles = self.corners.mean(axis=1)
        return middles, np.linalg.norm(self.corners - middles[:, None, :], axis=2).max(axis=1)

    def holds(self, place: Points) -> bool:
        """Whether a place is inside: the solid angle of the surface round it is a whole one (van Oosterom and
        Strackee's formula, from memory).
        """
        a, b, c = (self.corners[:, k] - place for k in range(3))
        la, lb, lc = (np.linalg.norm(x, axis=1) for x in (a, b, c))
        turns = np.einsum("ij,ij->i", a, np.cross(b, c))
        ab, bc, ca = (np.einsum("ij,ij->i", x, y) for x, y in ((a, b), (b, c), (c, a)))
        return float(np.arctan2(turns, la * lb * lc + ab * lc + bc * la + ca * lb).sum()) > np.pi

    def clearance_mm(self, place: Points, within_mm: float = np.inf) -> float:
        """How far the surface is from a place, known to be no further than ``within_mm``."""
        return float(np.linalg.norm(self.nearest(place, within_mm) - place))

    def clearances_mm(self, places: Points, within_mm: Points) -> Points:
        """The same of many places (n, 3), each known to be no further than its ``within_mm`` (n,); (n,)."""
        middles, reaches = self._rounds
        off = np.linalg.norm(places[:, None, :] - middles, axis=2) - reaches
        rows, near = np.nonzero(off <= within_mm[:, None] * (1.0 + 1e-9) + 1e-12)
        far = np.linalg.norm(closest_points(self.corners[near], places[rows]) - places[rows], axis=1)
        return np.asarray(np.minimum.reduceat(far, np.searchsorted(rows, np.arange(len(places)))))

    def feet(self, place: Points, within_mm: float) -> Points:
        """The nearest point of each triangle within a distance of a place, those of the nearest always, (k,
        3).
        """
        middles, reaches = self._rounds
        off = np.linalg.norm(middles - place, axis=1) - reaches
        within = max(within_mm, float((off + 2.0 * reaches).min()))
        feet = closest_points(self.corners[off <= within * (1.0 + 1e-9)], place)
        far = np.linalg.norm(feet - place, axis=1)
        return np.asarray(feet[far <= max(within_mm, float(far.min()))])

    def nearest(self, place: Points, within_mm: float) -> Points:
        """The nearest point of the surface, looked for within a distance in which there is one."""
        middles, reaches = self._rounds
        near = np.linalg.norm(middles - place, axis=1) - reaches <= within_mm * (1.0 + 1e-9) + 1e-12
        feet = closest_points(self.corners[near], place)
        return np.asarray(feet[np.argmin(np.einsum("ij,ij->i", feet - place, feet - place))])


def widest_ball(region: Region, *, floor_mm: float = 0.0, enough_mm: float = np.inf) -> Ball:
    """The widest ball in a region.

    Exact for what is wider than ``floor_mm`` and stops short as soon as one wider than ``enough_mm`` is
    found; when nothing is wider than the floor, what it returns is no wider than that.
    """
    places, inward = _samples(region)
    chords = _chords(region, places, inward)
    best = Ball(diameter_mm=0.0, centre_mm=_vec(places[0]))
    order = np.argsort(-chords)
    order = order[chords[order] > floor_mm]
    left = _roomier(region, places, inward, order[:: 1 + len(order) // SAMPLES], floor_mm / 2.0)
    while len(left) and best.diameter_mm <= enough_mm and chords[left[0]] > best.diameter_mm * NEAR_ENOUGH:
        found = _touching(
            region, places[left[0]], inward[left[0]], chords[left[0]], max(best.diameter_mm, floor_mm)
        )
        left = left[1:]
        if found is None:
            continue
        if enough_mm == np.inf and not best.diameter_mm * NEAR_ENOUGH > found.diameter_mm:
            found = climbed(region.feet, found, step_mm=found.diameter_mm / 4.0)
        best = found
        left = _roomier(region, places, inward, left, best.diameter_mm * NEAR_ENOUGH / 2.0)
    return best


def _touching(region: Region, place: Points, inward: Points, chord_mm: float, least_mm: float) -> Ball | None:
    """The widest ball that touches the surface at a place; None when it is no wider than the least."""
    half = least_mm / 2.0
    if half > 0.0 and region.clearance_mm(place + inward * half, half) < half * TOUCHES:
        return None  # not even the least fits where it would touch here
    radius = _shrunk(region, place, inward, chord_mm / 2.0)
    centre = place + inward * radius
    if radius <= half or not region.holds(centre):  # a sliver's way in may look out
        return None
    return Ball(diameter_mm=2.0 * radius, centre_mm=_vec(centre))


def _roomier(
    region: Region, places: Points, inward: Points, numbers: npt.NDArray[np.int64], radius: float
) -> npt.NDArray[np.int64]:
    """Those of the places where a ball of a radius that touches there has none of a sample of the surface's
    corners inside.
    """
    if radius <= 0.0 or not len(numbers):
        return numbers
    some = region.points[:: 1 + len(region.points) // CORNERS]
    centres = places[numbers] + inward[numbers] * radius
    far = cdist(centres, some).min(axis=1)
    return np.asarray(numbers[far >= radius * TOUCHES])


def _vec(point: Points) -> tuple[float, float, float]:
    return (float(point[0]), float(point[1]), float(point[2]))


def _samples(region: Region) -> tuple[Points, Points]:
    """Points spread over the surface, with the ways straight in."""
    corners = region.corners
    for _ in range(12):
        sides = np.linalg.norm(corners - np.roll(corners, -1, axis=1), axis=2)
        long = sides.max(axis=1) > region.size_mm / 10.0
        if len(corners) >= SAMPLES or not long.any():
            break
        corners = np.concatenate([corners[~long], *_halved(corners[long], sides[long])])
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    areas = np.linalg.norm(across, axis=1)
    real = areas > 1e-16 * region.size_mm**2
    return corners[real].mean(axis=1), -across[real] / areas[real, None]


def _halved(corners: Points, sides: Points) -> tuple[Points, Points]:
    """Each triangle cut in two across its longest side."""
    rows, k = np.arange(len(corners)), np.argmax(sides, axis=1)
    a, b, c = corners[rows, k], corners[rows, (k + 1) % 3], corners[rows, (k + 2) % 3]
    middle = (a + b) / 2.0
    return np.stack([a, middle, c], axis=1), np.stack([middle, b, c], axis=1)


def _chords(region: Region, places: Points, inward: Points) -> Points:
    """How far it is straight through the region from each place; a ball that touches there is no wider."""
    middle = region.points.mean(axis=0)
    scene = EmbreeScene()
    _mesh = TriangleMesh(scene, np.ascontiguousarray(region.corners - middle, dtype=np.float32))
    off = STARTS_OFF * region.size_mm
    origins = np.ascontiguousarray(places - middle + off * inward, dtype=np.float32)
    far = scene.run(origins, np.ascontiguousarray(inward, dtype=np.float32), query="DISTANCE")
    return np.minimum(np.asarray(far, dtype=float) + off, region.size_mm) * (1.0 + 1e-5)


def _shrunk(region: Region, place: Points, inward: Points, radius: float) -> float:
    """The radius of the greatest ball in the region that touches the surface at a place, no greater than the
    one given.
    """
    for _ in range(30):
        centre = place + inward * radius
        foot = region.nearest(centre, radius)
        if np.linalg.norm(foot - centre) >= radius * (1.0 - 1e-7):
            return radius
        way = foot - place
        ahead = float(way @ inward)
        if ahead <= 1e-12 * region.size_mm:
            return float(np.linalg.norm(foot - centre)) / 2.0
        radius = float(way @ way) / (2.0 * ahead)
    return radius


def climbed(feet: Callable[[Points, float], Points], ball: Ball, *, step_mm: float) -> Ball:
    """A ball moved to where it can be widest, by smaller and smaller steps from ``step_mm``.

    ``feet`` gives the nearest points (k, 3), one of each face of the surface that is within a distance of a
    place, those of the nearest always. Each step goes the way that leads off from all of them at once.
    """
    centre, step = np.array(ball.centre_mm), step_mm
    radius = _least_mm(feet(centre, 0.0), centre)
    for _ in range(MOST_STEPS):
        if step <= SETTLED * radius:
            break
        off = centre - feet(centre, radius + step)
        way = _away(off / np.linalg.norm(off, axis=1)[:, None])
        pull = float(np.linalg.norm(way))  # what the radius gains for each millimetre on the way, at first
        there = centre + step * way / pull if pull > SETTLED else centre
        most = _least_mm(feet(there, 0.0), there)
        if most > radius + WORTH * pull * step:
            centre, radius = there, most
        else:
            step /= 2.0
    return Ball(diameter_mm=2.0 * radius, centre_mm=_vec(centre))


def _least_mm(feet: Points, place: Points) -> float:
    return float(np.linalg.norm(feet - place, axis=1).min())


def _away(ways: Points) -> Points:
    """The way that leads off most from all of the unit ways it is to leave: the least vector of their convex
    hull (Wolfe's method, from memory); all but zero where they hold the place from all sides.
    """
    used, shares = [0], np.ones(1)
    for _ in range(60):
        found = shares @ ways[used]
        next_one = int(np.argmin(ways @ found))
        if next_one in used or float(found @ (found - ways[next_one])) < 1e-14:
            break
        used, shares = [*used, next_one], np.append(shares, 0.0)
        while True:
            flat = _flat_shares(ways[used])
            low = flat < 1e-12
            if not low.any():
                shares = flat
                break
            step = float((shares[low] / np.maximum(shares[low] - flat[low], 1e-300)).min())
            shares = shares + min(step, 1.0) * (flat - shares)
            kept = shares > 1e-12
            used, shares = [k for k, keep in zip(used, kept, strict=True) if keep], shares[kept]
    return np.asarray(shares @ ways[used])


def _flat_shares(ways: Points) -> Points:
    """The shares, which sum to 1, of the least vector in the flat through the ends of some ways."""
    count = len(ways)
    rows = np.ones((count + 1, count + 1))
    rows[0, 0], rows[1:, 1:] = 0.0, ways @ ways.T
    return np.asarray(np.linalg.lstsq(rows, np.eye(count + 1)[0], rcond=None)[0][1:])


def closest_points(corners: Points, place: Points) -> Points:
    """The nearest point of each triangle (m, 3, 3) to a place, or each to its own (m, 3); (m, 3)."""
    a, ab, ac = corners[:, 0], corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    ap = place - a
    aa, bb, cc = (np.einsum("ij,ij->i", x, y) for x, y in ((ab, ab), (ac, ac), (ab, ac)))
    d1, d2 = np.einsum("ij,ij->i", ab, ap), np.einsum("ij,ij->i", ac, ap)
    whole = aa * bb - cc * cc
    safe = np.where(whole > 0.0, whole, 1.0)
    v, w = (bb * d1 - cc * d2) / safe, (aa * d2 - cc * d1) / safe
    inside = (whole > 0.0) & (v >= 0.0) & (w >= 0.0) & (v + w <= 1.0)
    best = a + v[:, None] * ab + w[:, None] * ac
    if inside.all():
        return np.asarray(best)
    out = ~inside
    best[out] = _on_sides(corners[out], place if place.ndim == 1 else place[out, None, :])
    return np.asarray(best)


def _on_sides(corners: Points, place: Points) -> Points:
    starts, ways = corners, corners[:, [1, 2, 0]] - corners
    size = np.einsum("ijk,ijk->ij", ways, ways)
    share = np.einsum("ijk,ijk->ij", place - starts, ways) / np.where(size > 0.0, size, 1.0)
    feet = starts + np.clip(share, 0.0, 1.0)[:, :, None] * ways
    off = feet - place
    k = np.argmin(np.einsum("ijk,ijk->ij", off, off), axis=1)
    return np.asarray(feet[np.arange(len(feet)), k])
