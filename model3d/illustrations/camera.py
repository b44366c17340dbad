"""Where an illustration is seen from: perspective or parallel projection onto a page in millimetres.

Page coordinates run right and down from the page's top left corner. Room frame: millimetres, z up.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from model3d.geometry.placement import Vec3

Points = npt.NDArray[np.float64]

_FAR_MM = 20_000.0  # how far in front of everything the rays of a parallel projection set out
LEAST_DISTANCE = 1.25  # the eye stays this many half-depths of the subject away from its middle


@dataclass(frozen=True, slots=True, kw_only=True)
class Camera:
    """A viewer that looks at ``target_mm`` from the unit direction ``toward`` (from the target to the viewer).

    ``distance_mm`` is from the target to the eye; None: parallel projection. ``scale`` is page mm per room mm at the
    target's depth; ``middle_mm`` where the target falls on the page. Raises ValueError when ``toward`` lies along
    ``up``.
    """

    target_mm: Vec3
    toward: Vec3
    up: Vec3 = (0.0, 0.0, 1.0)
    distance_mm: float | None = None
    scale: float = 1.0
    middle_mm: tuple[float, float] = (0.0, 0.0)

    def __post_init__(self) -> None:
        if np.linalg.norm(np.cross(self.up, self.toward)) < 1e-6:
            raise ValueError("the line of sight must not lie along the camera's up")

    @property
    def axes(self) -> Points:
        """Rows: unit right, unit up on the page, and toward the viewer, room frame."""
        toward = np.asarray(self.toward) / np.linalg.norm(self.toward)
        right = np.cross(self.up, toward)
        right = right / np.linalg.norm(right)
        return np.array([right, np.cross(toward, right), toward])

    def local(self, points_mm: Points) -> Points:
        """(n, 3) room points from the target: right, up, toward the viewer, mm."""
        return np.asarray(
            (np.asarray(points_mm, dtype=float).reshape(-1, 3) - np.asarray(self.target_mm)) @ self.axes.T
        )

    def project(self, points_mm: Points) -> Points:
        """(n, 3) room points as (n, 3): page right, page down, and how near they are (mm toward the viewer)."""
        local = self.local(points_mm)
        grown = np.full(len(local), self.scale)
        if self.distance_mm is not None:
            grown = self.scale * self.distance_mm / np.maximum(self.distance_mm - local[:, 2], 1e-3)
        x = self.middle_mm[0] + local[:, 0] * grown
        return np.column_stack([x, self.middle_mm[1] - local[:, 1] * grown, local[:, 2]])

    def sight(self, points_mm: Points) -> Points:
        """(n, 3) unit directions from room points to the viewer."""
        points = np.asarray(points_mm, dtype=float).reshape(-1, 3)
        if self.distance_mm is None:
            return np.broadcast_to(self.axes[2], points.shape)
        way = self.eye_mm - points
        return np.asarray(way / np.maximum(np.linalg.norm(way, axis=1, keepdims=True), 1e-9))

    @property
    def eye_mm(self) -> Points:
        """Where the viewer stands; for a parallel projection a point far off toward them."""
        distance = _FAR_MM if self.distance_mm is None else self.distance_mm
        return np.asarray(np.asarray(self.target_mm) + distance * self.axes[2])

    def rays(self, page_mm: Points) -> tuple[Points, Points]:
        """Origins and unit directions, (n, 3) each, of the rays from the viewer through (n, 2) points of the page."""
        across = (np.asarray(page_mm, dtype=float) - np.asarray(self.middle_mm)) / self.scale
        on_plane = np.asarray(self.target_mm) + across[:, :1] * self.axes[0] - across[:, 1:] * self.axes[1]
        if self.distance_mm is None:
            return on_plane + _FAR_MM * self.axes[2], np.broadcast_to(-self.axes[2], on_plane.shape)
        way = on_plane - self.eye_mm
        return np.broadcast_to(self.eye_mm, on_plane.shape), way / np.linalg.norm(way, axis=1, keepdims=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """A rectangle of the page, mm."""

    left: float
    top: float
    width: float
    height: float


def framed(points_mm: Points, camera: Camera, window: Window, *, scale: float | None = None) -> Camera:
    """The same line of sight with every point inside the window, as large as it goes (or at ``scale``), in its middle.

    A perspective eye too near the points is drawn back first. Raises ValueError when there is no point.
    """
    points = np.asarray(points_mm, dtype=float).reshape(-1, 3)
    if not len(points):
        raise ValueError("there is nothing to frame")
    middle = (points.min(axis=0) + points.max(axis=0)) / 2.0
    bare = replace(camera, target_mm=_vec(middle), scale=1.0, middle_mm=(0.0, 0.0))
    if bare.distance_mm is not None:
        reach = float(bare.local(points)[:, 2].max())
        bare = replace(bare, distance_mm=max(bare.distance_mm, LEAST_DISTANCE * reach))
    seen = bare.project(points)
    low, high = seen[:, :2].min(axis=0), seen[:, :2].max(axis=0)
    span = np.maximum(high - low, 1e-6)
    if scale is None:
        scale = float(min(window.width / span[0], window.height / span[1]))
    centre = np.array([window.left + window.width / 2, window.top + window.height / 2]) - (low + high) / 2 * scale
    return replace(bare, scale=scale, middle_mm=(float(centre[0]), float(centre[1])))


def _vec(row: Points) -> Vec3:
    return float(row[0]), float(row[1]), float(row[2])
