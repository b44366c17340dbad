"""Outlines built by shapely from a family file's plain numbers: nothing here calls the package."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

PER_TURN = 20_000


def arc(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> list[tuple[float, float]]:
    """Points of the arc from a through b to c, a left out: centre by linear algebra (equal distance to the three)."""
    rows = np.array([[b[0] - a[0], b[1] - a[1]], [c[0] - a[0], c[1] - a[1]]]) * 2.0
    right = np.array([b[0] ** 2 - a[0] ** 2 + b[1] ** 2 - a[1] ** 2, c[0] ** 2 - a[0] ** 2 + c[1] ** 2 - a[1] ** 2])
    centre = np.linalg.solve(rows, right)
    radius = math.dist(a, centre)
    angles = [math.atan2(p[1] - centre[1], p[0] - centre[0]) for p in (a, b, c)]
    turns = np.unwrap(angles)
    if abs(turns[2] - turns[0]) < abs(turns[1] - turns[0]):
        turns[2] += math.copysign(2.0 * math.pi, turns[1] - turns[0])
    count = max(8, int(PER_TURN * abs(turns[2] - turns[0]) / (2.0 * math.pi)))
    steps = np.linspace(turns[0], turns[2], count + 1)[1:]
    return [(centre[0] + radius * math.cos(t), centre[1] + radius * math.sin(t)) for t in steps]


def polygon(outline: dict[str, Any]) -> Polygon:
    """An outline as a polygon of very short chords."""
    points = [tuple(outline["start"])]
    for edge in outline["edges"]:
        if "through" in edge:
            points += arc(points[-1], tuple(edge["through"]), tuple(edge["to"]))
        else:
            points.append(tuple(edge["to"]))
    return Polygon(points)


def stadium(way: dict[str, Any], wider_mm: float = 0.0) -> BaseGeometry:
    """A waterway as a point or an upright line grown by its radius."""
    u, v = way["centre"]
    radius, straight = way["width_mm"] / 2.0, way["height_mm"] - way["width_mm"]
    core = Point(u, v) if straight == 0 else LineString([(u, v - straight / 2.0), (u, v + straight / 2.0)])
    return core.buffer(radius + wider_mm, quad_segs=PER_TURN // 4)


def metal(section: dict[str, Any]) -> BaseGeometry:
    """The section's metal away from its ends."""
    shape: BaseGeometry = polygon(section["outline"])
    for chamber in section["chambers"]:
        shape = shape.difference(polygon(chamber))
    for way in section["waterways"]:
        shape = shape.difference(stadium(way))
    return shape
