"""Strokes, outlines and deepest points, by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest

from model3d.geometry.placement import at
from model3d.illustrations.camera import Camera, Window, framed
from model3d.illustrations.contours import Body
from model3d.illustrations.joining import joined, simplified
from model3d.illustrations.regions import deepest, outlines
from model3d.illustrations.shapes import shape
from model3d.illustrations.sight import Sight
from model3d.illustrations.strokes import Shown, strokes
from model3d.parts.room import BoxSpec
from tests.illustrations.seen import PAGE, drawn, length_mm

CUBE = BoxSpec(size_mm=(60.0, 60.0, 60.0))
ISO = (1.0, -1.0, 1.0)


def test_nine_edges_of_a_cube_are_seen() -> None:
    """From a corner's direction a cube of side a shows nine edges, each a sqrt(2/3) long."""
    found, camera = drawn([Body(owner="cube", shape=shape(CUBE), placement=at(0, 0, 0))], ISO)
    assert length_mm(found, camera) == pytest.approx(9 * 60.0 * math.sqrt(2.0 / 3.0), rel=2e-3)


def test_outer_edges_are_thick_and_inner_ones_are_not() -> None:
    """Air behind an edge makes it thick: the six of a cube's rim; the three that meet before it are medium."""
    found, camera = drawn([Body(owner="cube", shape=shape(CUBE), placement=at(0, 0, 0))], ISO)
    thick = length_mm([s for s in found if s.weight == "thick"], camera)
    medium = length_mm([s for s in found if s.weight == "medium"], camera)
    assert thick / medium == pytest.approx(2.0, rel=0.05)


def test_what_stands_behind_is_hidden() -> None:
    """A small cube right behind a large one leaves no stroke; moved aside it leaves all of its own."""
    large = Body(owner="large", shape=shape(CUBE), placement=at(0, 0, 0))
    small = BoxSpec(size_mm=(10.0, 10.0, 10.0))
    for shift, seen in ((25.0, False), (200.0, True)):
        behind = Body(owner="small", shape=shape(small), placement=at(shift, 300.0, 25.0))
        found, _ = drawn([large, behind], (0.0, -1.0, 0.001))
        assert any(s.owner == "small" for s in found) is seen


def test_the_room_is_thin() -> None:
    """A body of the room is drawn in thin soft lines only."""
    body = Body(owner="wall", shape=shape(CUBE), placement=at(0, 0, 0))
    camera = framed(body.corners_mm.reshape(-1, 3), Camera(target_mm=(0, 0, 0), toward=ISO, distance_mm=500.0), PAGE)
    found = strokes([Shown(body=body, soft=True)], Sight([body], np.zeros(3)), camera)
    assert {(s.weight, s.colour) for s in found} == {("thin", "soft")}


def test_lines_that_meet_are_joined() -> None:
    """Three stretches end to end are one line; where a third one meets them, they stay apart."""
    a, b, c = (np.array(p, dtype=float) for p in (((0, 0), (1, 0)), ((2, 0), (1, 0)), ((2, 0), (3, 1))))
    assert [len(line) for line in joined([a, b, c])] == [4]
    branch = np.array(((1.0, 0.0), (1.0, 5.0)))
    assert len(joined([a, b, c, branch])) == 3


def test_points_that_shape_nothing_go() -> None:
    """A point on the straight between its neighbours goes, a corner stays."""
    line = np.array([(0.0, 0.0), (1.0, 0.004), (2.0, 0.0), (2.0, 3.0)])
    assert simplified(line).tolist() == [[0.0, 0.0], [2.0, 0.0], [2.0, 3.0]]


def test_the_deepest_point_and_the_outline_of_a_region() -> None:
    """Of a ring-shaped region the deepest point lies within it, and it has an outline and a hole."""
    mask = np.zeros((40, 60), dtype=bool)
    mask[5:35, 5:55] = True
    mask[15:25, 20:50] = False
    window = Window(left=0.0, top=0.0, width=15.0, height=10.0)
    found = deepest(mask, window, 4.0)
    assert found is not None
    assert mask[int(found.at[1] * 4.0), int(found.at[0] * 4.0)]
    assert found.depth_mm == pytest.approx(7.5 / 4.0, abs=0.3)
    rings = outlines(mask, window, 4.0)
    assert [len(ring) for ring in rings] == [4, 4]
    assert deepest(np.zeros_like(mask), window, 4.0) is None
