"""How far one of two convex bodies has to be moved to be off the other.

The least move is the distance of the origin from the surface of all differences of their points. That surface is closed
in on by a polyhedron within it, its nearest side pushed out until it cannot be (van den Bergen's algorithm, from
memory).
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
from scipy.spatial import ConvexHull, QhullError

Points = npt.NDArray[np.float64]

CLOSE_SHARE = 1e-3  # of the move, and
CLOSE_MM = 1e-6  # of a millimetre: when it is told
MOST_STEPS = 200


def least_move_mm(a: Points, b: Points) -> float:
    """The least move that takes apart the convex hulls of two sets of corners, (n, 3) and (m, 3), mm; 0 when they
    are apart. No more than the true one, by no more than a thousandth of it.
    """
    ways = np.array([(x, y, z) for x in (-1, 0, 1) for y in (-1, 0, 1) for z in (-1, 0, 1) if x or y or z], dtype=float)
    try:
        hull = ConvexHull(np.array([_furthest(a, b, way) for way in ways]), incremental=True)
        return _nearest_side(hull, a, b)
    except QhullError:  # all in one plane: nothing is shared
        return 0.0


def _nearest_side(hull: ConvexHull, a: Points, b: Points) -> float:
    inner = 0.0
    for _ in range(MOST_STEPS):
        number = int(np.argmax(hull.equations[:, 3]))
        way, inner = hull.equations[number, :3], -float(hull.equations[number, 3])
        new = _furthest(a, b, way)
        outer = float(new @ way)
        if outer <= 0.0:
            return 0.0
        if outer - inner <= max(CLOSE_SHARE * outer, CLOSE_MM):
            break
        hull.add_points(new[None])
    return max(inner, 0.0)


def _furthest(a: Points, b: Points, way: Points) -> Points:
    """Of all points of the second less points of the first, the one furthest in a direction."""
    return np.asarray(b[int(np.argmax(b @ way))] - a[int(np.argmin(a @ way))])
