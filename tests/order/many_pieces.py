"""A long room with bays on one side, and a run of as many pieces as asked for round its walls."""

from __future__ import annotations

from model3d.order.job import Job, job_of
from tests.layout.every_joint import family_of
from tests.layout.rooms_by_hand import plan_of, ring_of, run_over

BAY_MM, DEEP_MM = 1400.0, 1200.0


def long_room(count: int, family: str = "a-square") -> Job:
    """A run of ``count`` pieces, one a wall: internal and external right angles by turns, in bay after bay."""
    points = [(0.0, 0.0)]
    for bay in range(count // 4 + 1):
        x = (2 * bay + 1) * BAY_MM
        points += [(x, 0.0), (x, -DEEP_MM), (x + BAY_MM, -DEEP_MM), (x + BAY_MM, 0.0)]
    end = points[-1][0] + BAY_MM
    points += [(end, 0.0), (end, 4000.0), (0.0, 4000.0)]
    ring = ring_of(points)
    run = run_over(ring, 1, count, start_at=200.0)
    return job_of(plan_of(ring, run), family_of(family))
