"""Slight overlaps looked at closer: how far bodies have to be moved, and what the kernel does not see."""

from __future__ import annotations

import math

import cadquery as cq
import numpy as np
import pytest

from model3d.checks.engine import Body, Tolerance, clashes, closer, cut_to_box, verdict
from model3d.checks.engine.overlap import exact_overlap
from model3d.checks.engine.parting import least_move_mm
from model3d.geometry.placement import at
from tests.checks.known_solids import box, ring, rod
from tests.checks.random_pairs import pair

UNSEEN = (1177, 3397)  # pairs of rings of which the kernel's boolean finds no overlap, either way round


def corners(size: float, middle: tuple[float, float, float], turn_deg: float = 0.0) -> np.ndarray:
    """Corners of a cube turned about z."""
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    cube = np.array([(x, y, z) for x in (-1, 1) for y in (-1, 1) for z in (-1, 1)], dtype=float) * size / 2
    return np.asarray(cube @ np.array([[c, s, 0], [-s, c, 0], [0, 0, 1]]) + np.array(middle))


@pytest.mark.parametrize(
    ("middle", "turn_deg", "move_mm"),
    [
        ((1.9, 0.3, 0.2), 0.0, 0.1),
        ((1.9, 1.95, 0.2), 0.0, 0.05),
        ((1.0 + math.sqrt(2) - 0.1, 0.0, 0.0), 45.0, 0.1),
        ((0.0, 0.0, 0.0), 0.0, 2.0),
        ((2.1, 0.0, 0.0), 0.0, 0.0),
        ((5.0, 5.0, 5.0), 30.0, 0.0),
    ],
)
def test_the_least_move_of_two_cubes(middle: tuple[float, float, float], turn_deg: float, move_mm: float) -> None:
    """Two cubes of side 2 come apart by the least overlap along a side, whichever is asked first."""
    a, b = corners(2.0, (0.0, 0.0, 0.0)), corners(2.0, middle, turn_deg)
    assert least_move_mm(a, b) == pytest.approx(move_mm, rel=2e-3, abs=1e-6)
    assert least_move_mm(b, a) == pytest.approx(move_mm, rel=2e-3, abs=1e-6)


@pytest.mark.parametrize("number", UNSEEN)
def test_what_the_kernel_does_not_see_is_found(number: int) -> None:
    """Two rings that overlap by a lens are found to, as deep as closed forms say, though the kernel sees nothing."""
    found = pair(number)
    a, b, b_in_a = found.a.solid(), found.b.solid(), found.a_at.inverse() @ found.b_at
    assert exact_overlap(a, b, b_in_a) is None
    assert exact_overlap(b, a, b_in_a.inverse()) is None
    bodies = [
        Body(id="a", shape_key="a", placement=found.a_at),
        Body(id="b", shape_key="b", placement=found.b_at),
    ]
    (clash,) = clashes(bodies, {"a": a, "b": b}, allowed_mm=lambda _a, _b: 0.0, tolerance=Tolerance())
    assert not clash.overlap.exact
    assert clash.overlap.depth_mm == pytest.approx(-found.apart.most_mm, abs=1e-3)


def test_an_edge_is_deepest_between_its_ends() -> None:
    """A prism's edge in the hollow side of a ring is as deep as closed forms say: more than its ends are."""
    found = pair(4958)
    bodies = [
        Body(id="a", shape_key="a", placement=found.a_at),
        Body(id="b", shape_key="b", placement=found.b_at),
    ]
    shapes = {"a": found.a.solid(), "b": found.b.solid()}
    (clash,) = clashes(bodies, shapes, allowed_mm=lambda _a, _b: 0.0, tolerance=Tolerance())
    assert clash.overlap.depth_mm == pytest.approx(-found.apart.most_mm, abs=5e-4)


def met(a: cq.Solid, b: cq.Solid, down_mm: float) -> bool:
    """Whether the engine finds two solids to overlap, the second so far down."""
    bodies = [
        Body(id="a", shape_key="a", placement=at(0, 0, 0)),
        Body(id="b", shape_key="b", placement=at(0, 0, -down_mm)),
    ]
    return any(True for _ in clashes(bodies, {"a": a, "b": b}, allowed_mm=lambda _a, _b: 0.0, tolerance=Tolerance()))


@pytest.mark.parametrize(("down_mm", "clash"), [(0.0, False), (0.018, False), (0.022, True), (0.1, True)])
def test_contact_is_told_from_a_clash_to_a_thousandth(down_mm: float, clash: bool) -> None:
    """A ring, a rod and a box on a plate clash from .02 on, and not before."""
    plate = box(60, 60, 10, (-30, -30, -10))
    lying = cq.Location(cq.Plane((0, 0, 2), (0, 0, -1), (1, 0, 0)))
    for body in (ring(20, 2).moved(cq.Location((0, 0, 2))), rod(2, 20).moved(lying), box(8, 8, 8)):
        assert met(plate, body, down_mm) == clash


@pytest.mark.parametrize("fault", ["the kernel alone", "cut to nothing"])
def test_without_it_the_overlap_is_missed(fault: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """An engine that leaves slight overlaps to the kernel, or whose cut loses the solid, misses them: both are seen."""
    if fault == "the kernel alone":
        monkeypatch.setattr(verdict, "_seen", lambda *_, **__: None)
        monkeypatch.setattr(
            verdict, "_confirmed", lambda s, a, b, at, *_, **__: exact_overlap(s.shapes[a], s.shapes[b], at)
        )
    else:
        monkeypatch.setattr(verdict, "seen_closer", lambda *_, **__: closer.NOTHING)
    found = pair(UNSEEN[1])
    bodies = [
        Body(id="a", shape_key="a", placement=found.a_at),
        Body(id="b", shape_key="b", placement=found.b_at),
    ]
    shapes = {"a": found.a.solid(), "b": found.b.solid()}
    assert list(clashes(bodies, shapes, allowed_mm=lambda _a, _b: 0.0, tolerance=Tolerance())) == []


def test_a_cut_that_loses_the_solid_is_not_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the kernel's cut to the box holds less than the skin does there, it is not used: the answer is left to the
    kernel and the meshes.
    """
    empty = cut_to_box._kernel_cut(ring(20, 2).wrapped, np.array([[100.0, 100, 100], [101, 101, 101]]))
    monkeypatch.setattr(cut_to_box, "_kernel_cut", lambda *_: empty)
    plate = box(60, 60, 10, (-30, -30, -10))
    assert met(plate, ring(20, 2).moved(cq.Location((0, 0, 2))), 0.05)
