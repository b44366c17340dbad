"""From solids to the strokes of a drawing: what is seen, how heavy, joined up, with no more points than it needs.

Weights: thick where there is air behind a part's edge, medium for edges within it, thin for the room and for breaks.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from model3d.illustrations.camera import Camera, Points, Window
from model3d.illustrations.clipping import clipped
from model3d.illustrations.contours import Body, contours, edges
from model3d.illustrations.joining import joined, simplified
from model3d.illustrations.shapes import Line
from model3d.illustrations.sheet import Colour, Stroke, Weight
from model3d.illustrations.sight import NOTHING, Sight
from model3d.illustrations.visibility import visible

AIR_MM = 3.0  # another part this far behind an edge leaves air between
OWN_AIR_MM = 45.0  # the same, of the part itself
FAR_OFF = 0.12  # drawn smaller than this, everything takes the next thinner line
_PROBE_MM = 0.4  # of the page: how far beside a line it is asked what is there
_SHORTEST_RUN_MM = 2.5  # of the page: a weight does not change for less
_SHORTEST_STROKE_MM = 0.12

Flags = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shown:
    """A body in a drawing. ``soft`` bodies are the room: thin and grey. ``tint`` is its flat colour."""

    body: Body
    soft: bool = False
    tint: Colour | None = None


def strokes(
    shown: Sequence[Shown], sight: Sight, camera: Camera, rim: Window | None = None
) -> tuple[Stroke, ...]:
    """The seen lines of the bodies of ``sight``, which are those of ``shown`` in the same order; with a ``rim``, cut
    off at it.
    """
    lines: list[Line] = []
    owners: list[int] = []
    for number, one in enumerate(shown):
        mine = [*edges(one.body), *contours(one.body, camera)]
        if rim is not None:
            mine = [part for line in mine for part in clipped(line, camera, rim)]
        lines += mine
        owners += [number] * len(mine)
    seen = visible(lines, sight, camera)
    if not seen:
        return ()
    own = np.array([owners[stretch.line] for stretch in seen])
    heavy = _heavy([s.points_mm for s in seen], own, sight, camera)
    heavy_line: Weight = "medium" if camera.scale < FAR_OFF else "thick"
    light_line: Weight = "thin" if camera.scale < FAR_OFF else "medium"
    runs: list[tuple[int, bool, Weight, Points]] = []
    for stretch, owner, air in zip(seen, own.tolist(), heavy, strict=True):
        page = camera.project(stretch.points_mm)[:, :2]
        soft, fine = shown[owner].soft, lines[stretch.line].fine
        if soft or fine:
            runs.append((owner, soft, "thin", page))
        else:
            runs += [(owner, False, heavy_line if a else light_line, part) for a, part in _split(page, air)]
    return tuple(_written(runs, shown))


def _heavy(parts: list[Points], own: npt.NDArray[np.int64], sight: Sight, camera: Camera) -> list[Flags]:
    """For each polyline, (k - 1,) whether there is air beside each of its parts."""
    counts = [len(p) - 1 for p in parts]
    middles = np.concatenate([(p[:-1] + p[1:]) / 2 for p in parts])
    pages = [camera.project(p)[:, :2] for p in parts]
    along = np.concatenate([np.diff(p, axis=0) for p in pages])
    along = along / np.maximum(np.linalg.norm(along, axis=1, keepdims=True), 1e-9)
    here = camera.project(middles)
    owner = np.repeat(own, counts)
    air = np.zeros(len(middles), dtype=bool)
    for side in (1.0, -1.0):
        probe = here[:, :2] + side * _PROBE_MM * np.column_stack([-along[:, 1], along[:, 0]])
        ids, near = sight.seen(camera, probe)
        behind = here[:, 2] - near
        air |= (ids == NOTHING) | (behind > np.where(ids == owner, OWN_AIR_MM, AIR_MM))
    return np.split(air, np.cumsum(counts)[:-1])


def _split(page: Points, air: Flags) -> list[tuple[bool, Points]]:
    """A polyline cut where its weight changes, short runs taken in by what stands beside them."""
    long = np.linalg.norm(np.diff(page, axis=0), axis=1)
    starts = np.flatnonzero(np.r_[True, air[1:] != air[:-1]])
    runs = [(bool(air[a]), float(long[a:b].sum()), b) for a, b in zip(starts, [*starts[1:], len(air)], strict=True)]
    while len(runs) > 1 and min(r[1] for r in runs) < _SHORTEST_RUN_MM:
        k = min(range(len(runs)), key=lambda i: runs[i][1])
        before, after = runs[max(k - 1, 0) : k], runs[k + 1 : k + 2]
        whole = [*before, runs[k], *after]
        flag = (before or after)[0][0]
        merged = (flag, sum(r[1] for r in whole), whole[-1][2])
        runs[max(k - 1, 0) : k + 2] = [merged]
    found, first = [], 0
    for flag, _, last in runs:
        found.append((flag, page[first : last + 1]))
        first = int(last)
    return found


def _written(runs: list[tuple[int, bool, Weight, Points]], shown: Sequence[Shown]) -> list[Stroke]:
    """Runs of one part and one weight joined end to end, thin ones first so that thick ones lie over them."""
    groups: dict[tuple[int, bool, Weight], list[Points]] = {}
    for owner, soft, weight, page in runs:
        groups.setdefault((owner, soft, weight), []).append(page)
    order = {"thin": 0, "medium": 1, "thick": 2}
    found = []
    for (owner, soft, weight), pages in sorted(groups.items(), key=lambda g: (order[g[0][2]], g[0][0])):
        for line in joined(pages):
            if np.linalg.norm(np.diff(line, axis=0), axis=1).sum() < _SHORTEST_STROKE_MM:
                continue
            closed = len(line) > 3 and float(np.abs(line[0] - line[-1]).max()) < 1e-6
            points = tuple((float(x), float(y)) for x, y in simplified(line))
            colour: Colour = "soft" if soft else "ink"
            found.append(
                Stroke(points=points, weight=weight, colour=colour, closed=closed, owner=shown[owner].body.owner)
            )
    return found
