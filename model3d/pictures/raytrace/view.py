"""The camera and the light as plain values, and the projection between room and picture."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from model3d.geometry.placement import Vec3
from model3d.pictures.raytrace.surface import Rgb

F64 = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """A pinhole camera: eye and target in room millimetres, the way up, full horizontal field of view, picture size.

    ``size_px`` is (width, height). ``shift`` moves the picture up the plane it is taken on by that share of its height
    (down below 0), as a shift lens does: a level eye keeps uprights upright and still looks at the floor.
    Raises ValueError when the eye stands on the target or up lies along the sight.
    """

    eye_mm: Vec3
    target_mm: Vec3
    up: Vec3 = (0.0, 0.0, 1.0)
    field_of_view_deg: float = 26.0
    size_px: tuple[int, int] = (1600, 1000)
    shift: float = 0.0

    def __post_init__(self) -> None:
        if not 1.0 <= self.field_of_view_deg <= 120.0:
            raise ValueError(f"field of view {self.field_of_view_deg} is not within 1 to 120 degrees")
        if not -1.0 <= self.shift <= 1.0:
            raise ValueError(f"shift {self.shift} is not within -1 to 1")
        if min(self.size_px) < 1:
            raise ValueError(f"picture size {self.size_px} is empty")
        self.axes()

    def axes(self) -> F64:
        """Unit rows right, up, forward in room axes, (3, 3)."""
        forward = np.subtract(self.target_mm, self.eye_mm).astype(np.float64)
        distance = float(np.linalg.norm(forward))
        if distance < 1e-6:
            raise ValueError(f"the eye {self.eye_mm} stands on the target")
        forward /= distance
        right = np.cross(forward, np.asarray(self.up, np.float64))
        if float(np.linalg.norm(right)) < 1e-6:
            raise ValueError(f"up {self.up} lies along the line of sight")
        right /= np.linalg.norm(right)
        return np.stack([right, np.cross(right, forward), forward])

    def half_width(self) -> float:
        """Half the picture's width on a plane one unit ahead."""
        return math.tan(math.radians(self.field_of_view_deg) / 2)

    def project(self, points_mm: F64) -> F64:
        """Picture coordinates (n, 3) of points (n, 3) mm: x px to the right, y px down, depth mm along the sight.

        The picture's upper left corner is (0, 0), a pixel's centre is at half numbers. Points at or behind the eye
        get not-a-number x and y.
        """
        width, height = self.size_px
        local = (np.asarray(points_mm, np.float64) - np.asarray(self.eye_mm)) @ self.axes().T
        depth = np.where(local[:, 2] > 1e-9, local[:, 2], np.nan)
        scale = width / 2 / self.half_width()
        x = width / 2 + local[:, 0] / depth * scale
        y = (0.5 + self.shift) * height - local[:, 1] / depth * scale
        return np.stack([x, y, local[:, 2]], axis=1)


ENCLOSED_BOUNCES = 10
"""After so many bounces between walls that send on four fifths, a tenth of the light is still under way."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Portal:
    """An opening that daylight comes in by: a parallelogram from a corner along two edges, room frame, mm. The sky
    lies on the side that edge one x edge two points to."""

    corner_mm: Vec3
    edges_mm: tuple[Vec3, Vec3]


@dataclass(frozen=True, slots=True, kw_only=True)
class Light:
    """Sun, sky and ground.

    ``sun_from`` points toward the sun (any length). ``sun`` is what a white surface that faces it receives, ``sky``
    what a level one in the open receives; ``sky_gradient`` is how much brighter the sky is overhead than at the
    horizon. ``sun_width_deg`` is the sun's apparent diameter: wider is softer.
    ``ground_mm`` is the height of the grey ground the room stands on, None to put it under the lowest vertex.
    ``tinge`` is how much colour the light takes on from surfaces it bounces off (1 as in nature). ``exposure`` None
    meters the light that falls on what is seen and brings it to ``metered``.
    ``portals`` are the openings that the sky is looked for through, so that small ones give even light.
    ``enclosed`` says that the surfaces close a space in, so that light is worked out from what comes in, in
    ``ENCLOSED_BOUNCES`` bounces; without it the first guess is that every surface is lit as in the open.
    """

    sun_from: Vec3 = (-0.45, -0.55, 0.85)
    sun: Rgb = (0.50, 0.475, 0.43)
    sky: Rgb = (0.52, 0.545, 0.575)
    sky_gradient: float = 0.45
    sun_width_deg: float = 5.0
    ground_albedo: float = 0.75
    ground_mm: float | None = None
    tinge: float = 0.32
    exposure: float | None = None
    metered: float = 1.04
    background: Rgb = (0.855, 0.855, 0.85)
    enclosed: bool = False
    portals: tuple[Portal, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """How much work a picture gets.

    ``samples_per_pixel`` at edges (1 off, 8 default, 16 fine); ``ambient_rays`` per gathering point, one point each
    ``gather_px`` pixels across; ``sun_rays`` per pixel, doubled where a shadow's edge is soft; ``bounces`` of light
    between surfaces (0 to 8); ``reflection_rays`` per glossy pixel; ``denoise`` passes (0 off); ``seed`` of the draw;
    ``threads`` at work (the picture does not depend on it).
    """

    samples_per_pixel: int = 8
    ambient_rays: int = 32
    sun_rays: int = 4
    bounces: int = 3
    reflection_rays: int = 2
    gather_px: int = 2
    denoise: int = 4
    seed: int = 1
    threads: int = 2
    light: Light = Light()

    def __post_init__(self) -> None:
        least = {"samples_per_pixel": 1, "ambient_rays": 1, "sun_rays": 1, "gather_px": 1, "threads": 1}
        for name, floor in least.items():
            if getattr(self, name) < floor:
                raise ValueError(f"{name} is {getattr(self, name)}, less than {floor}")


DRAFT = Settings(samples_per_pixel=4, ambient_rays=16, sun_rays=2, reflection_rays=1, gather_px=3)
"""About two thirds of the default time: for trying viewpoints and finishes."""

FINE = Settings(samples_per_pixel=16, ambient_rays=64, sun_rays=8, reflection_rays=4, gather_px=1)
"""About four times the default time: for print at full page."""
