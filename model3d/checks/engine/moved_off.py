"""How far one of two bodies has to be moved to be off the other, where they meet from one side.

The widest ball that fits between a corner and a face is less than the corner is deep, so a slight overlap is
measured this way too. Where the bodies hold one another (a ring in its bore, a rod in a saddle) no move frees
them, and the ball alone speaks.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from scipy.optimize import nnls

from model3d.checks.engine.facets import Facets, Points

ONE_SIDED = 0.05  # least cosine between the way off and the faces that are left
ALIKE = 1.0 - 1e-6  # cosine of directions that count as one
WITHIN = 1e-3  # of a unit: how far a direction may stand outside a cone of others
MOST_WAYS = 9  # directions that stand for those of a round face


@dataclass(frozen=True, slots=True, kw_only=True)
class _Side:
    """What of one body bounds an overlap: corners of its mesh (n, 3), and the directions its faces look in
    (k, 3), out of the overlap.
    """

    points: Points
    ways: Points


def moved_off_mm(of_first: Sequence[Facets], of_second: Sequence[Facets]) -> float | None:
    """The least move that takes two bodies apart, by the faces of each that bound what they share; None where
    they do not meet from one side.

    The way of that move is square to both where they last meet: it lies among the directions that the first
    one's faces look in, and opposite to those of the second's (the condition of a least penetration).
    """
    if not of_first or not of_second:
        return None
    a, b = _side(of_first), _side(of_second)
    across = _area(of_first) - _area(of_second)
    size = float(np.linalg.norm(across))
    if size < 1e-15:
        return None
    off = across / size
    if float((a.ways @ off).min()) < ONE_SIDED or float((b.ways @ off).max()) > -ONE_SIDED:
        return None
    tried = [way for way in _tried(a.ways, -b.ways, off) if _among(way, a.ways) and _among(-way, b.ways)]
    return min((float((a.points @ way).max() - (b.points @ way).min()) for way in tried or [off]), default=None)


def _side(faces: Sequence[Facets]) -> _Side:
    points = np.concatenate([face.points for face in faces])
    ways = np.concatenate([face.normals[:1] if face.flat.all() else face.normals for face in faces])
    return _Side(points=points, ways=_unlike(ways))


def _unlike(ways: Points) -> Points:
    """Directions spread over all of some, each as far from the others as may be."""
    kept = [ways[0]]
    nearest = ways @ ways[0]
    while len(kept) < MOST_WAYS and nearest.min() < ALIKE:
        kept.append(ways[int(np.argmin(nearest))])
        nearest = np.maximum(nearest, ways @ kept[-1])
    return np.array(kept)


def _area(faces: Sequence[Facets]) -> Points:
    """The sum of the triangles' areas as vectors."""
    total = np.zeros(3)
    for face in faces:
        a, b, c = (face.points[face.triangles[:, k]] for k in range(3))
        total += np.cross(b - a, c - a).sum(axis=0) / 2.0
    return total


def _tried(a: Points, b: Points, off: Points) -> list[Points]:
    """Ways that may be the least: square to a face of either, or to an edge of both; and straight off."""
    edges_a, edges_b = ([np.cross(x, y) for x, y in combinations(ways, 2)] for ways in (a[:MOST_WAYS], b[:MOST_WAYS]))
    found = [off, *a, *b]
    for x in edges_a:
        for y in edges_b:
            way = np.cross(x, y)
            size = float(np.linalg.norm(way))
            if size > 1e-9:
                found += [way / size, -way / size]
    return [way for way in found if float(way @ off) > 0.0]


def _among(way: Points, ways: Points) -> bool:
    """Whether a direction is a sum of shares of others."""
    return bool(nnls(ways.T, way)[1] < WITHIN)
