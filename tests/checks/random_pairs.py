"""Pairs of plain bodies at random, of every two kinds, turned and placed anywhere; many of them all but in contact."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import combinations_with_replacement
from typing import Literal

import numpy as np

from model3d.geometry.placement import Placement, Vec3
from tests.checks.how_far import Apart, Pose, apart
from tests.checks.plain_bodies import Plain, PlainBox, PlainPrism, PlainRing, PlainRod, Points

Rng = np.random.Generator
Truth = Literal["overlap", "clear", "either"]

CONTACT_MM = 0.02
EITHER_MM = 0.001  # about the limit of contact, where neither answer is wrong
NEAR_SHARE = 0.6  # of the pairs are put in or out of one another by no more than NEAR_MM
NEAR_MM = 0.5
SQUARE_SHARE = 0.25  # of the pairs have axes along one another's
FAR_MM = 60_000.0
DEEP_MM = 1.0


@dataclass(frozen=True, kw_only=True)
class Pair:
    """Two bodies where they stand, of what two ``kinds``; ``near``: put within ``NEAR_MM`` of contact."""

    kinds: str
    near: bool
    a: Plain
    b: Plain
    a_at: Placement
    b_at: Placement

    @property
    def apart(self) -> Apart:
        """How far they are apart, from their placements as they are given."""
        there = self.a_at.inverse() @ self.b_at
        axes = np.array([there.x_axis, there.y_axis, there.z_axis]).T
        return apart(self.a, self.b, Pose(axes=axes, origin_mm=np.array(there.origin_mm)), enough_mm=DEEP_MM)


def truth(found: Apart) -> Truth:
    """Whether two bodies so far apart overlap by more than contact."""
    if found.most_mm < -CONTACT_MM - EITHER_MM:
        return "overlap"
    return "clear" if found.least_mm > -CONTACT_MM + EITHER_MM else "either"


def a_box(rng: Rng) -> PlainBox:
    """A box, its sides 2 to 60."""
    x, y, z = _spread(rng, 1.0, 30.0, 3)
    return PlainBox(half_mm=(x, y, z))


def a_rod(rng: Rng) -> PlainRod:
    """A cylinder, 2 to 40 thick, 2 to 80 long."""
    return PlainRod(radius_mm=_spread(rng, 1.0, 20.0)[0], half_mm=_spread(rng, 1.0, 40.0)[0])


def a_ring(rng: Rng) -> PlainRing:
    """A torus, its section 1 to 12 thick."""
    minor = _spread(rng, 0.5, 6.0)[0]
    return PlainRing(major_mm=minor * float(rng.uniform(1.3, 8.0)), minor_mm=minor)


def a_prism(rng: Rng) -> PlainPrism:
    """An outline of three to eight corners on an ellipse, 2 to 80 long."""
    count = int(rng.integers(3, 9))
    turns = (np.arange(count) + rng.uniform(-0.3, 0.3, count)) * 2.0 * math.pi / count
    x, y = _spread(rng, 1.5, 25.0, 2)
    corners = tuple((x * math.cos(t), y * math.sin(t)) for t in turns.tolist())
    return PlainPrism(corners_mm=corners, half_mm=_spread(rng, 1.0, 40.0)[0])


MAKERS: dict[str, Callable[[Rng], Plain]] = {"box": a_box, "rod": a_rod, "ring": a_ring, "prism": a_prism}
KINDS = tuple(combinations_with_replacement(MAKERS, 2))


def pair(number: int) -> Pair:
    """The pair of that number, the same every time."""
    rng = np.random.default_rng((20261130, number))
    kinds = KINDS[number % len(KINDS)]
    a, b = (MAKERS[kind](rng) for kind in kinds)
    near = bool(rng.random() < NEAR_SHARE)
    square = bool(rng.random() < SQUARE_SHARE)
    axes = _square(rng) if square else _turned(rng)
    there = _near(a, b, axes, rng) if near else _anywhere(a, b, axes, rng)
    a_at = _placement(Pose(axes=_turned(rng), origin_mm=rng.uniform(-FAR_MM, FAR_MM, 3)))
    return Pair(kinds=" and ".join(kinds), near=near, a=a, b=b, a_at=a_at, b_at=a_at @ _placement(there))


def _anywhere(a: Plain, b: Plain, axes: Points, rng: Rng) -> Pose:
    """So near that the balls round the two meet."""
    way = rng.normal(size=3)
    far = (a.reach_mm + b.reach_mm) * rng.random()
    return Pose(axes=axes, origin_mm=way * far / np.linalg.norm(way))


def _near(a: Plain, b: Plain, axes: Points, rng: Rng) -> Pose:
    """Moved from where they are apart along the shortest way between them, until they are as far apart, or in one
    another, as is drawn: as often a little as much.
    """
    while True:
        pose = _anywhere(a, b, axes, rng)
        found = apart(a, b, pose, enough_mm=0.0)
        if found.most_mm <= 1e-3:  # out of one another, or it is not told which way
            pose = pose.moved(pose.origin_mm / np.linalg.norm(pose.origin_mm) * (a.reach_mm + b.reach_mm))
            found = apart(a, b, pose)
        if found.most_mm > 1e-3:
            break
    wanted = float(np.exp(rng.uniform(math.log(0.005), math.log(NEAR_MM)))) * (1.0 if rng.random() < 0.4 else -1.0)
    return pose.moved((wanted - found.most_mm) * found.way)


def _spread(rng: Rng, low: float, high: float, count: int = 1) -> list[float]:
    """Numbers between two, as many small as large."""
    return [float(value) for value in np.exp(rng.uniform(math.log(low), math.log(high), count))]


def _turned(rng: Rng) -> Points:
    """Axes turned at random."""
    q, r = np.linalg.qr(rng.normal(size=(3, 3)))
    q = q * np.sign(np.diag(r))
    return np.asarray(q if np.linalg.det(q) > 0.0 else q[:, [1, 0, 2]])


def _square(rng: Rng) -> Points:
    """Axes along the axes."""
    q = np.eye(3)[rng.permutation(3)] * rng.choice([-1.0, 1.0], 3)
    return np.asarray(q if np.linalg.det(q) > 0.0 else -q)


def _placement(pose: Pose) -> Placement:
    x, y, z = (_vec(pose.axes[:, k]) for k in range(3))
    return Placement(origin_mm=_vec(pose.origin_mm), x_axis=x, y_axis=y, z_axis=z)


def _vec(values: Points) -> Vec3:
    return (float(values[0]), float(values[1]), float(values[2]))
