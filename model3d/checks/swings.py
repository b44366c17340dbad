"""What to do about a door leaf or a sash that swings over a run: how far it may open, and whether the other side
would do.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from model3d.checks.trial import Trial
from model3d.geometry.placement import Placement, Vec2
from model3d.parts.room import SectorSpec
from model3d.scene import Part
from model3d.solids.build import solid
from model3d.solids.mesh import solid_mesh

Points = npt.NDArray[np.float64]

SHORT_OF_DEG = 3.0  # a stop holds the leaf this far short of the first touch
MESH_MM, MESH_DEG = 0.1, 15.0


def sector_of(swing: Part) -> SectorSpec:
    """The sector a leaf sweeps. Raises TypeError for a part that is no swing."""
    if not isinstance(swing.spec, SectorSpec):
        raise TypeError(f"{swing.id} is no swing")
    return swing.spec


def opened(swing: Part, to_deg: float) -> Part:
    """The same door opened no further than an angle."""
    spec = sector_of(swing)
    return replace(swing, spec=replace(spec, sweep_deg=math.copysign(to_deg, spec.sweep_deg)))


def rehung(swing: Part) -> Part:
    """The same door with its hinges on the other side."""
    spec = sector_of(swing)
    along = spec.radius_mm * math.cos(math.radians(spec.start_deg))
    return replace(
        swing,
        spec=replace(spec, start_deg=180.0 - spec.start_deg, sweep_deg=-spec.sweep_deg),
        placement=swing.placement @ Placement(origin_mm=(along, 0.0, 0.0)),
    )


def stop_deg(
    swing: Part, met: Sequence[Part], fitted: Sequence[Part], trial: Trial, least_deg: float
) -> float | None:
    """The whole angle at which a stop keeps the leaf clear of all that is fitted; None when that is under
    ``least_deg``.
    """
    angle = math.floor(min(first_touch_deg(swing, part) for part in met) - SHORT_OF_DEG)
    while angle >= least_deg:
        if trial.is_free(opened(swing, angle), fitted):
            return angle
        angle -= 1
    return None


def first_touch_deg(swing: Part, part: Part) -> float:
    """How far the leaf opens until it first meets a part: the least angle of the part's edges within its
    reach, 0 when the part stands across the shut leaf.
    """
    spec = sector_of(swing)
    ways = _plan_points(swing, part)
    if not len(ways):
        return abs(spec.sweep_deg)
    sign = math.copysign(1.0, spec.sweep_deg)
    from_shut = np.degrees(np.arctan2(ways[:, 1], ways[:, 0])) * sign - spec.start_deg * sign
    angles = (from_shut + 180.0) % 360.0 - 180.0
    ahead = angles[angles >= 0.0]
    across = len(ahead) < len(angles) and np.ptp(angles) < 180.0
    return 0.0 if across or not len(ahead) else float(ahead.min())


def _plan_points(swing: Part, part: Part) -> Points:
    """The ends of a part's mesh edges, cut to the leaf's height and reach, seen from above in the hinge's
    frame, (n, 2).
    """
    spec = sector_of(swing)
    mesh = solid_mesh(solid(part.spec).wrapped, part.id, deflection_mm=MESH_MM, angle_deg=MESH_DEG)
    there = mesh.placed(swing.placement.inverse() @ part.placement).vertices_mm
    edges = np.concatenate([there[mesh.triangles[:, pair]] for pair in ((0, 1), (1, 2), (2, 0))])
    low, high = _within_height(edges, spec.height_mm)
    a, way = edges[:, 0, :2], edges[:, 1, :2] - edges[:, 0, :2]
    square, middle = np.einsum("ij,ij->i", way, way), np.einsum("ij,ij->i", a, way)
    root = middle**2 - square * (np.einsum("ij,ij->i", a, a) - spec.radius_mm**2)
    safe = np.where(square > 1e-12, square, 1.0)
    half = np.sqrt(np.maximum(root, 0.0)) / safe
    low, high = np.maximum(low, -middle / safe - half), np.minimum(high, -middle / safe + half)
    inside = (low <= high) & (root > 0.0) & (square > 1e-12)
    ends = [a[inside] + share[inside, None] * way[inside] for share in (low, high)]
    return np.asarray(np.concatenate(ends))


def _within_height(edges: Points, height_mm: float) -> tuple[Points, Points]:
    """From what share to what share along each edge it stands between 0 and a height; the first past the
    second where it does not.
    """
    z, rise = edges[:, 0, 2], edges[:, 1, 2] - edges[:, 0, 2]
    level = np.abs(rise) < 1e-12
    safe = np.where(level, 1.0, rise)
    shares = np.sort(np.stack([-z / safe, (height_mm - z) / safe]), axis=0)
    inside = level & (z >= 0.0) & (z <= height_mm)
    low = np.where(level, np.where(inside, 0.0, 2.0), np.maximum(shares[0], 0.0))
    high = np.where(level, np.where(inside, 1.0, -1.0), np.minimum(shares[1], 1.0))
    return low, high


def swept_outline(swing: Part, frame: Placement) -> tuple[Vec2, ...]:
    """The sector seen from above in a frame: the hinge and points of the arc, a quarter of a degree apart."""
    spec, there = sector_of(swing), frame.inverse() @ swing.placement
    count = max(2, math.ceil(abs(spec.sweep_deg) * 4.0))
    found = [there.origin_mm]
    for k in range(count + 1):
        angle = math.radians(spec.start_deg + spec.sweep_deg * k / count)
        found.append(there.point((spec.radius_mm * math.cos(angle), spec.radius_mm * math.sin(angle), 0.0)))
    return tuple((x, y) for x, y, _ in found)
