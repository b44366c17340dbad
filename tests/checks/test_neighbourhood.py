"""Places along a solid that look alike from a small one are known to be alike, and others are not."""

from __future__ import annotations

import cadquery as cq
import numpy as np
import pytest

from model3d.checks.engine import Body, Clash, Memory, Tolerance, clashes
from model3d.checks.engine.bodies import matrix
from model3d.checks.engine.neighbourhood import Told, boundary, told
from model3d.geometry.placement import Placement, at, turned_about_z
from tests.checks.known_solids import ALONG_X, ball, box, less, ring, rod


def bored_bar(length_mm: float, radius_mm: float = 4.0) -> cq.Solid:
    """A square bar along x with a round hole right through."""
    hole = rod(radius_mm, length_mm + 20.0).moved(cq.Location(cq.Plane((-10, 0, 0), (0, 0, -1), (1, 0, 0))))
    return less(box(length_mm, 30, 30, (0, -15, -15)), hole)


def seen(body: cq.Solid, place: Placement, half_mm: float = 5.0) -> Told | None:
    """What comes into a box about a place of a body, seen from there."""
    middle = np.array(place.origin_mm)
    return told(
        boundary(body.wrapped), np.array([middle - half_mm, middle + half_mm]), matrix(place.inverse())
    )


def test_a_bore_looks_the_same_anywhere_and_in_any_length() -> None:
    """From inside a plain bore every place looks alike, whatever the bar's length, from either side."""
    first = seen(bored_bar(100.0), at(50, 0, 0))
    assert first is not None
    assert first == seen(bored_bar(100.0), at(20, 0, 0)) == seen(bored_bar(2345.6), at(1111.1, 0, 0))


@pytest.mark.parametrize(
    ("body", "place"),
    [
        (bored_bar(100.0, 4.1), at(50, 0, 0)),
        (bored_bar(100.0), at(50, 0, 0.01)),
        (bored_bar(100.0), at(50, 0.01, 0)),
        (rod(4.0, 100.0).moved(cq.Location(cq.Plane((0, 0, 0), (0, 0, -1), (1, 0, 0)))), at(50, 0, 0)),
    ],
    ids=["another bore", "higher", "aside", "a bar instead of a hole"],
)
def test_another_place_is_told_from_it(body: cq.Solid, place: Placement) -> None:
    """Another radius, a place a hundredth aside, or a bar where there was a hole, look different."""
    assert seen(body, place) != seen(bored_bar(100.0), at(50, 0, 0))


def test_the_mouth_of_a_bore_looks_the_same_in_any_length() -> None:
    """Near an end the mouth is told: as far from it every bar looks alike; nearer, further or from the other end,
    it does not.
    """
    mouth = seen(bored_bar(100.0), at(3, 0, 0))
    assert mouth is not None
    assert mouth == seen(bored_bar(250.0), at(3, 0, 0))
    assert mouth == seen(bored_bar(100.0), at(97, 0, 0) @ turned_about_z(180.0))
    for other in (at(3.01, 0, 0), at(97, 0, 0), at(50, 0, 0)):
        assert seen(bored_bar(100.0), other) != mouth


def test_a_round_hole_is_told_from_a_round_face() -> None:
    """The mouth of a hole and the end of a rod as thick have one circle for an edge, and are not alike."""
    hole = seen(bored_bar(100.0), at(0, 0, 0))
    rod_end = seen(rod(4.0, 100.0).moved(cq.Location(cq.Plane((0, 0, 0), (0, 0, -1), (1, 0, 0)))), at(0, 0, 0))
    assert hole is not None
    assert rod_end is not None
    circles = [[face[-12:] for face in told_of if face[0] == 0.0] for told_of in (hole, rod_end)]
    assert sorted(circles[0][0]) == sorted(circles[1][0])
    assert circles[0] != circles[1]


def test_an_edge_of_another_kind_is_not_told() -> None:
    """Where a bar cut off askew ends, its hole's mouth is an ellipse: nothing is told of it."""
    askew = box(40, 60, 60, (-20, -30, -30)).moved(cq.Location(cq.Vector(100, 0, 0), cq.Vector(0, 0, 1), 30))
    assert seen(less(bored_bar(100.0), askew), at(80, 0, 0)) is None
    assert seen(less(bored_bar(100.0), askew), at(50, 0, 0)) is not None


def test_faces_of_other_kinds_are_not_told() -> None:
    """A ball's or a ring's surface is not told."""
    assert seen(ball(5), at(0, 0, 0)) is None
    assert seen(ring(10, 3), at(10, 0, 0)) is None


def test_a_face_that_fills_the_box_is_not_told() -> None:
    """A plane face of which no edge comes near could be there or not: it is not told."""
    assert seen(box(100, 100, 10), at(50, 50, 10)) is None


def pressed(lengths_mm: list[float], memory: Memory, allowed_mm: float) -> list[Clash]:
    """Rings that are .2 too thick, in bars of these lengths, far from one another."""
    bodies = []
    for k, length in enumerate(lengths_mm):
        pose = at(0, 100.0 * k, 0)
        bodies += [
            Body(id=f"bar {k}", shape_key=length, placement=pose),
            Body(id=f"ring {k}", shape_key="ring", placement=pose @ ALONG_X.moved((length / 2 + k, 0, 0))),
        ]
    shapes: dict[object, cq.Solid] = {length: bored_bar(length) for length in lengths_mm}
    shapes["ring"] = ring(3.2, 1.0)
    return list(
        clashes(bodies, shapes, allowed_mm=lambda _a, _b: allowed_mm, tolerance=Tolerance(), memory=memory)
    )


def test_a_ring_in_bars_of_many_lengths_is_worked_out_once() -> None:
    """A ring pressed in bars of several lengths is worked out once; each clash has its own place."""
    memory = Memory()
    lengths = [150.0, 160.0, 170.0, 180.0]
    assert pressed(lengths, memory, 0.2) == []
    found = pressed(lengths, memory, 0.1)
    assert len(found) == 4
    volumes = {round(c.overlap.volume_mm3, 9) for c in found}
    assert len(volumes) == 1
    for k, (clash, length) in enumerate(zip(found, lengths, strict=True)):
        x, y, z = clash.place_mm
        assert abs(x - length / 2 - k) < 1.0
        assert np.hypot(y - 100.0 * k, z) == pytest.approx(4.1, abs=0.05)
