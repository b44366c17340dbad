"""How near a mover comes: against plane geometry, against another library, and on ways that turn."""

from __future__ import annotations

import math

import manifold3d
import numpy as np
import pytest

from model3d.geometry.placement import Placement
from model3d.motion import RIGID, Give, MotionBody, MotionMesh, Moving, nearest, turning_steps
from model3d.motion.from_solids import as_manifold
from model3d.motion.surface import gap

from .shapes import bar, box, here, rod


def spun(rng: np.random.Generator, reach_mm: float) -> Placement:
    """A placement turned any way, its origin within a reach."""
    q = rng.normal(size=4)
    w, x, y, z = (q / np.linalg.norm(q)).tolist()
    first = (1 - 2 * (y * y + z * z), 2 * (x * y + w * z), 2 * (x * z - w * y))
    second = (2 * (x * y - w * z), 1 - 2 * (x * x + z * z), 2 * (y * z + w * x))
    third = (2 * (x * z + w * y), 2 * (y * z - w * x), 1 - 2 * (x * x + y * y))
    a, b, c = rng.uniform(-reach_mm, reach_mm, size=3).tolist()
    return Placement(origin_mm=(a, b, c), x_axis=first, y_axis=second, z_axis=third)


def by_manifold(a: MotionMesh, b: MotionMesh, b_in_a: Placement, within_mm: float) -> float:
    """The distance of two closed meshes by another library; 0 when they meet."""
    to_a = np.array([b_in_a.x_axis, b_in_a.y_axis, b_in_a.z_axis, b_in_a.origin_mm]).T
    other: manifold3d.Manifold = as_manifold(b.points, b.triangles).transform(to_a)
    return float(as_manifold(a.points, a.triangles).min_gap(other, within_mm))


def test_distance_of_boxes_and_rods_turned_any_way() -> None:
    """The distance of two solids turned any way is what another library finds, wherever they do not meet."""
    rng, shapes = np.random.default_rng(5), (box(40.0, 25.0, 10.0), rod(6.0, 50.0, 24), bar(60.0, 4.0, 8.0))
    asked = 0
    for _ in range(150):
        a, b = (shapes[int(k)] for k in rng.integers(0, len(shapes), size=2))
        at = spun(rng, 60.0)
        other = by_manifold(a, b, at, 200.0)
        if other > 0.0:
            found = gap(a.surface, b.surface, at, within_mm=200.0)
            assert found is not None
            assert found.distance_mm == pytest.approx(other, abs=1e-6)
            asked += 1
    assert asked > 80


def test_nothing_within_reach() -> None:
    """What stands further than was asked is not told."""
    assert gap(box(10, 10, 10).surface, box(10, 10, 10).surface, here(40.0), within_mm=29.9) is None
    found = gap(box(10, 10, 10).surface, box(10, 10, 10).surface, here(40.0), within_mm=30.1)
    assert found is not None
    assert found.distance_mm == pytest.approx(30.0)
    assert found.place_mm[0] == pytest.approx(20.0)


@pytest.mark.parametrize("aside_mm", [0.05, 1.5, 12.0])
def test_a_box_that_passes_a_rod(aside_mm: float) -> None:
    """A box that passes a rod midway comes as near as the rod stands beside its way: exact, though neither end of the
    way is near.
    """
    post = MotionBody(id="rod", mesh=rod(1.5, 300.0), placement=here(50.0 + 1.5 + aside_mm, 300.0))
    passing = Moving(id="box", mesh=box(100.0, 20.0, 20.0), poses=(here(), here(0.0, 600.0)))
    found = nearest([passing], [post], within_mm=20.0)
    assert found is not None
    assert found.distance_mm == pytest.approx(aside_mm, abs=2e-3)
    assert found.place_mm[:2] == pytest.approx((50.0 + aside_mm / 2.0, 300.0), abs=0.2)
    ends = [nearest([Moving(id="box", mesh=passing.mesh, poses=(p, p))], [post], within_mm=20.0) for p in passing.poses]
    assert ends == [None, None]  # looking at the ends only would say nothing


def test_a_box_that_passes_aslant() -> None:
    """Going aslant, an edge of the box comes nearest: the rod's distance from the line that its corner draws."""
    way = (200.0, 300.0, 0.0)
    ahead = np.array(way[:2]) / math.hypot(*way[:2])
    across = np.array([ahead[1], -ahead[0]])
    corner = np.array([50.0, -10.0])
    middle = corner + ahead * 150.0 + across * (3.0 + 0.7)
    post = MotionBody(id="rod", mesh=rod(3.0, 300.0), placement=here(float(middle[0]), float(middle[1])))
    found = nearest([Moving(id="box", mesh=box(100.0, 20.0, 20.0), poses=(here(), here(*way)))], [post], within_mm=20.0)
    assert found is not None
    assert found.distance_mm == pytest.approx(0.7, abs=2e-3)


def test_a_bar_that_swings_past_a_rod() -> None:
    """A bar that swings comes nearest at the end of its turn: the rod's distance from its face there."""
    steps = tuple(turning_steps(here(), (0.0, 0.0, 0.0), 15.0, 1000.0, 0.02))
    reach, beside = 700.0, 4.0
    bearing = math.radians(15.0) + math.asin((10.0 + 2.0 + beside) / reach)
    place = here(reach * math.cos(bearing), reach * math.sin(bearing))
    post = MotionBody(id="rod", mesh=rod(2.0, 300.0), placement=place)
    found = nearest([Moving(id="bar", mesh=bar(1000.0, 10.0, 20.0), poses=steps)], [post], within_mm=20.0)
    assert found is not None
    assert found.distance_mm == pytest.approx(beside, abs=5e-3)


def test_only_pairs_that_give_nothing_count() -> None:
    """A pair that is meant to touch says nothing of how near the others come."""
    beside = {"a": 1.0, "b": 5.0}
    bodies = [MotionBody(id=n, mesh=rod(1.5, 300.0), placement=here(51.5 + d, 100.0)) for n, d in beside.items()]
    passing = Moving(id="box", mesh=box(100.0, 20.0, 20.0), poses=(here(), here(0.0, 200.0)))
    found = nearest([passing], bodies, meant=lambda _m, b: Give(mover_mm=1.0) if b == "a" else RIGID, within_mm=20.0)
    assert found is not None
    assert (found.standing, found.distance_mm) == ("b", pytest.approx(5.0, abs=2e-3))
