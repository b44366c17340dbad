"""First moments of plane outlines: where an outline's area balances."""

from __future__ import annotations

import math

from model3d.geometry.outline import Outline, arc_through


def centroid_u_mm(outline: Outline) -> float:
    """The u at which the outline's area balances, mm.

    The sum over the edges of the triangles they make with the origin, plus each arc's circular segment with
    its own centroid (4 r sin^3(w/2) / (3 (w - sin w)) from the arc's centre, w the sweep; from memory,
    checked against polygons).
    """
    moment = 0.0
    for a, segment in outline.edges:
        b = segment.to
        moment += (a[0] * b[1] - b[0] * a[1]) * (a[0] + b[0]) / 6.0
        if segment.through is not None:
            arc = arc_through(a, segment.through, b)
            w = arc.sweep_rad
            middle = arc.start_rad + w / 2.0
            # area r^2 (w - sin w) / 2 times the distance above, the differences cancelled
            balance = 2.0 * arc.radius_mm**3 * math.sin(w / 2.0) ** 3 / 3.0
            moment += arc.centre[0] * arc.radius_mm**2 * (w - math.sin(w)) / 2.0 + balance * math.cos(middle)
    return moment / outline.area_mm2
