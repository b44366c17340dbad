"""What light comes from where: sky, ground and sun, in units of what a white surface sends on."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from model3d.pictures.raytrace.view import Light

F32 = npt.NDArray[np.float32]


@dataclass(frozen=True, slots=True)
class Sky:
    """The light with its numbers worked out: unit direction to the sun, its half width (radians), colours (3,)."""

    toward_sun: F32
    half_width: float
    sun: F32
    sky: F32
    ground: F32
    gradient: float

    def radiance(self, directions: F32) -> F32:
        """Light (n, 3) that comes in along rays that meet nothing: the sky, brighter overhead, or the ground."""
        z = directions[:, 2:3]
        lightness = np.float32(1 - 2 * self.gradient / 3) + np.float32(self.gradient) * z
        return np.where(z >= 0, self.sky * lightness, self.ground)

    @property
    def open_ground(self) -> F32:
        """What level white ground in the open receives, (3,)."""
        return np.asarray(self.sky + self.sun * max(float(self.toward_sun[2]), 0.0), np.float32)


def sky_of(light: Light) -> Sky:
    """The sky of a light. Raises ValueError when the sun has no direction."""
    toward = np.asarray(light.sun_from, np.float64)
    size = float(np.linalg.norm(toward))
    if size < 1e-9:
        raise ValueError("sun_from has no length")
    toward = toward / size
    sun, sky = np.asarray(light.sun, np.float32), np.asarray(light.sky, np.float32)
    level = sky + sun * np.float32(max(toward[2], 0.0))
    return Sky(
        toward_sun=toward.astype(np.float32),
        half_width=float(np.radians(light.sun_width_deg / 2)),
        sun=sun,
        sky=sky,
        ground=np.asarray(level * np.float32(light.ground_albedo), np.float32),
        gradient=light.sky_gradient,
    )
