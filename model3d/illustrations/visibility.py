"""Which stretches of a line nothing hides: samples spread evenly over the page, ends found by halving.

A sharp edge is hidden by its own solid where both its faces turn away (one of them, in a valley); what else may hide
it, and what hides a contour, is asked with a ray that sets out a little off the solid.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from model3d.illustrations.camera import Camera, Points
from model3d.illustrations.shapes import DEFLECTION_MM, Line, Numbers
from model3d.illustrations.sight import Sight

EDGE_OFF_MM = 0.8 * DEFLECTION_MM  # how far off the solid rays set out: an edge lies on the mesh
CONTOUR_OFF_MM = 2.2 * DEFLECTION_MM  # a contour within it, and the mesh may stand out by its deflection
STEP_MM = 0.30  # of the page, between samples
_HALVINGS = 10
_BENDS = ("contour", "ridge", "valley")

Flags = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Visible:
    """A stretch that is seen of the line numbered ``line``: ``points_mm`` (k, 3) in the room."""

    line: int
    points_mm: Points


def visible(lines: Sequence[Line], sight: Sight, camera: Camera) -> list[Visible]:
    """The stretches of the lines that nothing hides, in order."""
    if not lines:
        return []
    samples = _Samples.along(lines, camera)
    owner = samples.owner
    inner = np.flatnonzero(owner[:-1] == owner[1:])  # parts of lines, by the number of their first point
    hidden = samples.at(inner, np.full(len(inner), 0.5)).hidden(sight, camera)
    change = np.flatnonzero((hidden[:-1] != hidden[1:]) & (owner[inner[:-1]] == owner[inner[1:]]))
    turns = _halved(samples, inner[change], hidden[change], sight, camera)
    return list(_stretches(samples.points, owner, inner, hidden, dict(zip(change.tolist(), turns, strict=True))))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Samples:
    """Points on lines: ``sides`` (n, 2, 3) are the surface's normals there, ``bend`` the place in ``_BENDS``."""

    points: Points
    sides: Points
    bend: Numbers
    owner: Numbers

    @classmethod
    def along(cls, lines: Sequence[Line], camera: Camera) -> _Samples:
        """The lines' points, with more put in so that no two stand further apart than a step on the page."""
        parts = [_refined(line, camera) for line in lines]
        counts = [len(points) for points, _ in parts]
        return cls(
            points=np.concatenate([points for points, _ in parts]),
            sides=np.concatenate([sides for _, sides in parts]),
            bend=np.repeat([_BENDS.index(line.bend) for line in lines], counts),
            owner=np.repeat(np.arange(len(lines)), counts),
        )

    def at(self, first: Numbers, share: Points) -> _Samples:
        """Points between the points numbered ``first`` and the next ones."""
        s = share[:, None]
        return _Samples(
            points=self.points[first] * (1 - s) + self.points[first + 1] * s,
            sides=self.sides[first] * (1 - s[:, None]) + self.sides[first + 1] * s[:, None],
            bend=self.bend[first],
            owner=self.owner[first],
        )

    def hidden(self, sight: Sight, camera: Camera) -> Flags:
        """Which of the points are hidden."""
        to_viewer = camera.sight(self.points)
        turned = np.einsum("ikj,ij->ik", self.sides, to_viewer) <= 0
        away = np.where(self.bend == 1, turned.all(axis=1), (self.bend == 2) & turned.any(axis=1))
        out = self.sides.sum(axis=1)
        long = np.linalg.norm(out, axis=1, keepdims=True)
        out = np.where(long > 0.05, out / np.maximum(long, 1e-9), self.sides[:, 0])
        off = np.where(self.bend == 0, CONTOUR_OFF_MM, EDGE_OFF_MM)[:, None]
        found = away.copy()
        found[~away] = sight.hidden(camera, (self.points + off * out)[~away])
        return np.asarray(found)


def _refined(line: Line, camera: Camera) -> tuple[Points, Points]:
    seen = camera.project(line.points_mm)[:, :2]
    counts = np.maximum(np.ceil(np.linalg.norm(np.diff(seen, axis=0), axis=1) / STEP_MM), 1).astype(int)
    which = np.repeat(np.arange(len(counts)), counts)
    first = np.repeat(np.cumsum(counts) - counts, counts)
    share = ((np.arange(counts.sum()) - first) / counts[which])[:, None]
    points = line.points_mm[which] * (1 - share) + line.points_mm[which + 1] * share
    sides = [side[which] * (1 - share) + side[which + 1] * share for side in line.sides]
    ends = np.stack([side[-1:] for side in line.sides], axis=1)
    return np.vstack([points, line.points_mm[-1:]]), np.concatenate([np.stack(sides, axis=1), ends])


def _halved(samples: _Samples, first: Numbers, before: Flags, sight: Sight, camera: Camera) -> Points:
    """Where sight begins or ends between the middle of the part that begins at ``first`` and the middle of the next:
    (n, 3) points. ``before`` says whether the earlier middle is hidden.
    """
    low, high = np.full(len(first), 0.5), np.full(len(first), 1.5)

    def place(share: Points) -> _Samples:
        over = share >= 1.0
        return samples.at(first + over, share - over)

    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        same = place(middle).hidden(sight, camera) == before
        low, high = np.where(same, middle, low), np.where(same, high, middle)
    return place((low + high) / 2).points


def _stretches(
    points: Points, owner: Numbers, inner: Numbers, hidden: Flags, turns: dict[int, Any]
) -> Iterator[Visible]:
    """Runs of seen parts as polylines, from one end of sight to the other."""
    line: list[Points] = []
    for k, start in enumerate(inner.tolist()):
        if hidden[k]:
            continue
        joint = points[start + 1]
        if not line:
            line = [turns[k - 1]] if k - 1 in turns else [points[start]]
            if k - 1 in turns and np.dot(turns[k - 1] - points[start], joint - points[start]) < 0:
                line.append(points[start])
        last = k + 1 == len(inner) or owner[inner[k + 1]] != owner[start]
        if not last and not hidden[k + 1]:
            line.append(joint)
            continue
        beyond = last or np.dot(turns[k] - joint, joint - points[start]) > 0
        line += [joint] if beyond else []
        line += [] if last else [turns[k]]
        yield Visible(line=int(owner[start]), points_mm=np.array(line))
        line = []
