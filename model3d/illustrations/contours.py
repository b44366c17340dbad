"""The lines that a solid may show from one side: its sharp edges, and the contours of its curved faces.

A contour is where the surface turns away from the viewer. It is found with the true surface's normals at the
triangles' corners, so it runs smoothly across the triangles instead of along their zigzag edges.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from model3d.geometry.placement import Placement
from model3d.illustrations.camera import Camera, Points
from model3d.illustrations.shapes import Line, Numbers, Shape, moved, turned

Key = tuple[int, int]
"""The two corners that a point lies between."""

_LEVEL = 1e-6  # a face this near to edge-on counts as turned away


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Body:
    """A shape standing somewhere in the room. ``owner`` is the id of what it belongs to."""

    owner: str
    shape: Shape
    placement: Placement

    @property
    def corners_mm(self) -> Points:
        """(m, 3, 3) triangles in the room."""
        return moved(self.shape.corners_mm.reshape(-1, 3), self.placement).reshape(-1, 3, 3)


def edges(body: Body) -> Iterator[Line]:
    """The sharp edges of a body where it stands."""
    for edge in body.shape.edges:
        yield edge.placed(body.placement)


def contours(body: Body, camera: Camera) -> Iterator[Line]:
    """The contours of a body's curved faces, chained as far as they run on."""
    curved = body.shape.curved
    if not curved.any():
        return
    corners = moved(body.shape.corners_mm[curved].reshape(-1, 3), body.placement)
    normals = turned(body.shape.normals[curved].reshape(-1, 3), body.placement)
    sight = camera.sight(corners)
    facing = np.einsum("ij,ij->i", normals, sight).reshape(-1, 3) - _LEVEL
    corners, sight = corners.reshape(-1, 3, 3), sight.reshape(-1, 3, 3)
    split = (facing > 0).any(axis=1) & (facing <= 0).any(axis=1)
    split[split] = _bulges(corners[split], facing[split], sight[split])
    if split.any():
        shapes = corners[split], normals.reshape(-1, 3, 3)[split]
        yield from _chained(*_crossings(*shapes, facing[split], body.shape.vertices[curved][split]))


def _bulges(corners: Points, facing: Points, sight: Points) -> npt.NDArray[np.bool_]:
    """(m,) whether the surface bulges along the line of sight: it turns toward the viewer as it comes nearer. Where it
    is hollow along it, its contour lies behind the surface itself.
    """
    a, b = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    across = np.cross(a, b)
    size = np.maximum(np.einsum("ij,ij->i", across, across), 1e-18)[:, None]
    rise = (facing[:, 1] - facing[:, 0])[:, None], (facing[:, 2] - facing[:, 0])[:, None]
    slope = (rise[0] * np.cross(b, across) + rise[1] * np.cross(across, a)) / size
    return np.asarray(np.einsum("ij,ij->i", slope, sight.mean(axis=1)) > 0)


def _crossings(corners: Points, normals: Points, facing: Points, vertices: Numbers) -> tuple[Points, Points, Numbers]:
    """For each split triangle the two points (m, 2, 3) where its sides cross over, the normals there, and the
    numbers (m, 2, 2) of the corners that each point lies between.
    """
    front = facing > 0
    lone = np.where(front.sum(axis=1) == 1, front.argmax(axis=1), (~front).argmax(axis=1))
    row = np.arange(len(facing))
    ends = []
    for step in (1, 2):
        other = (lone + step) % 3
        a, b = facing[row, lone], facing[row, other]
        share = (a / np.where(a == b, 1.0, a - b))[:, None]
        at = corners[row, lone] * (1 - share) + corners[row, other] * share
        way = normals[row, lone] * (1 - share) + normals[row, other] * share
        way = way / np.maximum(np.linalg.norm(way, axis=1, keepdims=True), 1e-9)
        between = np.sort(np.column_stack([vertices[row, lone], vertices[row, other]]), axis=1)
        ends.append((at, way, between))
    (at_a, way_a, key_a), (at_b, way_b, key_b) = ends
    return np.stack([at_a, at_b], axis=1), np.stack([way_a, way_b], axis=1), np.stack([key_a, key_b], axis=1)


def _chained(points: Points, ways: Points, keys: Numbers) -> Iterator[Line]:
    """Segments joined where they cross the same side of two triangles."""
    ends: dict[Key, list[int]] = defaultdict(list)
    named = [tuple((int(k[0]), int(k[1])) for k in pair) for pair in keys]
    for number, pair in enumerate(named):
        for key in pair:
            ends[key].append(number)
    left = set(range(len(named)))
    loose = [n for n, pair in enumerate(named) if any(len(ends[k]) != 2 for k in pair)]
    for start in [*loose, *range(len(named))]:
        if start not in left:
            continue
        first, last = named[start]
        walk = _walk(start, first if len(ends[last]) == 2 or len(ends[first]) != 2 else last, named, ends, left)
        line = [points[walk[0][0], walk[0][1]], *(points[n, 1 - tail] for n, tail in walk)]
        outs = [ways[walk[0][0], walk[0][1]], *(ways[n, 1 - tail] for n, tail in walk)]
        yield Line(points_mm=np.array(line), sides=np.array([outs, outs]), bend="contour")


def _walk(
    start: int, here: Key, named: list[tuple[Key, ...]], ends: dict[Key, list[int]], left: set[int]
) -> list[tuple[int, int]]:
    """Segments that go on from one another, each with the end (0 or 1) that it is entered by; taken out of ``left``."""
    found = []
    onward: int | None = start
    while onward is not None:
        left.discard(onward)
        tail = named[onward].index(here)
        found.append((onward, tail))
        here = named[onward][1 - tail]
        onward = next((n for n in ends[here] if n in left), None) if len(ends[here]) == 2 else None
    return found
